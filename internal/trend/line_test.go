package trend

import (
	"math"
	"testing"
)

// line fits a straight line by least squares: see least.
func line(xs, ys []float64) (mean []float64, cov matrix, sigma2 float64) {
	rows := make([][]float64, len(xs))
	for i, x := range xs {
		rows[i] = []float64{1, x}
	}
	return least(rows, ys)
}

// Source: NIST StRD, linear least squares, Norris, certified values. Without a
// prior and with even weights the arithmetic of the fit is least squares.
func TestNorris(t *testing.T) {
	c := readColumns(t, "norris.csv")
	m, cov, s2 := line(c["x"], c["y"])
	for _, tt := range []struct {
		name      string
		got, want float64
	}{
		{"B0", m[0], -0.262323073774029},
		{"B1", m[1], 1.00211681802045},
		{"sd of B0", math.Sqrt(cov[0][0]), 0.232818234301152},
		{"sd of B1", math.Sqrt(cov[1][1]), 0.429796848199937e-03},
		{"residual sd", math.Sqrt(s2), 0.884796396144373},
	} {
		if math.Abs(tt.got/tt.want-1) > 0.5e-9 {
			t.Errorf("%s: got %.12g, want %.12g: nine digits", tt.name, tt.got, tt.want)
		}
	}
}

// Source: oxygen is Montgomery and Runger, table 11-2; rocket is Montgomery,
// Peck and Vining, example 2.7, which works with a rounded slope. The interval
// is that of the entry check.
func TestPredictionInterval(t *testing.T) {
	for _, tt := range []struct {
		file                string
		at, mid, low, high  float64
		tolMid, tolInterval float64
	}{
		{"oxygen.csv", 1, 89.231, 86.830, 91.632, 0.0006, 0.0006},
		{"rocket.csv", 10, 2256.32, 2048.32, 2464.32, 0.2, 0.2},
	} {
		c := readColumns(t, tt.file)
		m, cov, s2 := line(c["x"], c["y"])
		x := []float64{1, tt.at}
		half := newStudent(float64(len(c["x"])-2)).quantile(0.975) * math.Sqrt(cov.spread(x)+s2)
		mid := dot(x, m)
		alike(t, tt.file+" fit", []float64{mid}, []float64{tt.mid}, tt.tolMid)
		alike(t, tt.file+" interval", []float64{mid - half, mid + half}, []float64{tt.low, tt.high}, tt.tolInterval)
	}
}

// Source: Graybill and Iyer, Regression Analysis, p. 433 and 434. A date is the
// same question: where does the mean reach a level. The limits are where the
// forecast's chance of having reached it comes to the tail.
func TestInversePrediction(t *testing.T) {
	for _, tt := range []struct {
		file           string
		level, tail    float64
		mid, low, high float64
	}{
		{"chamber.csv", 400, 0.005, 66.5, 65.07, 68.03},
		{"crystal.csv", 5, 0.05, 9.93, 8.65, 11.05},
	} {
		c := readColumns(t, tt.file)
		m, cov, _ := line(c["x"], c["y"])
		student := newStudent(float64(len(c["x"]) - 2))
		where := func(p float64) float64 {
			return bisect(0, 100, func(at float64) bool {
				x := []float64{1, at}
				return student.cdf((dot(x, m)-tt.level)/math.Sqrt(cov.spread(x))) < p
			})
		}
		alike(t, tt.file, []float64{where(0.5), where(tt.tail), where(1 - tt.tail)},
			[]float64{tt.mid, tt.low, tt.high}, 0.05)
		alike(t, tt.file+" limits", []float64{where(tt.tail), where(1 - tt.tail)}, []float64{tt.low, tt.high}, 0.005)
	}
}

// bisect finds where below turns false.
func bisect(lo, hi float64, below func(float64) bool) float64 {
	for range 60 {
		if mid := (lo + hi) / 2; below(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// Source: scipy 1.10.1, theilslopes with the intercept through both medians.
// It is only a rival in the benchmark, but a fair one.
func TestRivalIsTheilSen(t *testing.T) {
	c := readColumns(t, "bathlike.csv")
	at0, slope := theilSen(c["t_days"], c["pH"])
	alike(t, "bathlike.csv", []float64{at0, slope}, []float64{10.466357142857142, -0.01571428571428572}, 1e-12)
	c = readColumns(t, "norris.csv")
	at0, slope = theilSen(c["x"], c["y"])
	alike(t, "norris.csv", []float64{at0, slope}, []float64{-0.0640158172232077, 1.0021968365553604}, 1e-9)
}
