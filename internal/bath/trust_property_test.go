package bath_test

import (
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// TestNothingCrossedOutCounts: where a line may be crossed out, the state after
// that is the state of a log book that never had it. Only that it was crossed
// out is remembered, and when something was last written.
func TestNothingCrossedOutCounts(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := anyBook(rt)
		target := rapid.SampledFrom(b.entries).Draw(rt, "target")
		if err := b.strike(officer, target, nil); err != nil {
			return
		}
		never, err := bath.Fold(slices.DeleteFunc(slices.Clone(b.entries), func(e bath.Entry) bool {
			k, strikes := e.Body.(*bath.Strike)
			return e.Seq == target.Seq || strikes && k.Target == target.Seq
		}))
		if err != nil {
			rt.Fatal(err)
		}
		never.Seq, never.Logged, never.Struck = b.state.Seq, b.state.Logged, b.state.Struck
		if diff := cmp.Diff(text(rt, never), text(rt, b.state)); diff != "" {
			rt.Fatalf("line %d (%s) was crossed out (-never there +crossed out):\n%s", target.Seq, target.Kind(), diff)
		}
	})
}

// Those log books would prove nothing if hardly a line could be crossed out.
func TestManyLinesCanBeCrossedOut(t *testing.T) {
	gen := rapid.Custom(func(rt *rapid.T) *book { return anyBook(rt) })
	kinds := map[bath.Kind]int{}
	for seed := range 60 {
		b := gen.Example(seed)
		for _, target := range b.entries {
			e := b.draft(officer, b.now, &bath.Strike{Target: target.Seq, Why: "wrong"})
			if bath.CheckStrike(b.state, e, target, b.entries[target.Seq:]) == nil {
				kinds[target.Kind()]++
			}
		}
	}
	for _, kind := range []bath.Kind{"reading", "dose", "drain", "fill", "calibration", "hold", "release", "wash", "start", "discharge", "disposal", "media", "clean"} {
		if kinds[kind] == 0 {
			t.Errorf("no %s could be crossed out: %v", kind, kinds)
		}
	}
}

// wattsWarm is by how much a heater warms so many litres in a time, by the heat
// of water at 25 °C, 4.18 kJ/(kg K), a little more than at 50 °C: a lower bound.
func wattsWarm(w units.Power, v units.Volume, t units.Span) units.Temperature {
	return units.Temperature(float64(w) * float64(t) / (4180 * float64(v)))
}

// TestNoWashStartsPastALimit: whatever was logged before, a start that is taken
// keeps every limit of everything in it, by the hottest that the bath will be.
func TestNoWashStartsPastALimit(t *testing.T) {
	taken := 0
	rapid.Check(t, func(rt *rapid.T) {
		b := begunFor(rt)
		s := anyLoad(rt)
		if b.try(b.draft(officer, b.now, s)) != nil {
			return
		}
		taken++
		tank, life := b.bath().Tank, b.life()
		peak := s.BathC
		if set := life.Set(tank); !life.HeaterOff() && set > peak {
			level, _, _ := life.Level(tank)
			peak = min(set, peak+wattsWarm(tank.Heater(), level, s.Time))
		}
		for _, l := range s.Items {
			hottest, longest := l.LimitC, l.Longest
			if p, ok := b.state.Paper(l.Item, b.now); ok && p.State == bath.PaperOnFile {
				hottest = p.MaxC
				if p.Longest > 0 && (longest == 0 || p.Longest < longest) {
					longest = p.Longest
				}
			}
			switch {
			case hottest == nil && s.Override == "":
				rt.Fatalf("%s was started, and nobody knows its limit", l.Item)
			case hottest != nil && peak > *hottest:
				rt.Fatalf("%s was started in a bath that gets %.2f °C, and may have %.2f", l.Item, peak, *hottest)
			case longest > 0 && s.Time >= longest+1:
				rt.Fatalf("%s was started for %v, and may have %v", l.Item, s.Time, longest)
			case l.Never != "":
				rt.Fatalf("%s was started, and never goes in", l.Item)
			}
		}
		if peak > tank.Max()+0.5 {
			rt.Fatalf("started in a bath that gets %.2f °C, above its band", peak)
		}
	})
	if taken == 0 {
		t.Error("no start was taken: nothing was tested")
	}
}

