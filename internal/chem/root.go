package chem

import "math"

// falling finds where f, which falls, crosses zero between lo and hi. It is
// false where f has one sign at both ends.
//
// It is Chandrupatla's method (Adv. Eng. Softw. 28, 145, 1997): bisection,
// with inverse quadratic steps where those are safe. The root is good to about
// 1e-13.
func falling(lo, hi float64, f func(float64) float64) (x float64, ok bool) {
	a, b := hi, lo
	fa, fb := f(a), f(b)
	switch {
	case !(fb >= 0 && fa <= 0):
		return 0, false
	case fa == 0: // the steps below take 0 for positive
		return a, true
	}
	const near, most = 1e-13, 200
	t := 0.5
	for range most {
		x = a + t*(b-a)
		fx := f(x)
		c, fc := a, fa
		if math.Signbit(fx) != math.Signbit(fa) {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx
		if math.Abs(fb) < math.Abs(fa) {
			x = b
		}
		limit := near / math.Abs(b-c)
		if limit > 0.5 || fa == 0 || fb == 0 {
			return x, true
		}
		t = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = min(1-limit, max(limit, t))
	}
	return x, true
}
