package trend

import "math"

// variant says how unruly the made-up baths are.
type variant struct {
	name     string
	blunders bool // 5 % of the readings are off by 0.3 to 1
	unruly   bool // the fall slows, the pH wanders, the meter is biased, busy weeks come in rows
	topUp    bool // soap of unknown effect is added once
}

var variants = []variant{
	{"G1_clean", false, false, false},
	{"G2_outliers", true, false, false},
	{"G3_full", true, true, false},
	{"G4_full_topup", true, true, true},
}

// bath is one made-up fill. Its pH follows a smooth path; what is read scatters
// about it.
type bath struct {
	variant
	perDay, perLoad float64
	start           float64
	week            float64 // loads
	sigma           float64 // of the meter
	now             float64
	topUpDay, rise  float64
	washed          []float64 // loads by the start of each day
}

// newBath draws a bath of a variant, watched for some days.
func newBath(d dice, v variant) *bath {
	b := &bath{
		variant: v,
		perDay:  0.004 * math.Exp(0.6*d.NormFloat64()),
		perLoad: 0.008 * math.Exp(0.6*d.NormFloat64()),
		week:    2 * d.gamma(4),
		sigma:   d.uniform(0.05, 0.10),
	}
	b.refill(d, d.uniform(10, 45))
	return b
}

// refill gives the bath fresh water and new days, of the same ways.
func (b *bath) refill(d dice, now float64) {
	b.now = now
	b.start = 0.05 * d.NormFloat64()
	if b.topUp {
		b.topUpDay, b.rise = d.uniform(0.3, 0.7)*now, d.uniform(0.1, 0.3)
	}
	b.wash(d)
}

// wash draws the loads of the days, to the end of what a forecast can see.
func (b *bath) wash(d dice) {
	const keeps, sd = 0.8, 0.5 // of the logarithm of a week's rate
	b.washed = []float64{0}
	regime := sd * d.NormFloat64()
	for day := range int(b.now) + Horizon + 2 {
		if day%7 == 0 && day > 0 {
			regime = keeps*regime + sd*math.Sqrt(1-keeps*keeps)*d.NormFloat64()
		}
		mean := b.week / 7
		if b.unruly {
			mean *= math.Exp(regime - sd*sd/2) // busy weeks and idle ones keep the mean
		}
		loads := d.negBin(mean)
		if d.Float64() < 1.0/30 {
			loads += d.poisson(6)
		}
		b.washed = append(b.washed, b.washed[day]+loads)
	}
}

// loads are those washed by day t, a day's evenly over it.
func (b *bath) loads(t float64) float64 {
	day := int(t)
	return b.washed[day] + (t-float64(day))*(b.washed[day+1]-b.washed[day])
}

// path is the offset of the bath itself on day t.
func (b *bath) path(t float64) float64 {
	y := b.start - b.perLoad*b.loads(t)
	if b.topUp && t >= b.topUpDay {
		y += b.rise
	}
	if b.unruly {
		return y - b.perDay*60*(1-math.Exp(-t/60))
	}
	return y - b.perDay*t
}

// truth are the days from now until the path is at the limit, at most Horizon.
func (b *bath) truth() float64 {
	const step = 0.05
	for tau := 0.0; tau < Horizon; tau += step {
		if b.path(b.now+tau) <= -Limit {
			return tau
		}
	}
	return Horizon
}

// read takes readings on days in their order.
func (b *bath) read(d dice, days []float64) Input {
	in := Input{Now: b.now}
	if b.topUp {
		in.TopUps = TopUps{{Day: b.topUpDay}}
	}
	for day := range int(b.now) {
		in.DailyLoads = append(in.DailyLoads, b.washed[day+1]-b.washed[day])
	}
	n := newNoise(d, b)
	for _, t := range days {
		in.Add(Reading{Day: t, Loads: b.loads(t), Offset: math.Round(100*(b.path(t)+n.at(t))) / 100})
	}
	return in
}

// noise is what lies between the path and what is read.
type noise struct {
	d            dice
	b            *bath
	last, wander float64
	calibrated   int
	bias         float64
}

func newNoise(d dice, b *bath) *noise {
	return &noise{d: d, b: b, wander: 0.03 * d.NormFloat64(), bias: 0.03 * d.NormFloat64()}
}

// at draws the noise of day t, later than the last.
func (n *noise) at(t float64) float64 {
	e := n.b.sigma * n.d.NormFloat64()
	if n.b.blunders && n.d.Float64() < 0.05 {
		e += math.Copysign(n.d.uniform(0.3, 1), n.d.Float64()-0.5)
	}
	if !n.b.unruly {
		return e
	}
	kept := math.Exp(-(t - n.last) / 5)
	n.wander = kept*n.wander + 0.03*math.Sqrt(1-kept*kept)*n.d.NormFloat64()
	if c := int(t / 14); c != n.calibrated {
		n.calibrated, n.bias = c, 0.03*n.d.NormFloat64()
	}
	n.last = t
	return e + n.wander + n.bias
}

// draw is a bath that is not yet at its limit, with n irregular readings of
// which the last is taken now.
func draw(d dice, v variant, n int) (*bath, Input) {
	for {
		b := newBath(d, v)
		if b.path(b.now) <= -Limit {
			continue
		}
		days, t := make([]float64, n), 0.0
		for i, share := range d.shares(n) {
			t += share * b.now
			days[i] = min(t, b.now)
		}
		days[n-1] = b.now
		return b, b.read(d, days)
	}
}

// past are fills that the bath had before, each read about weekly until it came
// to its limit, for at most Horizon days.
func (b *bath) past(d dice, fills int) []Input {
	var past []Input
	for range fills {
		old := *b
		old.refill(d, 0)
		old.now = old.truth()
		var days []float64
		for t := d.uniform(3, 7); t < old.now; t += d.uniform(5, 9) {
			days = append(days, t)
		}
		past = append(past, old.read(d, days))
	}
	return past
}
