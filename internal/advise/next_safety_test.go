package advise_test

import (
	"slices"
	"testing"
	"time"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: ruling of the trade on a red-tagged bath: top line, by whom, when and
// why; only a gear officer lifts it; a contaminated bath is drained with its
// liquid held, and a filter run clears nothing.
func TestRedTag(t *testing.T) {
	leak := inService().add("3 02:10", &bath.Hold{Cause: bath.HoldLeak, Why: "drips at the valve"})
	foul := inService().add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "unknown powder on a pack"})
	drained := foul.add("3 09:00", &bath.Drain{VolumeL: units.Gallons(70), Route: bath.RouteHold})
	tagged := advise.Action{
		Urgency: advise.Now, Kind: "release", Say: "Do not use the bath: wake a gear officer",
		Why: "tagged by Kim Vale, 02:10: drips at the valve",
	}
	held := advise.Action{
		Urgency: advise.Now, Kind: "drain", Preset: map[string]string{"route": "hold"},
		Say: "Do not use the bath: wake a gear officer",
		Why: "tagged by Kim Vale, 02:10: unknown powder on a pack; heater off, drain it and hold the liquid: filtering clears nothing",
	}
	empty := tagged
	empty.Why = "tagged by Kim Vale, 02:10: unknown powder on a pack"
	says(t, "red-tag", []moment{
		{"none hangs", inService(), "3 07:00", advise.Action{}},
		{"a leak", leak, "3 07:00", tagged},
		{"lifted", leak.add("3 08:00", &bath.Release{Why: "valve replaced"}), "3 08:01", advise.Action{}},
		{"before any fill", setUp().add("3 02:10", &bath.Hold{Cause: bath.HoldLeak, Why: "drips at the valve"}), "3 07:00", tagged},
		{"contaminated", foul, "3 07:00", held},
		{"contaminated and drained", drained, "3 09:30", empty},
		{"contamination outweighs", leak.add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "unknown powder on a pack"}), "3 07:00", held},
	})
}

// What is still said under a red tag: nothing that readies the bath, and of a
// contaminated one nothing that touches its liquid.
func TestARedTagSilences(t *testing.T) {
	busy := inService().add("3 01:00", wash(49, bath.ResultClean))
	fresh := dosed().add("2 10:00", &bath.Temp{BathC: 50})
	tests := []struct {
		name   string
		book   book
		cause  string
		silent []string // spoken before the tag, not after
	}{
		{"empty", setUp(), bath.HoldLeak, []string{"fill"}},
		{"fresh fill", filled(), bath.HoldLocked, []string{"dose"}},
		{"cold", dosed(), bath.HoldHeater, []string{"heat", "baseline"}},
		{"warm", fresh, bath.HoldUltrasound, []string{"degas", "baseline"}},
		{"gear washed", busy, bath.HoldFoil, []string{"filter"}},
		{"contaminated", busy.add("10 09:00", hot(9.60)), bath.HoldContaminated, []string{"limit", "mark", "reading", "filter"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before := ids(tt.book.look(t, "10 09:30"))
			after := ids(tt.book.add("10 09:10", &bath.Hold{Cause: tt.cause, Why: "see the note"}).look(t, "10 09:30"))
			for _, id := range tt.silent {
				if !slices.Contains(before, id) || slices.Contains(after, id) {
					t.Errorf("%s: want it before the tag, in %v, and not under it, in %v", id, before, after)
				}
			}
			if after[0] != "red-tag" {
				t.Errorf("the tag is not first: %v", after)
			}
		})
	}
}

func TestClockBehind(t *testing.T) {
	b := inService().add("5 08:00", hot(10.10))
	says(t, "clock", []moment{
		{"right", b, "5 08:00", advise.Action{}},
		{"two workstations five minutes apart", b, "5 07:55", advise.Action{}},
		{"six minutes", b, "5 07:54", advise.Action{
			Urgency: advise.Now, Say: "Check the date and time here",
			Why: "the log book has a line written 5 Mar 2026 08:00, and here it is 5 Mar 2026 07:54",
		}},
		{"a year lost", b, "2025-03-05 08:00", advise.Action{
			Urgency: advise.Now, Say: "Check the date and time here",
			Why: "the log book has a line written 5 Mar 2026 08:00, and here it is 5 Mar 2025 08:00",
		}},
	})
}

