package advise_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/trend"
	"bathside/internal/units"
)

// days is how long after the fill of March a time is.
func days(when string) float64 { return at(when).Sub(at("2 08:00")).Hours() / 24 }

// loads washes so often on a day, an hour apart from 10:00 on.
func (b book) loads(day string, n int) book {
	for i := range n {
		b = b.add(at(day+" 10:00").Add(time.Duration(i)*time.Hour).Format("2006-01-02 15:04"), wash(50, bath.ResultClean))
	}
	return b
}

// forecasts compares what a book foretells with the fit of an input built by
// hand.
func forecasts(t *testing.T, b book, now string, in trend.Input) {
	t.Helper()
	in.Now = days(now)
	fit, err := in.Fit()
	if err != nil {
		t.Fatal(err)
	}
	x := b.look(t, now)
	exact := cmp.Options{cmpopts.EquateApprox(0, 1e-9), cmpopts.EquateNaNs()}
	if diff := cmp.Diff(fit.Forecast(), x.Trend.Forecast, exact); diff != "" {
		t.Errorf("by hand -want +got:\n%s", diff)
	}
	if diff := cmp.Diff(fit.Mean(), x.Trend.Fit.Mean(), exact); diff != "" {
		t.Errorf("coefficients by hand -want +got:\n%s", diff)
	}
}

// The readings of a book become days, drops, loads and uncertainties; what cannot
// be trusted, and the cold pair of the first, stay out.
func TestTheTrendIsFittedToTheBook(t *testing.T) {
	calibrated, unchecked := chem.Calibrated.U(), chem.Unchecked.U()
	b := paired().loads("4", 2).loads("7", 3).add("9 07:30", twoBuffers()).add("9 08:00", sample(9.98, 50, "M1"))
	in := trend.Input{
		Days: []float64{days("2 10:30"), days("9 08:00")}, Offsets: []float64{0, -0.12}, Loads: []float64{0, 5}, U: []float64{calibrated, calibrated},
		LoadsNow: 5, DailyLoads: []float64{0, 0, 2, 0, 0, 3, 0}, Limit: 0.5,
	}
	t.Run("two readings and their washes", func(t *testing.T) { forecasts(t, b, "9 09:00", in) })

	t.Run("days end now, not at midnight", func(t *testing.T) {
		later := in
		later.DailyLoads = []float64{0, 1, 1, 0, 1, 2, 0} // each ends at 10:30, as the clock was before the 8th
		forecasts(t, b, "9 11:30", later)
	})
	t.Run("the first reading alone has no date", func(t *testing.T) {
		forecasts(t, paired(), "2 20:00", trend.Input{Days: in.Days[:1], Offsets: in.Offsets[:1], Loads: in.Loads[:1], U: in.U[:1]})
	})
	t.Run("what is not to be trusted stays out", func(t *testing.T) {
		forecasts(t, b.add("9 08:10", sample(9.1, 50, "strips")).
			add("9 08:20", sample(10.40, 50, "M1")). // up with no soap logged
			add("9 08:30", &bath.Calibration{Meter: "M2", Check: &bath.Dip{Buffer: "carbonate", AtC: 25, PH: 9.6}}).
			add("9 08:40", sample(9.50, 50, "M2")), "9 09:00", in)
	})
	t.Run("a reading crossed out", func(t *testing.T) {
		low := b.add("9 08:10", sample(9.60, 50, "M1"))
		forecasts(t, low.struck("9 08:20", low.lastSeq()), "9 09:00", in)
	})
	t.Run("by a meter nobody checked", func(t *testing.T) {
		with := in
		with.Add(trend.Reading{Day: days("9 08:50"), Offset: -0.15, Loads: 5, U: unchecked})
		forecasts(t, b.add("9 08:50", sample(9.95, 50, "M2")), "9 09:00", with)
	})
	t.Run("a wash dated ahead does not count yet", func(t *testing.T) {
		forecasts(t, b.add("9 18:00", wash(50, bath.ResultClean)), "9 09:00", in)
	})
	t.Run("the station's own limit", func(t *testing.T) {
		with := in
		with.Limit = 0.8
		forecasts(t, b.add("9 08:30", &bath.Setting{Limit: new(0.8)}), "9 09:00", with)
	})
	t.Run("topped up", func(t *testing.T) {
		with := in
		with.TopUps = trend.TopUps{{Day: days("9 08:10")}}
		with.Add(trend.Reading{Day: days("9 08:50"), Offset: 0.05, Loads: 5, U: calibrated})
		forecasts(t, b.add("9 08:10", &bath.Dose{VolumeL: 4}).add("9 08:50", sample(10.15, 50, "M1")), "9 09:00", with)
	})
}

