package trend

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: NIST/SEMATECH e-Handbook 1.3.6.7.2, critical values of Student's t.
func TestStudentTable(t *testing.T) {
	ps := []float64{0.90, 0.95, 0.975, 0.99, 0.995}
	for _, row := range []struct {
		nu   float64
		want []float64
	}{
		{1, []float64{3.078, 6.314, 12.706, 31.821, 63.657}},
		{2, []float64{1.886, 2.920, 4.303, 6.965, 9.925}},
		{5, []float64{1.476, 2.015, 2.571, 3.365, 4.032}},
		{6, []float64{1.440, 1.943, 2.447, 3.143, 3.707}},
		{10, []float64{1.372, 1.812, 2.228, 2.764, 3.169}},
		{20, []float64{1.325, 1.725, 2.086, 2.528, 2.845}},
		{30, []float64{1.310, 1.697, 2.042, 2.457, 2.750}},
		{100, []float64{1.290, 1.660, 1.984, 2.364, 2.626}},
	} {
		var got []float64
		for _, p := range ps {
			got = append(got, newStudent(row.nu).quantile(p))
		}
		alike(t, "quantile", got, row.want, 0.00051)
	}
}

// Source: the closed forms for one, two and four degrees of freedom.
func TestStudentClosedForms(t *testing.T) {
	for x := -50.0; x <= 50; x += 0.37 {
		one := 0.5 + math.Atan(x)/math.Pi
		two := 0.5 + x/(2*math.Sqrt2*math.Sqrt(1+x*x/2))
		w := x * x / (1 + x*x/4)
		four := 0.5 + 3.0/8*x/math.Sqrt(1+x*x/4)*(1-w/12)
		alike(t, "cdf", []float64{newStudent(1).cdf(x), newStudent(2).cdf(x), newStudent(4).cdf(x)},
			[]float64{one, two, four}, 1e-14)
	}
}

func TestStudentEdges(t *testing.T) {
	s := newStudent(9)
	alike(t, "cdf", []float64{s.cdf(0), s.cdf(math.Inf(1)), s.cdf(math.Inf(-1)), s.cdf(1e-9), s.cdf(1e200)},
		[]float64{0.5, 1, 0, 0.5, 1}, 1e-9)
	alike(t, "quantile", []float64{s.quantile(0.5)}, []float64{0}, 0)
}

func TestStudentQuantileUndoesCdf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newStudent(rapid.Float64Range(2, 60).Draw(t, "nu"))
		p := rapid.Float64Range(0.001, 0.999).Draw(t, "p")
		if got := s.cdf(s.quantile(p)); math.Abs(got-p) > 1e-10 {
			t.Errorf("got %g, want %g", got, p)
		}
	})
}
