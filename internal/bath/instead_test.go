package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// correct puts instead in the place of target, at another time if at is set.
func (b *book) correct(target bath.Entry, at time.Time, instead bath.Body) error {
	b.wait(time.Minute)
	return b.try(b.draft(officer, b.now, &bath.Strike{Target: target.Seq, Why: "wrong", Instead: raw(b.t, instead), At: at}))
}

func TestACorrectedLineCountsAsIfItHadAlwaysSaidSo(t *testing.T) {
	b := begun(t)
	low := b.log(crew, &bath.Reading{PH: 9.10, SampleC: 50, Meter: "M1"})
	if err := b.correct(low, time.Time{}, &bath.Reading{PH: 10.09, SampleC: 50, Meter: "M1"}); err != nil {
		t.Fatal(err)
	}
	if last := lastReading(b); last.Seq != low.Seq || last.Is.PH != 10.09 || !last.At.Equal(low.At) {
		t.Errorf("got %+v", last)
	}
	if b.state.Struck[low.Seq] != b.state.Seq {
		t.Error("the line is not shown as crossed out")
	}
}

func lastReading(b *book) bath.Rec[*bath.Reading] {
	all := bath.Of[*bath.Reading](b.life().Entries)
	return all[len(all)-1]
}

// A correction is typed as easily wrong as the line was.
func TestACorrectionMayBeCorrected(t *testing.T) {
	b := begun(t)
	low := b.log(crew, &bath.Reading{PH: 9.10, SampleC: 50, Meter: "M1"})
	earlier := low.At.Add(-30 * time.Second)
	for _, ph := range []units.PH{9.20, 9.80} {
		if err := b.correct(low, earlier, &bath.Reading{PH: ph, SampleC: 50, Meter: "M1"}); err != nil {
			t.Fatal(err)
		}
	}
	if last := lastReading(b); last.Is.PH != 9.80 || !last.At.Equal(earlier) {
		t.Errorf("got %+v at %s", last.Is, last.At)
	}
	if err := b.strike(crew, low, nil); err != nil {
		t.Fatal(err)
	}
	if last := lastReading(b); last.Is.PH != 10.10 {
		t.Errorf("crossed out: got %+v", last.Is)
	}
	checkRefusal(t, b.correct(low, time.Time{}, &bath.Reading{PH: 9.9, SampleC: 50}), "struck", "is crossed out already, by line 13")
}

func TestEveryKindOfLineInAFillCanBeCorrected(t *testing.T) {
	b := newBook(t)
	b.log(keyHolder, masks(func(*bath.Wash) {})) // before any fill: outside the rule
	fill := b.log(crew, &bath.Fill{VolumeL: units.Gallons(50)})
	dose := b.log(crew, &bath.Dose{VolumeL: units.Gallons(3.2)})
	first := b.log(crew, &bath.Reading{PH: 10.10, SampleC: 50, Baseline: true})
	wash := b.log(keyHolder, masks(func(*bath.Wash) {}))
	hold := b.log(crew, &bath.Hold{Cause: bath.HoldLeak, Why: "drips"})
	release := b.log(officer, &bath.Release{Why: "gasket"})
	drain := b.log(officer, &bath.Drain{VolumeL: units.Gallons(50), Route: bath.RouteHauler})
	clean := b.log(crew, &bath.Clean{Sludge: bath.RouteHauler})
	next := b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	note := b.log(crew, &bath.Handover{Note: "typo"})
	for _, tt := range []struct {
		target  bath.Entry
		at      time.Time
		instead bath.Body
	}{
		{fill, fill.At.Add(-20 * time.Second), &bath.Fill{VolumeL: units.Gallons(60)}},
		{dose, time.Time{}, &bath.Dose{VolumeL: units.Gallons(4)}},
		{first, time.Time{}, &bath.Reading{PH: 10.20, SampleC: 50, Baseline: true}},
		{wash, time.Time{}, masks(func(w *bath.Wash) { w.Time = units.Minutes(3) })},
		{hold, time.Time{}, &bath.Hold{Cause: bath.HoldHeater, Why: "trips"}},
		{release, time.Time{}, &bath.Release{Why: "new element"}},
		{drain, drain.At.Add(20 * time.Second), &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHold}},
		{clean, time.Time{}, &bath.Clean{Sludge: bath.RouteHold}},
		{next, next.At.Add(-20 * time.Second), &bath.Fill{VolumeL: units.Gallons(59)}},
		{note, time.Time{}, &bath.Handover{Note: "word"}},
	} {
		if err := b.correct(tt.target, tt.at, tt.instead); err != nil {
			t.Errorf("%s: %v", tt.target.Kind(), err)
		}
	}
	lives := b.bath().Lives()
	if l := lives[0]; l.Fill.Is.VolumeL != units.Gallons(60) || l.DoseL() != units.Gallons(4) || l.Drain.Is.Route != bath.RouteHold || len(l.Entries) != 7 {
		t.Errorf("first fill: got %v, %v, %+v, %d lines", l.Fill.Is.VolumeL, l.DoseL(), l.Drain, len(l.Entries))
	}
	if l := b.life(); l.Number != 2 || l.Fill.Is.VolumeL != units.Gallons(59) {
		t.Errorf("open: got fill %d of %v", l.Number, l.Fill.Is.VolumeL)
	}
}

