package trend

import "math"

// student is Student's t distribution.
type student struct {
	nu     float64 // degrees of freedom, above 0
	lnBeta float64 // of nu/2 and 1/2
}

func newStudent(nu float64) student {
	whole, _ := math.Lgamma((nu + 1) / 2)
	part, _ := math.Lgamma(nu / 2)
	half, _ := math.Lgamma(0.5)
	return student{nu, part + half - whole}
}

// cdf is the probability of a value up to t.
func (s student) cdf(t float64) float64 {
	if t > 0 {
		return 1 - s.tail(t)
	}
	return s.tail(-t)
}

// tail is the probability of a value above t, which is 0 or more: half the
// incomplete beta function of nu/2 and 1/2 (DLMF 8.17).
func (s student) tail(t float64) float64 {
	a, b := s.nu/2, 0.5
	x, y := 1/(1+t*t/s.nu), 1/(1+s.nu/(t*t)) // y is 1-x, but keeps its digits where t is small
	if y == 0 {
		return 0.5
	}
	front := math.Exp(a*math.Log(x) + b*math.Log(y) - s.lnBeta)
	if x < (a+1)/(a+b+2) {
		return front * betaFraction(a, b, x) / a / 2
	}
	return 0.5 - front*betaFraction(b, a, y)/b/2
}

// betaFraction is the continued fraction of the incomplete beta function (DLMF
// 8.17.22), by Lentz's method. It is quick where x < (a+1)/(a+b+2).
func betaFraction(a, b, x float64) float64 {
	c, d := 1.0, 1/(1-(a+b)*x/(a+1))
	f := d
	for m := 1.0; m < 300; m++ {
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d, c = 1/(1+even*d), 1+even/c
		f *= c * d
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d, c = 1/(1+odd*d), 1+odd/c
		f *= c * d
		if math.Abs(c*d-1) < 1e-15 {
			break
		}
	}
	return f
}

// density is that of the distribution at t.
func (s student) density(t float64) float64 {
	return math.Exp(-(s.nu+1)/2*math.Log1p(t*t/s.nu)-s.lnBeta) / math.Sqrt(s.nu)
}

// quantile is the value that is not passed with probability p, within 0 and 1.
// Newton's steps from 0 come to it from one side, for the curve bends one way.
func (s student) quantile(p float64) float64 {
	if p < 0.5 {
		return -s.quantile(1 - p)
	}
	t := 0.0
	for range 100 {
		step := (s.tail(t) - (1 - p)) / s.density(t)
		t += step
		if math.Abs(step) <= 1e-12*(1+t) {
			break
		}
	}
	return t
}
