package trend

import "math"

// Horizon is how far a forecast looks, in days. A date at the horizon means:
// later.
const Horizon = 120

// State says which kind of answer a forecast is.
type State string

// The states of a forecast.
const (
	NoDate State = "no-date" // fewer than two readings
	Dated  State = "dated"
	Later  State = "later" // even the early date is beyond the horizon
	Due    State = "due"   // probably at the limit already
)

// Note is the state as words for the crew; none where the dates say it all.
func (s State) Note() string {
	switch s {
	case NoDate:
		return "no date yet"
	case Later:
		return "later than 120 days"
	case Due:
		return "probably already due: measure again"
	}
	return ""
}

// Forecast says when the bath will reach its limit. Without a date all numbers
// are NaN.
type Forecast struct {
	State State

	// Q10, Q50 and Q90 are days from now by which the limit is reached with a
	// probability of 10, 50 and 90 %; [Horizon] where it is later.
	Q10, Q50, Q90 float64

	P7, P14, P28 float64 // probability that it is reached within so many days
}

// Forecast looks ahead from now. Of made-up baths with all the faults that we
// could think of, 79 to 88 in 100 came to the limit between Q10 and Q90. It errs
// early: of chances of 50 to 70 % fewer than half came true.
func (f *Fit) Forecast() Forecast {
	if f.Readings() < leastReadings {
		nan := math.NaN()
		return Forecast{NoDate, nan, nan, nan, nan, nan, nan}
	}
	c := f.curve()
	out := Forecast{
		State: Dated,
		Q10:   c.date(0.1), Q50: c.date(0.5), Q90: c.date(0.9),
		P7: c.within(7), P14: c.within(14), P28: c.within(28),
	}
	switch {
	case c[0] >= 0.5:
		out.State = Due
	case c[len(c)-1] < 0.1:
		out.State = Later
	}
	return out
}

// perStep is the step of the curve in days.
const perStep = 0.5

// curve is the probability that the limit is reached by each half day from now.
type curve [Horizon/perStep + 1]float64

// curve leaves out the baths that rise, for a bath does not do so by itself,
// and lets no bath come back from its limit.
func (f *Fit) curve() *curve {
	var c curve
	w := f.in.ahead()
	falls := f.falls(w.rate)
	x := f.row(f.in.Now, 0)
	var most float64
	for i := range c {
		mean, variance := f.path(w, float64(i)*perStep, x)
		if p := f.t.cdf((f.in.limit() - mean) / math.Sqrt(variance)); p > most*falls {
			most = min(1, p/falls)
		}
		c[i] = most
	}
	return &c
}

// path is where the bath itself lies tau days from now, meter apart, with its
// variance. It writes into x, a row of now.
func (f *Fit) path(w ahead, tau float64, x []float64) (mean, variance float64) {
	loads, loadVar := w.by(tau)
	x[perDay], x[perLoad] = f.in.Now+tau, f.in.loadsNow()+loads
	b := f.mean[perLoad]
	return dot(x, f.mean), f.cov.spread(x) + b*b*loadVar + unruly*unruly
}

// falls is the probability that the bath falls, washed at a rate.
func (f *Fit) falls(rate float64) float64 {
	c := make([]float64, len(f.mean))
	c[perDay], c[perLoad] = -1, -rate
	return f.t.cdf(dot(c, f.mean) / math.Sqrt(f.cov.spread(c)))
}

// date is when the curve comes to p, in days from now.
func (c *curve) date(p float64) float64 {
	for i, at := range c {
		switch {
		case at < p:
		case i == 0:
			return 0
		default:
			return (float64(i) - (at-p)/(at-c[i-1])) * perStep
		}
	}
	return Horizon
}

// within is the probability that the limit is reached within whole days.
func (c *curve) within(days int) float64 { return c[int(float64(days)/perStep)] }

// Fan is where the bath lies tau days from now as offsets, meter apart: below
// Low and above High in one case of ten each. Low comes to the limit at Q10
// where the readings leave no doubt that the bath falls.
func (f *Fit) Fan(tau float64) (low, mid, high float64) {
	mid, variance := f.path(f.in.ahead(), tau, f.row(f.in.Now, 0))
	half := f.t.quantile(0.9) * math.Sqrt(variance)
	return mid - half, mid, mid + half
}