func TestCorrectionRefused(t *testing.T) {
	tests := []struct {
		name    string
		line    uint64 // fill 6, dose 7, degas 8, first reading 9, reading 10
		at      time.Time
		instead bath.Body
		id, say string
	}{
		{"no such pH", 10, time.Time{}, &bath.Reading{PH: 15, SampleC: 50}, "input", "a pH of 15.00 is outside 0 to 14"},
		{"a second first reading", 10, time.Time{}, &bath.Reading{PH: 10, SampleC: 50, Baseline: true}, "baseline", "this fill has its first reading already"},
		{"too strong with what came after", 7, time.Time{}, &bath.Dose{VolumeL: units.Gallons(4)}, "too-strong", "at most 3.0 gal more may go in"},
		{"in the future", 10, monday.Add(24 * time.Hour), &bath.Reading{PH: 10, SampleC: 50}, "future", "is in the future"},
		{"before its fill", 10, monday, &bath.Reading{PH: 10, SampleC: 50}, "moved", "line 10, or a line beside it, would fall into another fill: give a time inside its own"},
		{"the fill after its lines", 6, monday.Add(6*time.Minute + 45*time.Second), &bath.Fill{VolumeL: units.Gallons(60)}, "moved", "line 6, or a line beside it"},
		{"beyond the mark", 6, time.Time{}, &bath.Fill{VolumeL: units.Gallons(70)}, "too-full", "70.0 gal is beyond the mark"},
		{"signs that cannot be shown", 10, time.Time{}, &bath.Reading{PH: 10, SampleC: 50, Meter: "M\x07"}, "input", "holds signs that cannot be shown"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			b.log(crew, &bath.Reading{PH: 9.9, SampleC: 50, Meter: "M1"})
			b.log(crew, &bath.Dose{VolumeL: units.Gallons(1)})
			b.late(crew, monday.Add(6*time.Minute+30*time.Second), &bath.Temp{BathC: 15})
			checkRefusal(t, b.correct(b.entries[tt.line-1], tt.at, tt.instead), tt.id, tt.say)
		})
	}
	t.Run("not readable", func(t *testing.T) {
		b := begun(t)
		e := b.draft(officer, b.now, &bath.Strike{Target: 9, Why: "wrong", Instead: []byte(`{"ph":"x"}`)})
		checkRefusal(t, b.try(e), "input", "the corrected line cannot be read")
	})
	t.Run("summed up long ago", func(t *testing.T) {
		b := begun(t)
		for range 3 {
			b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
			b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
		}
		checkRefusal(t, b.correct(b.entries[8], time.Time{}, &bath.Reading{PH: 10, SampleC: 50, Baseline: true}), "summed-up", "line 9 is from a fill that was summed up long ago")
		if err := b.strike(officer, b.entries[8], nil); err != nil {
			t.Errorf("it cannot be crossed out either: %v", err)
		}
		if n := b.bath().Past[0].Readings; n != 0 {
			t.Errorf("the sum still counts %d readings", n)
		}
	})
}
