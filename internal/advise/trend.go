package advise

import (
	"time"

	"bathside/internal/bath"
	"bathside/internal/trend"
)

// Trend is how the pH of the open fill goes, and when it will be at its limit.
type Trend struct {
	trend.Forecast
	Fit  *trend.Fit
	Past int // fills that it has learned from

	input trend.Input
	from  time.Time
	first float64 // the first reading
}

// trend fits the trusted readings of the open fill. It is nil where there is no
// first reading to fall from.
func (x *Snapshot) trend() *Trend {
	if !x.Open || x.PH.First == nil || x.PH.First.Doubt != (Doubt{}) {
		return nil
	}
	prior, past := history(x.State, x.Bath)
	t := &Trend{from: x.Life.Fill.At, first: float64(x.PH.First.Is.PH), Past: past}
	t.input = inputOf(x.Life, x.PH, x.Now)
	t.input.Prior = prior
	fit, err := t.input.Fit()
	if err != nil {
		return nil // a reading far from any that a bath has
	}
	t.Fit, t.Forecast = fit, fit.Forecast()
	return t
}

// inputOf is a fill as trend takes it: the trusted readings as drops, with the
// washes before each.
func inputOf(l bath.Life, j Judgement, now time.Time) trend.Input {
	loads := loadTimes(l)
	in := trend.Input{Now: daysAfter(l, now), Limit: j.Limit, DailyLoads: daily(l, loads, now)}
	in.LoadsNow = float64(countUntil(loads, now))
	for _, r := range j.Readings {
		if r.inTrend() && !(r.Is.Baseline && r.Is.Cooled) {
			in.Add(readingOf(l, loads, r))
		}
	}
	for i, d := range bath.Of[*bath.Dose](l.Entries) {
		if i > 0 && !d.At.After(now) {
			in.TopUps = append(in.TopUps, trend.TopUp{Day: daysAfter(l, d.At)})
		}
	}
	return in
}

func readingOf(l bath.Life, loads []time.Time, r Judged) trend.Reading {
	return trend.Reading{
		Day: daysAfter(l, r.At), Offset: -*r.Drop, U: r.EquivalentU(),
		Loads: float64(countUntil(loads, r.At)),
	}
}

func daysAfter(l bath.Life, t time.Time) float64 { return max(0, t.Sub(l.Fill.At).Hours()/24) }

func loadTimes(l bath.Life) []time.Time {
	var out []time.Time
	for _, e := range l.Entries {
		if _, ok := e.Body.(*bath.Wash); ok {
			out = append(out, e.At)
		}
	}
	return out
}

func countUntil(times []time.Time, t time.Time) (n int) {
	for _, w := range times {
		if !w.After(t) {
			n++
		}
	}
	return n
}

// daily counts the washes of each whole day of the fill, the last ending now.
func daily(l bath.Life, loads []time.Time, now time.Time) []float64 {
	days := make([]float64, int(daysAfter(l, now)))
	for _, w := range loads {
		if ago := int(now.Sub(w).Hours() / 24); !w.After(now) && ago < len(days) {
			days[len(days)-1-ago]++
		}
	}
	return days
}

// history is what the fills of a bath that are over say of the next one, and
// how many they were.
func history(s *bath.State, b *bath.Bath) (trend.Prior, int) {
	var past []trend.Input
	for _, f := range b.Past {
		if in, ok := pastInput(f, s.Site.DropLimit()); ok {
			past = append(past, in)
		}
	}
	for _, l := range b.Lives() {
		if l.Drain != nil {
			past = append(past, inputOf(l, Judge(s, b, l), l.Drain.At))
		}
	}
	prior, err := trend.History(past)
	if err != nil {
		return trend.Prior{}, 0
	}
	return prior, len(past)
}

// pastInput is a fill long over: the readings of it that were as warm as its
// first.
func pastInput(f bath.Summary, limit float64) (trend.Input, bool) {
	if f.First == nil || len(f.Series) == 0 || !f.To.After(f.From) { // an imported fill may lack its drain
		return trend.Input{}, false
	}
	in := trend.Input{Now: f.To.Sub(f.From).Hours() / 24, Limit: limit}
	for _, r := range f.Series {
		if d := r.SampleC - f.First.SampleC; d < -Comparable || d > Comparable {
			continue
		}
		in.Add(trend.Reading{Day: r.Day, Offset: float64(r.PH - f.First.PH), Loads: float64(r.Loads)})
	}
	for _, p := range f.Poured {
		in.TopUps = append(in.TopUps, trend.TopUp{Day: p.At.Sub(f.From).Hours() / 24})
	}
	return in, len(in.Days) > 0
}

// Expected is where the next reading of the first one's temperature is expected
// now, as pH.
func (t *Trend) Expected(now time.Time) (low, high float64) {
	low, _, high = t.Fit.Fan(now.Sub(t.from).Hours()/24 - t.input.Now)
	return t.first + low, t.first + high
}

// FanPoint is where the bath likely lies at a time to come: below Low and above
// High in one case of ten each.
type FanPoint struct {
	At             time.Time
	Low, Mid, High float64 // pH at the first reading's temperature
}

// Fan is where the bath likely goes in so many days from now.
func (t *Trend) Fan(now time.Time, days int) []FanPoint {
	var out []FanPoint
	for d := range days + 1 {
		low, mid, high := t.Fit.Fan(float64(d))
		out = append(out, FanPoint{now.AddDate(0, 0, d), t.first + low, t.first + mid, t.first + high})
	}
	return out
}

// PerDay is how fast the pH falls now, in pH a day, with the washes of late.
func (t *Trend) PerDay() float64 {
	_, now, _ := t.Fit.Fan(0)
	_, later, _ := t.Fit.Fan(10)
	return (now - later) / 10
}

// Changed says whether the pH moves otherwise than its own past led to expect,
// and whether the meter does in its buffer: "the bath changed", "the meter
// changed", "both quiet".
func (x *Snapshot) Changed() trend.Change {
	if x.Trend == nil {
		return trend.TooFew
	}
	bathChart, err := x.Trend.input.BathChart()
	if err != nil {
		return trend.TooFew
	}
	return trend.Blame(bathChart, trend.NewMeterChart(x.dips()))
}

// dips is how far off the meter in use was in its buffers, by time.
func (x *Snapshot) dips() []float64 {
	name, ok := x.meterInUse()
	if !ok {
		return nil
	}
	var out []float64
	for _, c := range newMeters(x.State).of(name) {
		if c.Is.Check == nil {
			continue
		}
		d, err := c.Is.Check.Chem()
		if err != nil {
			continue
		}
		if ph, err := d.Buffer.PH(d.At); err == nil {
			out = append(out, float64(d.Read-ph))
		}
	}
	return out
}
