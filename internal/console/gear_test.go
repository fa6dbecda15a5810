package console

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// geared is the tended station with a gear list, and a wash of masks a while
// ago.
func geared(t testing.TB, w, h int) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	masks := &bath.Wash{Items: []bath.Load{{Item: "mask", Count: 4}}, Tags: bath.Tags{"M-2", "M-12"}, Soil: "light", Time: units.Minutes(4), BathC: units.Fahrenheit(104), Result: "clean"}
	for _, l := range []struct {
		after time.Duration
		by    string
		body  bath.Body
	}{
		{0, "Noor", &bath.Gear{Tag: "M-2", Item: "mask", Model: "full face", Serial: "40117", IssuedTo: "Lee Tran"}},
		{0, "Noor", &bath.Gear{Tag: "M-12", Item: "mask"}},
		{0, "Noor", &bath.Gear{Tag: "H-3", Item: "helmet", Made: bath.Month{Year: 2016, Of: time.February}}},
		{0, "Noor", &bath.Gear{Tag: "C-1", Item: "cylinder", Built: bath.BuiltCarbon, Made: bath.Month{Year: 2021, Of: time.May}}},
		{time.Minute, "Lee", &bath.GearHold{Tag: "C-1", Why: "scraped to the fibre"}},
		{2 * time.Minute, "Amari", masks},
		{9 * time.Minute, "Lee", &bath.Care{Item: "mask", Step: "rinse"}},
	} {
		d.clock.t = d.clock.t.Add(l.after)
		if _, err := d.st.Record(stationDraft(l.by, l.body)); err != nil {
			t.Fatal(err)
		}
	}
	d.clock.t = d.clock.t.Add(3 * time.Minute)
	d.run(d.m.load())
	return d
}

func TestGearGoldens(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
		open func(testing.TB, int, int) *desk
		keys []string
	}{
		{"gear-100x30", 100, 30, geared, nil},
		{"gear-80x24", 80, 24, geared, []string{"tab"}},
		{"gear-60x16", 60, 16, geared, nil},
		{"gear-60x16-tags", 60, 16, geared, []string{"tab", "down"}},
		{"gear-form-80x24", 80, 24, geared, []string{"enter"}},
		{"gear-counts-80x24", 80, 24, func(t testing.TB, w, h int) *desk { return sit(t, w, h, true) }, nil},
		{"gear-none-60x16", 60, 16, func(t testing.TB, w, h int) *desk { return sit(t, w, h, false) }, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := c.open(t, c.w, c.h)
			d.press("5")
			d.press(c.keys...)
			d.golden(c.name)
		})
	}
}

// Masks are taken from the first rinse to the rack: enter opens what comes
// next, and a timer holds the least time of the disinfection.
func TestMasksAreTakenThroughTheirCare(t *testing.T) {
	d := geared(t, 100, 30)
	d.press("5", "enter")
	d.wants("After the wash: a step done", "disinfect")
	d.press("enter", "enter", "a") // no time, no strength; who, by the key beside the name
	d.wants("how long")
	d.press("enter")
	d.wants("disinfect takes 2 min at least (29 CFR 1910.134 App. B-2)")
	d.press("ctrl+t")
	for range 121 {
		d.clock.t = d.clock.t.Add(time.Second)
		d.send(clockMsg(d.clock.t))
	}
	d.wants("The least time is over: take it out, and log it")
	care := d.m.sheets[0].(*form)
	care.fields.row("ppm").set("40")
	d.press("enter")
	d.wants("40 ppm is too weak to disinfect Mask × 4: 50 ppm at least")
	care.fields.row("ppm").set("50")
	d.press("enter")
	d.wants("Saved", "Mask × 4", "rinse")
	for _, step := range []string{"rinse", "dry", "inspect", "refit", "test"} {
		d.clock.t = d.clock.t.Add(10 * time.Minute)
		d.run(d.m.load())
		d.press("enter")
		care := d.m.sheets[0].(*form)
		if got := care.fields.row("step").value(); got != step {
			t.Fatalf("the form asks for %s, want %s", got, step)
		}
		if step == "test" {
			care.fields.row("tester").set("a technician")
			d.press("enter")
		}
		d.press("enter")
		d.wants("Saved")
	}
	d.wants("ready", "Every step is done: a key holder puts it back in service")
	d.press("enter")
	d.wants("Back in service")
	ready := d.m.sheets[0].(*form)
	for row, v := range map[string]string{"serial": "M-2, M-12, 51, 52", "findings": "none", "action": "none"} {
		ready.fields.row(row).set(v)
	}
	ready.fields.focusOn(rowWho)
	d.press("enter")
	d.lacks("Mask × 4")
	d.wants("M-12", "in service")
}

// A scanner types a tag and presses enter.
func TestAScannerFindsATag(t *testing.T) {
	d := geared(t, 100, 30)
	d.press("5", "/")
	d.typ("m-12")
	d.press("enter")
	d.wants("M-12 ", "Tagged gear")
	if p, ok := d.m.gear.piece(); !ok || p.Tag != "M-12" {
		t.Errorf("got %s marked, want M-12", p.Tag)
	}
	d.press("/")
	d.typ("M-40")
	d.press("enter")
	d.wants("Register or change a piece of gear", "M-40")
	d.press("esc", "r")
	wash := d.m.sheets[0].(*form)
	wash.fields.focusOn("tags")
	d.typ("M-2")
	d.press("enter")
	d.wants("Scan the next one")
	d.typ("H-3")
	d.press("enter")
	if got := wash.fields.row("tags").value(); got != "M-2, H-3," {
		t.Errorf("got %q", got)
	}
}

func TestGearFits(t *testing.T) {
	for name, press := range map[string][]string{"batches": nil, "tags": {"tab"}, "find": {"/"}, "step": {"enter"}, "hold": {"o"}, "register": {"tab", "a"}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := geared(t, 100, 30)
			d.press("5")
			d.press(press...)
			d.sweep()
		})
	}
}
