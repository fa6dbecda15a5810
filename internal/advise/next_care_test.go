package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// washedOff is a bath in service that three masks and a helmet came clean out
// of, with the care of a mask by 29 CFR 1910.134 App. B-2.
func washedOff() book {
	w := wash(40, bath.ResultClean)
	w.Items = []bath.Load{
		{Item: "mask", Name: "Mask", Count: 3, Care: []bath.CareStep{{ID: "rinse"}, {ID: "disinfect", Least: units.Minutes(2), PPM: 50}}},
		{Item: "helmet", Name: "Helmet shell", Count: 1, Care: []bath.CareStep{{ID: "rinse"}}},
	}
	return inService().add("8 18:00", w)
}

func careStep(b book, item, step string) book {
	return b.add("8 18:20", &bath.Care{Item: item, Step: step, Wash: washLine, Time: units.Minutes(2), PPM: 50})
}

// washLine is the line of the wash in washedOff.
var washLine = washedOff().lastSeq()

func TestCareDue(t *testing.T) {
	rinsed := careStep(washedOff(), "mask", "rinse")
	done := careStep(rinsed, "mask", "disinfect")
	line := map[string]string{"item": "mask", "wash": "12", "step": "rinse"}
	disinfect := map[string]string{"item": "mask", "wash": "12", "step": "disinfect", "time": "", "ppm": ""}
	says(t, "care-rinse", []moment{
		{"nothing washed", inService(), "8 18:05", advise.Action{}},
		{"both", washedOff(), "8 18:05", advise.Action{Urgency: advise.Today, Kind: "care", Say: "Rinse Mask × 3, Helmet shell × 1", Why: "washed 18:00", Preset: line}},
		{"masks rinsed", rinsed, "8 18:25", advise.Action{Urgency: advise.Today, Kind: "care", Say: "Rinse Helmet shell × 1", Why: "washed 18:00", Preset: map[string]string{"item": "helmet", "wash": "12", "step": "rinse"}}},
		{"never logged", washedOff(), "11 18:01", advise.Action{}},
	})
	says(t, "care-disinfect", []moment{
		{"masks rinsed", rinsed, "8 18:25", advise.Action{Urgency: advise.Today, Kind: "care", Say: "Disinfect Mask × 3", Why: "rinsed 18:20; 2 min at least, 50 ppm", Preset: disinfect}},
		{"disinfected", done, "8 18:25", advise.Action{}},
	})
	says(t, "care-ready", []moment{
		{"masks done", done, "8 18:25", advise.Action{Urgency: advise.Today, Kind: "ready", Say: "Back in service: Mask × 3", Why: "disinfected 18:20; every step is done, a key holder releases it", Preset: map[string]string{"item": "mask", "wash": "12", "serial": "", "findings": "", "action": ""}}},
		{"released", done.add("8 18:30", &bath.Ready{Item: "mask", Wash: washLine}), "8 18:35", advise.Action{}},
	})
}

func TestGearHeld(t *testing.T) {
	b := washedOff().add("8 18:10", &bath.Gear{Tag: "M-1", Item: "mask"})
	held := b.add("8 18:15", &bath.GearHold{Tag: "M-1", Why: "lens cracked"})
	says(t, "gear-held", []moment{
		{"none", b, "8 18:20", advise.Action{}},
		{"a piece", held, "8 18:20", advise.Action{Urgency: advise.Soon, Kind: "gear-release", Say: "Held gear waits for the gear officer", Why: "M-1: lens cracked", Preset: map[string]string{"tag": "M-1"}}},
		{"and a batch", held.add("8 18:16", &bath.GearHold{Wash: washLine, Why: "smells of fuel"}), "8 18:20",
			advise.Action{Urgency: advise.Soon, Kind: "gear-release", Say: "Held gear waits for the gear officer", Why: "M-1: lens cracked; and 2 more", Preset: map[string]string{"tag": "M-1"}}},
		{"released", held.add("8 18:17", &bath.GearRelease{Tag: "M-1", Why: "lens renewed"}), "8 18:20", advise.Action{}},
	})
}

func TestLookBackNamesWhatToFetch(t *testing.T) {
	contaminated := func(wash uint64) book {
		return washedOff().add("8 19:00", wash2()).add("8 20:00", &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos", Wash: wash})
	}
	want := advise.Action{Urgency: advise.Now, Kind: "gear-hold", Say: "Fetch back what was washed since 18:00, tag it red",
		Why: "Mask × 3, Helmet shell × 1, washed 18:00, line 12; and 1 more; tagged gear is held already", Preset: map[string]string{"why": "contaminated bath: asbestos"}}
	says(t, "look-back", []moment{
		{"no wash named", contaminated(0), "8 20:05", advise.Action{}},
		{"named", contaminated(washLine), "8 20:05", want},
	})
}

func wash2() *bath.Wash {
	w := wash(50, bath.ResultClean)
	w.Items[0].Name = "Helmet shell"
	return w
}
