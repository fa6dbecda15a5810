package advise_test

import (
	"maps"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: common practice, no source: fill to the mark, then soap, then heat,
// run empty to clear bubbles, read. The rest is the trade's rulings on the
// first reading: it does not wait for the degas, and it is read twice.
func TestAFillComesIntoService(t *testing.T) {
	start := []string{"clean", "fill", "dose", "heat", "degas", "baseline", "baseline-cooled"}
	steps := []struct {
		when string
		body bath.Body
		want []string // of the start, most urgent first
	}{
		{"2 07:50", &bath.Duty{What: bath.DutyEyewash}, []string{"fill"}},
		{"2 08:00", &bath.Fill{VolumeL: units.Gallons(70)}, []string{"dose"}},
		{"2 08:10", &bath.Dose{VolumeL: units.Gallons(2)}, []string{"heat", "baseline"}},
		{"2 09:00", &bath.Temp{BathC: 46.9}, []string{"heat", "baseline"}},
		{"2 09:30", &bath.Temp{BathC: 47}, []string{"degas", "baseline"}},
		{"2 10:00", &bath.Degas{Time: units.Minutes(15)}, []string{"baseline"}},
		{"2 10:30", first(10.12), []string{"baseline-cooled"}},
		{"2 12:00", &bath.Reading{PH: 10.6, SampleC: 22, Baseline: true, Cooled: true}, nil},
		{"20 08:00", &bath.Drain{VolumeL: units.Gallons(70), Route: "hauler"}, []string{"clean"}},
		{"20 09:00", &bath.Clean{}, []string{"fill"}},
		{"20 10:00", &bath.Fill{VolumeL: units.Gallons(70)}, []string{"dose"}},
	}
	b := setUp()
	for _, s := range steps {
		b = b.add(s.when, s.body)
		got := slices.DeleteFunc(ids(b.look(t, s.when)), func(id string) bool { return !slices.Contains(start, id) })
		if !slices.Equal(s.want, got) {
			t.Errorf("after the %s of %s: got %v, want %v", b[len(b)-1].Kind(), s.when, got, s.want)
		}
	}
}

func TestClean(t *testing.T) {
	drained := inService().add("20 08:00", &bath.Drain{VolumeL: units.Gallons(70), Route: "hauler"})
	foul := inService().add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "unknown powder"}).
		add("20 08:00", &bath.Drain{VolumeL: units.Gallons(70), Route: "hold"})
	clean := advise.Action{
		Urgency: advise.Today, Kind: "clean", Say: "Clean the tank, wipe out the sludge",
		Why: "drained yesterday; power locked out before a hand goes in",
	}
	held := clean
	held.Preset, held.Why = map[string]string{"sludge": "hold"}, clean.Why+"; the sludge is held too"
	says(t, "clean", []moment{
		{"never filled", setUp(), "21 07:00", advise.Action{}},
		{"in use", inService(), "21 07:00", advise.Action{}},
		{"drained", drained, "21 07:00", clean},
		{"cleaned", drained.add("20 09:00", &bath.Clean{}), "21 07:00", advise.Action{}},
		{"contaminated", foul, "21 07:00", held},
	})
}

