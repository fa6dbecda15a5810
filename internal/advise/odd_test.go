package advise_test

import (
	"math"
	"slices"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// steadily is a bath that comes down by about 0.08 a week, some weeks after the
// fill, with its meter calibrated for the next reading, which should be next.
func steadily(weeks int) (b book, next units.PH, now string) {
	phs := []units.PH{9.97, 9.90, 9.82, 9.77, 9.70, 9.64}
	return started().fall(phs[:weeks]...).add(week(weeks+1, "07:30"), twoBuffers()), phs[weeks], week(weeks+1, "08:00")
}

const dirty = 0.40 // too low, by a probe that was not rinsed

// twice and thrice are one sample read again.
func twice(a, b units.PH) *bath.Reading {
	return &bath.Reading{PH: a, SampleC: 50, Meter: "M1", Again: &b}
}

func thrice(a, b, c units.PH) *bath.Reading {
	r := twice(a, b)
	r.Third = &c
	return r
}

// An unlucky reading is questioned before it is kept. The second one settles it,
// and both are kept.
func TestAnUnluckyReadingIsQuestioned(t *testing.T) {
	for weeks := 1; weeks <= 5; weeks++ {
		b, truth, now := steadily(weeks)
		x := b.look(t, now)
		if _, ask := x.Preview(hot(truth)); ask != "" {
			t.Errorf("week %d: %.2f is asked for %q", weeks, float64(truth), ask)
		}
		if _, ask := x.Preview(hot(truth - dirty)); ask != "again" {
			t.Errorf("week %d: %.2f is asked for %q, want a second reading", weeks, float64(truth-dirty), ask)
		}
		r := twice(truth-dirty, truth)
		if say, ask := x.Preview(r); ask != "" {
			t.Errorf("week %d: with the second %q, %q", weeks, ask, say)
		}
		if err := x.Complete(r); err != nil || r.PH != truth || *r.Again != truth-dirty {
			t.Errorf("week %d: %v counts with %v beside it, %v", weeks, r.PH, *r.Again, err)
		}
		settled, alone := b.add(now, r).look(t, now), b.add(now, sample(truth, 50, "M1")).look(t, now)
		if settled.PH.State != alone.PH.State || settled.Trend.Q50 != alone.Trend.Q50 || settled.PH.Latest.Odd != "" {
			t.Errorf("week %d: settled %s, %.2f days; never unlucky %s, %.2f days", weeks, settled.PH.State, settled.Trend.Q50, alone.PH.State, alone.Trend.Q50)
		}
	}
}

// Kept without a second one, an unlucky reading does not move the trend by more
// than a normal one does that is 0.10 low, or it does not count in it at all.
// Nothing is deleted.
func TestAnUnluckyReadingDoesNotMoveTheTrend(t *testing.T) {
	for weeks := 1; weeks <= 5; weeks++ {
		b, truth, now := steadily(weeks)
		without := b.look(t, now)
		moved := func(r *bath.Reading) (days, ph float64, x *advise.Snapshot) {
			x = b.add(now, r).look(t, now)
			mid := func(x *advise.Snapshot) float64 { return x.Trend.Fan(x.Now, 0)[0].Mid }
			return math.Abs(x.Trend.Q50 - without.Trend.Q50), math.Abs(mid(x) - mid(without)), x
		}
		days, ph, x := moved(hot(truth - dirty))
		mostDays, mostPH, _ := moved(hot(truth - 0.10))
		if days > mostDays+0.1 || ph > mostPH+0.002 {
			t.Errorf("week %d: moved by %.2f days, %.3f; a normal one %.2f, %.3f", weeks, days, ph, mostDays, mostPH)
		}
		if x.PH.Latest.Odd != "" && (days != 0 || ph != 0) {
			t.Errorf("week %d: out of the trend, and moves it by %.2f days", weeks, days)
		}
		if x.PH.Latest.Is.PH != truth-dirty || len(x.PH.Readings) != len(without.PH.Readings)+1 {
			t.Errorf("week %d: the reading is gone: %+v", weeks, x.PH.Latest)
		}
	}
}

// Far out of line: low, it counts until a second one settles it, for a bath worse
// than thought must not look well; high, it is doubted. Neither is in the trend.
func TestFarOutOfLine(t *testing.T) {
	b, _, now := steadily(2)
	dosed := b.add(week(3, "07:40"), &bath.Dose{VolumeL: 0.2})
	tests := []struct {
		name   string
		book   book
		read   *bath.Reading
		state  advise.PHState
		odd    bool
		doubt  advise.DoubtKind
		action string // id
	}{
		{"low", b, hot(9.20), advise.PHPast, true, 0, "limit"},
		{"a little low", b, hot(9.72), advise.PHWatch, false, 0, "limit"},
		{"high, a little soap in it", dosed, hot(11.2), advise.PHOK, false, advise.DoubtOdd, "doubt"},
		{"low, read twice", b, twice(9.20, 9.30), advise.PHPast, false, 0, "limit"},
		{"low, read twice and 0.20 apart", b, twice(9.20, 9.40), advise.PHPast, false, 0, "limit"},
		{"low, read twice and 0.21 apart", b, twice(9.20, 9.41), advise.PHPast, true, 0, "limit"},
		{"low, read three times", b, thrice(9.20, 9.80, 9.00), advise.PHPast, false, 0, "limit"},
		{"high, read twice", dosed, twice(11.2, 11.1), advise.PHOK, false, 0, ""},
		{"at the limit, the crew reads again anyway", b, hot(9.55), advise.PHAtLimit, false, 0, "limit"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			was := tt.book.look(t, now)
			x := tt.book.add(now, tt.read).look(t, now)
			r := x.PH.Latest
			if x.PH.State != tt.state || (r.Odd != "") != tt.odd || r.Doubt.Kind != tt.doubt {
				t.Errorf("got %s, odd %q, doubt %+v", x.PH.State, r.Odd, r.Doubt)
			}
			out := tt.odd || tt.doubt != 0
			if in := len(x.Trend.Fit.Weights()) > len(was.Trend.Fit.Weights()); in == out {
				t.Errorf("in the trend: %v", in)
			}
			if tt.action != "" && !slices.Contains(ids(x), tt.action) {
				t.Errorf("nothing is said: %v", ids(x))
			}
			if (tt.odd || tt.doubt == advise.DoubtOdd) != slices.Contains(ids(x), "doubt") {
				t.Errorf("read again is said in %v", ids(x))
			}
		})
	}
}