// begunFor is a bath in service with papers, a heater and a level as they come.
func begunFor(t *rapid.T) *book {
	b := blank(t)
	b.log(officer, &bath.Member{Name: officer, Role: bath.Officer})
	b.log(officer, &bath.Setting{Zone: "America/Denver", Shift: "24/48@07:00"})
	b.log(officer, tank())
	b.log(officer, &bath.Fill{VolumeL: units.Gallons(60)})
	b.log(officer, &bath.Dose{VolumeL: units.Gallons(2)})
	b.log(officer, &bath.Degas{Time: units.Minutes(15)})
	b.log(officer, nothingButSmoke())
	for _, item := range []string{"mask", "cylinder", "tool"} {
		switch rapid.IntRange(0, 3).Draw(t, "paper for "+item) {
		case 0:
			b.log(officer, &bath.Procedure{Item: item, State: bath.PaperPending})
		case 1, 2:
			on := onFile(item, units.Temperature(rapid.IntRange(36, 54).Draw(t, "°C")))
			on.Longest = units.Minutes(float64(rapid.IntRange(0, 8).Draw(t, "longest")))
			b.log(officer, on)
		}
	}
	b.log(officer, &bath.Water{Cause: bath.CauseEvaporation, BelowL: p(units.Gallons(float64(rapid.IntRange(0, 11).Draw(t, "below"))))})
	set := units.Temperature(rapid.IntRange(38, 54).Draw(t, "set"))
	b.log(officer, &bath.Temp{BathC: 40, SetC: &set, Heat: p(rapid.Bool().Draw(t, "heat"))})
	return b.wait(time.Minute)
}

// anyLoad is one or two kinds of gear, of which the limit may not be known.
func anyLoad(t *rapid.T) *bath.Start {
	loads := []bath.Load{maskLoad(4), cylinderLoad(2), toolLoad(2), {Item: "lamp", Name: "Lamp", Count: 1}}
	first := rapid.IntRange(0, len(loads)-1).Draw(t, "load")
	s := begins(loads[first], func(s *bath.Start) {
		s.BathC = units.Temperature(rapid.Float64Range(35, 55).Draw(t, "bath"))
		s.Time = units.Minutes(float64(rapid.IntRange(1, 16).Draw(t, "min")))
		s.Override = rapid.SampledFrom([]string{"", "trial"}).Draw(t, "reason")
	})
	s.Items[0] = loads[first] // begins gives a limit to what has none
	if second := rapid.IntRange(0, len(loads)-1).Draw(t, "second"); second != first {
		s.Items = append(s.Items, loads[second])
	}
	return s
}

// TestATaggedBathStartsNothing: by nobody, for no reason, whatever was logged
// before; and a wash that was paused does not go on.
func TestATaggedBathStartsNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := anyBook(rt)
		b.log(officer, &bath.Hold{Cause: rapid.SampledFrom([]string{bath.HoldLeak, bath.HoldContaminated, bath.HoldFoil}).Draw(rt, "cause"), Why: "x"})
		b.log(officer, nothingButSmoke())
		for _, by := range []string{officer, keyHolder, crew} {
			s := anyLoad(rt)
			s.Override = "for the incident"
			if err := b.try(b.draft(by, b.now, s)); err == nil {
				rt.Fatalf("%s started a wash under a red tag", by)
			}
			if err := b.try(b.draft(by, b.now, &bath.Resume{})); err == nil {
				rt.Fatalf("%s went on with a wash under a red tag", by)
			}
		}
		if b.bath().Tag == nil {
			rt.Fatal("the tag is gone")
		}
		if err := bath.Check(b.state, b.draft(crew, b.now, &bath.Release{Why: "looks fine"}), b.now); err == nil {
			rt.Fatal("crew lifted a red tag")
		}
	})
}

// TestNoTopUpIsSignedForAContaminatedBath, whatever reason is given.
func TestNoTopUpIsSignedForAContaminatedBath(t *testing.T) {
	d := &bath.Decision{Choice: bath.ChoiceTopUp, Advice: bath.ChoiceDrain, Why: "the hauler is late", DoseL: p(units.Gallons(1)), Evidence: &bath.Evidence{}}
	checkRefusals(t, []refusal{
		{name: "contaminated", on: contaminated, by: officer, body: d, id: "contaminated", say: "soap mends nothing: sign the drain, with the liquid held"},
	})
	if b := begun(t); b.try(b.draft(officer, b.now, d)) != nil {
		t.Error("refused where the bath is sound: the case tests nothing")
	}
}