func TestFill(t *testing.T) {
	fill := advise.Action{
		Urgency: advise.Today, Kind: "fill", Say: "Fill the bath to the mark",
		Why: "70.0 gal to the mark: the upper rivet; drain valve shut first", Preset: map[string]string{"volume": "70.0 gal"},
	}
	unmarked := fill
	unmarked.Why = "70.0 gal to the mark; drain valve shut first"
	says(t, "fill", []moment{
		{"never filled", setUp(), "2 07:00", fill},
		{"the mark in nobody's words", bare(), "2 07:00", unmarked},
		{"a fill is open", dosed(), "3 07:00", advise.Action{}},
		{"drained and dirty", inService().add("20 08:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "20 09:00", advise.Action{}},
		{"drained and clean", inService().add("20 08:00", &bath.Drain{VolumeL: 200, Route: "hauler"}).add("20 08:40", &bath.Clean{}), "20 09:00", fill},
		{"its only fill was crossed out", filled().add("2 08:05", &bath.Strike{Target: filled().lastSeq(), Why: "wrong bath"}), "2 09:00", fill},
	})
}

// Source for 60 gal at 30 to 1: common practice, 2 US gal of concentrate, the
// volume divided by the ratio. In water alone it is 60/31 = 1.94 gal, by
// arithmetic.
func TestDose(t *testing.T) {
	usual := setUp().
		add("1 09:05", &bath.Tank{VolumeL: units.Gallons(60), LowL: units.Gallons(40), Ratio: 30}).
		add("2 08:00", &bath.Fill{VolumeL: units.Gallons(60)})
	add := func(say, why string) advise.Action {
		return advise.Action{Urgency: advise.Today, Kind: "dose", Say: say, Why: why}
	}
	const pour = "; cap and seal off, pour slowly, eyes covered"
	says(t, "dose", []moment{
		{"60 gal at 30 to 1", usual, "2 08:05", add("Add soap, 2.0 gal: 2 jugs", "30 to 1 on 60.0 gal"+pour)},
		{"parts of water", usual.add("2 08:01", &bath.Setting{Parts: bath.PartsInWater}), "2 08:05", add("Add soap, 1.9 gal: 1.9 jugs", "30 to 1 on 60.0 gal"+pour)},
		{"in litres", usual.add("2 08:01", &bath.Setting{Units: "si"}), "2 08:05", add("Add soap, 7.6 L: 2 jugs", "30 to 1 on 227.1 L"+pour)},
		{"one pail holds 5 gal", usual.add("2 08:01", &bath.Tank{Container: "pail", ContainerL: units.Gallons(5)}), "2 08:05", add("Add soap, 2.0 gal: 0.4 pails", "30 to 1 on 60.0 gal"+pour)},
		{"70 gal at 35 to 1", filled(), "2 08:05", add("Add soap, 2.0 gal: 2 jugs", "35 to 1 on 70.0 gal"+pour)},
		{"no ratio on file", bare().add("2 08:00", &bath.Fill{VolumeL: units.Gallons(70)}), "2 08:05",
			add("Add the first dose of soap", "no ratio is set: follow the product's label")},
		{"no fill", setUp(), "2 08:05", advise.Action{}},
		{"soap is in", dosed(), "2 08:15", advise.Action{}},
		{"its soap was crossed out", dosed().add("2 08:20", &bath.Strike{Target: dosed().lastSeq(), Why: "other bath"}), "2 08:25", add("Add soap, 2.0 gal: 2 jugs", "35 to 1 on 70.0 gal"+pour)},
	})
}

func TestHeat(t *testing.T) {
	off, on := false, true
	warm := func(body *bath.Temp) book { return dosed().add("2 08:40", body) }
	heat := func(say, why, due string) advise.Action {
		a := advise.Action{Urgency: advise.Today, Kind: "temp", Say: say, Why: why}
		if due != "" {
			a.Due = at(due)
		}
		return a
	}
	const say = "Heat to 122 °F, then measure"
	weak := &bath.Tank{HeaterW: 1000}
	says(t, "heat", []moment{
		{"no soap yet", filled(), "2 08:05", advise.Action{}},
		{"logged as off", warm(&bath.Temp{BathC: 20, Heat: &off}), "2 08:45", heat("Heater on, heat to 122 °F", "it was logged as off 08:40", "")},
		{"should be there", warm(&bath.Temp{BathC: 49, SetC: new(units.Fahrenheit(126)), Heat: &on}), "2 11:00",
			heat("Measure the bath", "it should be at 126 °F since about 08:52, if the heater is on", "")},
		{"3 °C below the set point is warm", warm(&bath.Temp{BathC: 47}), "2 08:45", advise.Action{}},
		{"a heater too weak", dosed().add("2 08:20", weak), "2 08:45", heat(say, "set point confirmed, not only dialled", "")},
		{"in service", inService().add("9 08:00", &bath.Temp{BathC: 20}), "9 08:05", advise.Action{}},
		{"drained", dosed().add("2 08:30", &bath.Drain{VolumeL: 200, Route: "hold"}), "2 08:45", advise.Action{}},
	})
}

func TestDegas(t *testing.T) {
	warm := dosed().add("2 10:00", &bath.Temp{BathC: 50})
	run := advise.Action{
		Urgency: advise.Today, Kind: "degas", Say: "Run empty 15 min to clear bubbles",
		Why: "key holder, lid shut, bath warm, until no more fine bubbles rise",
	}
	late := run
	late.Why = "none is logged in this fill, and no wash counts before it; " + run.Why
	says(t, "degas", []moment{
		{"cold", dosed(), "2 09:00", advise.Action{}},
		{"warm", warm, "2 10:05", run},
		{"warm, seen before a wash", dosed().add("2 10:00", wash(50, bath.ResultClean)), "2 10:05", run},
		{"done", warm.add("2 10:10", &bath.Degas{Time: units.Minutes(15)}), "2 10:30", advise.Action{}},
		{"forgotten, first reading taken", warm.add("2 10:30", first(10.12)), "4 07:00", late},
		{"done in the fill before", inService().add("9 08:00", &bath.Drain{VolumeL: 200, Route: "hold"}).
			add("9 10:00", &bath.Fill{VolumeL: units.Gallons(70)}).add("9 10:10", &bath.Dose{VolumeL: units.Gallons(2)}).
			add("9 12:00", &bath.Temp{BathC: 50}), "9 12:05", run},
	})
}

// Source: ruling of the trade: the entry itself says that it is the first
// reading. Crossing it out promotes no other.
func TestFirstReading(t *testing.T) {
	warm := dosed().add("2 10:00", &bath.Temp{BathC: 50})
	struck := read().add("4 08:00", hot(10.09)).add("4 09:00", &bath.Strike{Target: read().lastSeq(), Why: "read in the wrong bath"})
	take := advise.Action{
		Urgency: advise.Today, Kind: "reading", Preset: map[string]string{"baseline": "yes"},
		Say: "Take the first reading", Why: "hot and mixed; every later one is judged against it",
	}
	cold, gassy, unnamed := take, take, take
	cold.Urgency, cold.Why = advise.Soon, "when the bath is warm and mixed"
	gassy.Why = "no degas is logged: it can be read all the same"
	unnamed.Why = "no reading of this fill is named the first: take one now, hot and mixed"
	says(t, "baseline", []moment{
		{"no soap", filled(), "2 08:05", advise.Action{}},
		{"cold", dosed(), "2 09:00", cold},
		{"not degassed", warm, "2 10:05", gassy},
		{"ready", warmed(), "2 10:30", take},
		{"taken", inService(), "2 13:00", advise.Action{}},
		{"only unnamed readings", warmed().add("2 10:30", hot(10.12)), "2 11:00", unnamed},
		{"crossed out, others left", struck, "4 10:00", unnamed},
		{"only its cooled pair left", struck.add("4 09:10", &bath.Reading{PH: 10.6, SampleC: 22, Baseline: true, Cooled: true}), "4 10:00", unnamed},
	})
	if got := struck.look(t, "4 10:00").PH; got.State != advise.PHUnknown || got.First != nil {
		t.Errorf("crossed out: state %s, first %v, want unknown and none", got.State, got.First)
	}
}

func TestCooledPair(t *testing.T) {
	pair := advise.Action{
		Urgency: advise.Today, Kind: "reading", Preset: map[string]string{"baseline": "yes", "cooled": "yes"},
		Say: "Read the same cup again when cool",
		Why: "first reading 10.12 at 122 °F; then cold readings can be compared too",
	}
	says(t, "baseline-cooled", []moment{
		{"no first reading", warmed(), "2 10:31", advise.Action{}},
		{"just read", read(), "2 10:31", pair},
		{"a day later", read(), "3 10:30", pair},
		{"the cup is long cold", read(), "3 10:31", advise.Action{}},
		{"read", inService(), "2 12:01", advise.Action{}},
		{"drained meanwhile", read().add("2 11:00", &bath.Drain{VolumeL: 200, Route: "hold"}), "2 11:10", advise.Action{}},
	})
}

// The forms open with what an action presets, so each preset must be an answer
// that its field takes.
func TestPresetsAreAnswers(t *testing.T) {
	seen := map[string]bool{}
	for _, b := range []book{
		dosed(), inService(), read(),
		inService().add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"}),
		inService().add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"}).add("3 03:00", &bath.Drain{VolumeL: 200, Route: "hold"}),
		inService().add("2 12:30", &bath.Filter{Time: 40 * 3600}),
		inService().add("2 12:30", hot(9.40)),
		inService().permitted("2026-03-09"),
	} {
		for _, a := range b.look(t, "3 07:00").Next {
			if a.Preset == nil {
				continue
			}
			seen[a.ID] = true
			spec, ok := bath.SpecOf(a.Kind)
			if !ok {
				t.Fatalf("%s: %q is no kind of entry", a.ID, a.Kind)
			}
			for name, text := range a.Preset {
				f, ok := spec.Field(name)
				if !ok {
					t.Errorf("%s: a %s has no field %q", a.ID, a.Kind, name)
				} else if err := f.Set(spec.New(), units.US.Scan, text); err != nil {
					t.Errorf("%s: %v", a.ID, err)
				}
			}
		}
	}
	want := []string{
		"baseline", "baseline-cooled", "cartridge-1", "cartridge-2", "clean",
		"dip", "drain-limits", "duty-eyewash", "duty-foil", "duty-inspection", "held-13", "permission-liquid-sewer", "red-tag",
	}
	if diff := cmp.Diff(want, slices.Sorted(maps.Keys(seen))); diff != "" {
		t.Errorf("actions that preset, -want +got:\n%s", diff)
	}
}