// Source: ruling of the trade: a bath above its band stops everything; limits
// are compared with half a degree of margin. The band's top, 130 °F, is common
// practice.
func TestTooHot(t *testing.T) {
	stop := advise.Action{
		Urgency: advise.Now, Kind: "temp", Say: "Heater off, gear out, let it cool",
		Why: "the bath was at 131 °F 07:40, the hottest allowed is 130 °F",
	}
	near := stop
	near.Why = "the bath was at 130.2 °F 07:40, the hottest allowed is 130 °F"
	top := &bath.Tank{MaxC: new(units.Temperature(53.9))} // 129.02 °F
	says(t, "too-hot", []moment{
		{"never measured", dosed(), "3 07:00", advise.Action{}},
		{"inside the margin", inService().add("3 07:40", &bath.Temp{BathC: 54.9}), "3 08:00", advise.Action{}},
		{"above it", inService().add("3 07:40", &bath.Temp{BathC: 55}), "3 08:00", stop},
		{"seen before a wash", inService().add("3 07:40", wash(55, bath.ResultClean)), "3 08:00", stop},
		{"cool again", inService().add("3 07:40", &bath.Temp{BathC: 55}).add("3 08:00", &bath.Temp{BathC: 53}), "3 08:00", advise.Action{}},
		{"at the margin", inService().add("3 07:30", &bath.Tank{MaxC: new(units.Temperature(53))}).add("3 07:40", &bath.Temp{BathC: 53.5}), "3 08:00", advise.Action{}},
		{"the tank's own top", inService().add("3 07:30", top).add("3 07:40", &bath.Temp{BathC: 54.5}), "3 08:00", advise.Action{
			Urgency: advise.Now, Kind: "temp", Say: stop.Say, Why: "the bath was at 130 °F 07:40, the hottest allowed is 129 °F",
		}},
		{"a fill that is over", inService().add("3 07:40", &bath.Temp{BathC: 55}).add("3 08:00", &bath.Drain{VolumeL: 200, Route: "sewer"}), "3 08:10", advise.Action{}},
	})
}

// Source: ruling of the trade: the heater on with the level below its low mark
// is urgent now. Near is a quarter of the way up to the mark: 61 gal of 58 to 70.
func TestLowMark(t *testing.T) {
	missing := func(gal float64) book {
		return inService().add("3 07:40", &bath.Water{Cause: bath.CauseEvaporation, BelowL: new(units.Gallons(gal))})
	}
	off := advise.Action{
		Urgency: advise.Now, Kind: "water", Say: "Heater off; fill up to the mark",
		Why: "last seen today at 57.0 gal, the heater must be off at 58.0 gal",
	}
	at58, near, quarter := off, off, off
	at58.Why = "last seen today at 58.0 gal, where the heater must be off"
	near.Urgency, near.Say = advise.Today, "Fill up to the mark: the heater's low mark is near"
	near.Why = "last seen today at 60.0 gal, the heater must be off at 58.0 gal"
	quarter.Urgency, quarter.Say = near.Urgency, near.Say
	quarter.Why = "last seen today at 33.0 gal, the heater must be off at 26.4 gal"
	says(t, "low-mark", []moment{
		{"at the mark", inService(), "3 08:00", advise.Action{}},
		{"a little missing", missing(8.5), "3 08:00", advise.Action{}},
		{"near", missing(10), "3 08:00", near},
		{"near, to the litre", bare().add("1 10:00", &bath.Tank{VolumeL: 200, LowL: 100}).add("3 07:40", &bath.Fill{VolumeL: 125}), "3 08:00", quarter},
		{"at the low mark", missing(12), "3 08:00", at58},
		{"below it", missing(13), "3 08:00", off},
		{"filled up since", missing(13).add("3 07:50", &bath.Water{VolumeL: units.Gallons(13), Cause: bath.CauseEvaporation}), "3 08:00", advise.Action{}},
		{"empty", missing(13).add("3 07:50", &bath.Drain{VolumeL: 200, Route: "hold"}), "3 08:00", advise.Action{}},
		{"no low mark on file", bare().add("2 08:00", &bath.Fill{VolumeL: units.Gallons(15)}), "3 08:00", advise.Action{}},
	})
}

// An entry of a clock that ran ahead is told, and nothing else breaks.
func TestAFutureFill(t *testing.T) {
	b := setUp().add("9 08:00", &bath.Fill{VolumeL: units.Gallons(70)}).add("2 08:10", &bath.Dose{VolumeL: units.Gallons(2)})
	x := b.look(t, "2 09:00")
	if !x.Open || x.Next[0].ID != "clock" {
		t.Errorf("open %v, next %v: want the fill open and the clock first", x.Open, ids(x))
	}
	if age := x.Now.Sub(x.Life.Fill.At); age > -6*24*time.Hour {
		t.Fatalf("the fill is %v old: the case tests nothing", age)
	}
}