// A cold reading counts as what it would be, and as less sure for it.
func TestTheTrendTakesRestatedReadings(t *testing.T) {
	ph, u, err := chem.Restate(chem.Family{}, 10.30, 25, 50)
	if err != nil {
		t.Fatal(err)
	}
	in := trend.Input{Limit: 0.5, DailyLoads: make([]float64, 7)}
	in.Add(trend.Reading{Day: days("2 10:30"), U: chem.Calibrated.U()})
	in.Add(trend.Reading{Day: days("9 08:00"), Offset: math.Round(1000*float64(ph-10.10)) / 1000, U: math.Hypot(chem.Calibrated.U(), u)})
	forecasts(t, started().add("9 07:30", twoBuffers()).add("9 08:00", sample(10.30, 25, "M1")), "9 09:00", in)
}

func TestNoTrendWithoutAFirstReading(t *testing.T) {
	for name, b := range map[string]book{
		"not read":       warmed(),
		"crossed out":    kept().struck(week(2, "08:02"), started().lastSeq()),
		"a failed meter": warmed().add("2 10:15", dip(10.20)).add("2 10:30", first(10.10)),
		"drained":        kept().add(week(2, "08:02"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}),
		"only cold":      warmed().add("2 12:00", &bath.Reading{PH: 10.6, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true}),
		"never filled":   setUp(),
	} {
		x := b.look(t, week(2, "09:00"))
		if x.Trend != nil || x.Trend.Known() || x.Trend.Say(x) != "no date yet" || x.Changed() != trend.TooFew {
			t.Errorf("%s: got %+v, %q", name, x.Trend, x.Trend.Say(x))
		}
	}
}

// past has fills before that of March that fell by so much a week, and were
// drained after five of them.
func past(perWeek ...float64) book {
	b := setUp()
	from := at("2025-01-06 08:00")
	for _, fall := range perWeek {
		when := func(day int, clock string) string { return from.AddDate(0, 0, day).Format("2006-01-02 ") + clock }
		b = b.add(when(0, "08:00"), &bath.Fill{VolumeL: units.Gallons(70)}).add(when(0, "08:10"), &bath.Dose{VolumeL: units.Gallons(2)}).
			add(when(0, "09:50"), twoBuffers()).add(when(0, "10:30"), first(10.10))
		for w := 1; w <= 4; w++ {
			ph := units.PH(math.Round(100*(10.10-fall*float64(w))) / 100)
			b = b.add(when(7*w, "07:50"), twoBuffers()).add(when(7*w, "08:00"), sample(ph, 50, "M1"))
		}
		b = b.add(when(35, "08:00"), &bath.Drain{VolumeL: units.Gallons(70), Route: bath.RouteHauler})
		from = from.AddDate(0, 0, 42)
	}
	return b
}

func (b book) openMarch(phs ...units.PH) book {
	for _, e := range started()[len(setUp()):] {
		b = b.add(e.At.In(denver).Format("2006-01-02 15:04"), e.Body)
	}
	return b.fall(phs...)
}

// Source: statistics of the trade, B3: what earlier fills leave narrows the
// likely range, 46 to 35 days in the benchmark there; those that are only summed
// up count too.
func TestPastFillsNarrowTheRange(t *testing.T) {
	look := func(b book) *advise.Trend { return b.openMarch(9.98, 9.90).look(t, week(2, "08:05")).Trend }
	untaught := look(past())
	for _, fills := range [][]float64{{0.1}, {0.1, 0.1}, {0.1, 0.1, 0.1}, {0.1, 0.1, 0.1, 0.1}} {
		is := look(past(fills...))
		if is.Past != len(fills) || is.Q90-is.Q10 > 0.8*(untaught.Q90-untaught.Q10) {
			t.Errorf("after %d fills: %d, between %.1f and %.1f days, before any %.1f and %.1f", len(fills), is.Past, is.Q10, is.Q90, untaught.Q10, untaught.Q90)
		}
	}
	slow, fast := look(past(0.04, 0.04)), look(past(0.14, 0.14))
	if slow.Q50 <= fast.Q50 {
		t.Errorf("after slow fills %.1f days, after fast ones %.1f", slow.Q50, fast.Q50)
	}
}

// A fill without a first reading, or that never ended, teaches nothing and
// spoils nothing.
func TestAFillThatSaysNothing(t *testing.T) {
	good := past(0.1, 0.1, 0.1).openMarch(9.98, 9.90).look(t, week(2, "08:05")).Trend
	empty := setUp().
		add("2024-10-07 08:00", &bath.Fill{VolumeL: 260}).
		add("2024-11-04 08:00", &bath.Fill{VolumeL: 260}).add("2024-11-04 08:10", &bath.Dose{VolumeL: 7}).
		add("2024-11-04 09:00", twoBuffers()).add("2024-11-04 10:00", first(10.1)).add("2024-11-11 10:00", sample(10.0, 50, "M1"))
	for _, e := range past(0.1, 0.1, 0.1)[len(setUp()):] {
		empty = empty.add(e.At.In(denver).Format("2006-01-02 15:04"), e.Body)
	}
	is := empty.openMarch(9.98, 9.90).look(t, week(2, "08:05")).Trend
	if is.Past != good.Past || is.Q50 != good.Q50 {
		t.Errorf("got %d fills, %.2f days; want %d, %.2f", is.Past, is.Q50, good.Past, good.Q50)
	}
}