// Source: ruling of the trade: two readings within 0.2 of each other confirm;
// within a day, for a bath does not change meanwhile (judgement).
func TestASecondReadingConfirms(t *testing.T) {
	b, truth, now := steadily(3)
	odd := b.add(now, hot(9.10))
	tests := []struct {
		name  string
		when  string
		ph    units.PH
		odd   bool
		doubt advise.DoubtKind
		state advise.PHState
	}{
		{"like it, an hour later", week(4, "09:00"), 9.29, false, 0, advise.PHPast},
		{"not like it, and as low", week(4, "09:00"), 8.80, true, 0, advise.PHPast},
		{"like it, the next day less a minute", "31 07:59", 9.20, false, 0, advise.PHPast},
		{"like it, two days later", "2026-04-01 08:00", 9.20, true, 0, advise.PHPast},
		{"as expected, an hour later: it is no rise", week(4, "09:00"), truth, false, 0, advise.PHWatch},
		{"as expected, two days later", "2026-04-01 08:00", truth, false, 0, advise.PHWatch},
		{"higher than before all that", week(4, "09:00"), 9.98, false, advise.DoubtRose, advise.PHPast},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := odd.add(tt.when, hot(tt.ph)).look(t, tt.when)
			r := x.PH.Latest
			if (r.Odd != "") != tt.odd || r.Doubt.Kind != tt.doubt || x.PH.State != tt.state {
				t.Errorf("got odd %q, doubt %+v, %s", r.Odd, r.Doubt, x.PH.State)
			}
		})
	}
}

// The first was out of line and the crew was asked, but kept it alone. Within the
// day the second one settles it; a week on, it is a rise that wants a reason.
func TestASecondReadingOfTheDayIsNoRise(t *testing.T) {
	b, truth, now := steadily(3)
	kept := b.add(now, hot(truth-dirty))
	if _, ask := kept.look(t, week(4, "09:00")).Preview(hot(truth)); ask != "" {
		t.Errorf("an hour later it is asked for %q", ask)
	}
	x := kept.add(week(4, "09:00"), hot(truth)).look(t, week(4, "09:05"))
	if x.PH.State != advise.PHWatch || len(x.PH.Doubtful()) != 0 || len(x.PH.Readings) != 6 {
		t.Errorf("got %s, doubtful %+v, %d readings", x.PH.State, x.PH.Doubtful(), len(x.PH.Readings))
	}
	if _, ask := kept.look(t, week(5, "08:00")).Preview(hot(truth)); ask != "rose" {
		t.Errorf("a week later it is asked for %q", ask)
	}
	confirmed := b.add(now, twice(truth-dirty, truth-dirty+0.1))
	if _, ask := confirmed.look(t, week(4, "09:00")).Preview(hot(truth)); ask != "rose" {
		t.Errorf("from a reading that was taken twice it is asked for %q", ask)
	}
}

// The middle one of three counts; of two that differ the one in line; what was
// typed is kept beside it.
func TestSettle(t *testing.T) {
	tests := []struct {
		name string
		in   *bath.Reading
		want *bath.Reading
	}{
		{"one", hot(9.30), hot(9.30)},
		{"two alike", twice(9.30, 9.45), twice(9.30, 9.45)},
		{"the first out of line", twice(9.30, 9.80), twice(9.80, 9.30)},
		{"the second out of line", twice(9.80, 9.30), twice(9.80, 9.30)},
		{"both out of line", twice(9.30, 9.00), twice(9.30, 9.00)},
		{"both in line", twice(9.62, 9.85), twice(9.62, 9.85)},
		{"a little out of line, asked about", twice(9.45, 9.80), twice(9.80, 9.45)},
		{"three, the middle last", thrice(9.30, 9.90, 9.80), thrice(9.80, 9.30, 9.90)},
		{"three, the middle first", thrice(9.80, 9.30, 9.90), thrice(9.80, 9.30, 9.90)},
		{"three, two alike", thrice(9.30, 9.80, 9.30), thrice(9.30, 9.30, 9.80)},
	}
	b, _, now := steadily(3)
	x := b.look(t, now)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for pass := range 2 { // settling what is settled changes nothing
				x.Settle(tt.in)
				if got, want := typedAs(tt.in), typedAs(tt.want); !slices.Equal(got, want) {
					t.Errorf("pass %d: got %v, want %v", pass+1, got, want)
				}
			}
		})
	}
	baseline := twice(10.10, 9.80)
	baseline.Baseline = true
	if warmed().look(t, "2 10:30").Settle(baseline); baseline.PH != 10.10 {
		t.Error("a first reading is settled by nothing")
	}
}

func typedAs(r *bath.Reading) []units.PH {
	out := []units.PH{r.PH}
	for _, more := range []*units.PH{r.Again, r.Third} {
		if more != nil {
			out = append(out, *more)
		}
	}
	return out
}
