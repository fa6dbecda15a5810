package advise_test

import (
	"math"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/trend"
	"bathside/internal/units"
)

// Source: ruling of the trade: "good for at least 3 weeks" is the 10 % date.
func TestTrendInWords(t *testing.T) {
	nan, later := math.NaN(), float64(trend.Horizon)
	date := func(q10, q50, q90 float64) trend.Forecast {
		return trend.Forecast{State: trend.Dated, Q10: q10, Q50: q50, Q90: q90}
	}
	tests := []struct {
		name     string
		forecast trend.Forecast
		say      string
	}{
		{"one reading", trend.Forecast{State: trend.NoDate, Q10: nan, Q50: nan, Q90: nan}, "no date yet"},
		{"beyond what is foretold", trend.Forecast{State: trend.Later, Q10: later, Q50: later, Q90: later}, "later than 120 days"},
		{"due", trend.Forecast{State: trend.Due, Q90: 3}, "probably already due: measure again"},
		{"three weeks and six days", date(27.9, 40, 60), "good for at least 3 weeks"},
		{"a week", date(7, 12, 20), "good for at least a week"},
		{"less than a week", date(6.9, 12, 20), "limit likely about 28 Mar, between 23 Mar and 5 Apr"},
		{"now or in a month", date(0, 2, 30), "limit likely about Wednesday, between today and 15 Apr"},
		{"perhaps never", date(1, 80, later), "limit likely about 4 Jun, between tomorrow and later than 14 Jul"},
	}
	x := kept().look(t, week(2, "08:05"))
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			is := &advise.Trend{Forecast: tt.forecast}
			if got := is.Say(x); got != tt.say {
				t.Errorf("got %q, want %q", got, tt.say)
			}
			if is.Known() != (tt.forecast.State != trend.NoDate) {
				t.Errorf("known: %v", is.Known())
			}
		})
	}
	if got := (&advise.Trend{Forecast: date(20, 30, 50)}).DateSay(x); got != "likely about 15 Apr, between 5 Apr and 5 May" {
		t.Errorf("got %q", got)
	}
}

// A bath at its limit by its last reading is good for nothing, whatever the
// line through all of them says.
func TestNoDateIsPromisedAtTheLimit(t *testing.T) {
	x := low().look(t, week(5, "08:05"))
	if got := x.Trend.Say(x); got != "at the limit by the last reading" {
		t.Errorf("got %q", got)
	}
}

// The fan starts now at where the next reading is expected, falls and widens.
func TestTheFan(t *testing.T) {
	x := kept().look(t, week(2, "08:05"))
	fan := x.Trend.Fan(x.Now, 28)
	if len(fan) != 29 || !fan[0].At.Equal(x.Now) || fan[28].At.Format("2 Jan 15:04") != "13 Apr 08:05" {
		t.Fatalf("%d points from %v to %v", len(fan), fan[0].At, fan[len(fan)-1].At)
	}
	low, high := x.Trend.Expected(x.Now)
	near(t, "low, now", fan[0].Low, low, 1e-9)
	near(t, "high, now", fan[0].High, high, 1e-9)
	near(t, "the bath, now", fan[0].Mid, 9.90, 0.05)
	for i, p := range fan {
		if p.Low >= p.Mid || p.Mid >= p.High {
			t.Errorf("%v: %.3f, %.3f, %.3f", p.At, p.Low, p.Mid, p.High)
		}
		if i > 0 && (p.Mid >= fan[i-1].Mid || p.High-p.Low <= fan[i-1].High-fan[i-1].Low) {
			t.Errorf("%v neither falls nor widens: %+v after %+v", p.At, p, fan[i-1])
		}
	}
	near(t, "a day", x.Trend.PerDay(), (fan[0].Mid-fan[10].Mid)/10, 1e-9)
	near(t, "at the 10 % date the low edge is at the limit", interpolate(fan, x.Trend.Q10), 9.60, 0.02)
}

// interpolate is the low edge of a fan so many days ahead.
func interpolate(fan []advise.FanPoint, days float64) float64 {
	i := int(days)
	return fan[i].Low + (days-float64(i))*(fan[i+1].Low-fan[i].Low)
}

// Washed more, a bath falls faster; topped up, it stands higher.
func TestTheFallFollowsTheWashes(t *testing.T) {
	quiet, busy := kept(), kept()
	for _, day := range []string{"4", "6", "10", "12", "14"} {
		busy = busy.loads(day, 4)
	}
	slow, fast := quiet.look(t, week(2, "08:05")).Trend, busy.look(t, week(2, "08:05")).Trend
	if slow.PerDay() <= 0 || fast.PerDay() <= slow.PerDay() {
		t.Errorf("idle it falls by %.4f a day, washed by %.4f", slow.PerDay(), fast.PerDay())
	}
	topped := kept().add(week(2, "08:01"), &bath.Dose{VolumeL: units.Gallons(1)}).look(t, week(2, "08:05")).Trend
	if topped.Q50 <= slow.Q50 || topped.Fan(at(week(2, "08:05")), 0)[0].Mid <= 9.95 {
		t.Errorf("topped up it comes to its limit in %.1f days, before in %.1f", topped.Q50, slow.Q50)
	}
}

// Source: statistics of the trade, B6: a bath alarm with the buffer chart quiet
// is the bath; where the dips of the meter signal it is the meter.
func TestWhatChanged(t *testing.T) {
	steady := started()
	for i, ph := range []units.PH{9.98, 9.94, 9.90, 9.86, 9.82} {
		steady = steady.add(week(i+1, "07:20"), dip([]units.PH{10.01, 10.02, 10.00, 10.02, 10.01}[i])).
			add(week(i+1, "07:30"), twoBuffers()).add(week(i+1, "08:00"), sample(ph, 50, "M1"))
	}
	jump := steady.add(week(6, "07:20"), dip(10.01)).add(week(6, "07:30"), twoBuffers()).add(week(6, "08:00"), sample(9.30, 50, "M1"))
	tests := []struct {
		name string
		book book
		want trend.Change
		say  string // of the action; "" for none
	}{
		{"one reading", started(), trend.TooFew, ""},
		{"as before", steady, trend.BothQuiet, ""},
		{"the bath fell", jump, trend.BathChanged, "Look at the bath: the pH moves otherwise than before"},
		{"the meter too", jump.add(week(6, "08:02"), dip(10.09)), trend.MeterChanged, "Look at the meter: it reads its buffer otherwise"},
		{"no dips to tell by", low().add(week(6, "07:30"), twoBuffers()).add(week(6, "08:00"), sample(9.00, 50, "M1")), trend.OneChanged, "Look at the bath: the pH moves otherwise than before"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := tt.book.look(t, week(6, "08:05"))
			if got := x.Changed(); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
			say := ""
			for _, a := range x.Next {
				if a.ID == "changed" {
					say = a.Say
				}
			}
			if say != tt.say {
				t.Errorf("got %q, want %q", say, tt.say)
			}
		})
	}
}
