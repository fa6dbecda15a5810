package advise_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// fourMasks are in the bath for four minutes, by one clock of the station.
func fourMasks() *bath.Start {
	return &bath.Start{Items: []bath.Load{{Item: "mask", Name: "Mask", Count: 4}}, Soil: "light", Time: units.Minutes(4), BathC: 40}
}

// A wash asks for its result as soon as its time is up, or it is broken off,
// and no earlier.
func TestWashResult(t *testing.T) {
	b := inService().add("3 06:58", fourMasks())
	seq := fmt.Sprint(b.lastSeq())
	over := advise.Action{
		Urgency: advise.Now, Due: at("3 07:02"), Kind: "wash", Say: "Gear out; say how the wash came out",
		Why:    "Mask × 4, over since 07:02; ultrasound off before a hand goes in",
		Preset: map[string]string{"item": "mask=4", "soil": "light", "result": "clean", "start": seq, "time": "4 min", "bath": "104 °F"},
	}
	held := over
	held.Due, held.Why = at("3 07:12"), "Mask × 4, over since 07:12; ultrasound off before a hand goes in"
	broken := advise.Action{
		Urgency: advise.Now, Due: at("3 07:00"), Kind: "wash", Say: "Gear out; log the broken wash", Why: "Mask × 4, broken off at 07:00: tones out",
		Preset: map[string]string{"item": "mask=4", "soil": "light", "result": "again", "start": seq, "time": "2 min", "bath": "104 °F"},
	}
	paused := b.add("3 07:00", &bath.Pause{})
	says(t, "wash-result", []moment{
		{"nothing in the bath", inService(), "3 07:00", advise.Action{}},
		{"while it runs", b, "3 07:01", advise.Action{}},
		{"at its end", b, "3 07:02", over},
		{"next morning", b, "4 06:58", func() advise.Action {
			late := over
			late.Why = "Mask × 4, over since Tue 07:02; ultrasound off before a hand goes in"
			return late
		}()},
		{"paused", paused, "3 09:00", advise.Action{}},
		{"on again", paused.add("3 07:10", &bath.Resume{}), "3 07:11", advise.Action{}},
		{"over after a pause", paused.add("3 07:10", &bath.Resume{}), "3 07:12", held},
		{"broken off", b.add("3 07:00", &bath.Abort{Why: "tones out"}), "3 07:01", broken},
		{"broken off while paused", paused.add("3 07:00", &bath.Abort{Why: "tones out"}), "3 07:30", broken},
		{"logged", b.add("3 07:03", &bath.Wash{Items: []bath.Load{{Item: "mask", Count: 4}}, Soil: "light", Time: 240, BathC: 40, Result: "clean"}), "3 07:04", advise.Action{}},
		{"under a red tag", b.add("3 07:00", &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos"}), "3 07:02", over},
	})
}

// What the action fills in is taken by the form, and takes the wash out.
func TestTheResultThatIsAskedForIsTaken(t *testing.T) {
	b := inService().add("3 06:58", fourMasks())
	x := b.look(t, "3 07:02")
	w := new(bath.Wash)
	spec, _ := bath.SpecOf("wash")
	for name, text := range x.Next[0].Preset {
		field, ok := spec.Field(name)
		if !ok {
			t.Fatalf("a wash has no %q", name)
		}
		if err := field.Set(w, units.Scan, text); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	after := b.add("3 07:03", w).look(t, "3 07:04")
	if after.Bath.Run != nil || w.Items[0].Count != 4 || w.Time != units.Minutes(4) || w.BathC != 40 {
		t.Errorf("got %+v, and in the bath %+v", w, after.Bath.Run)
	}
}

func TestRunSay(t *testing.T) {
	b := inService().add("3 06:58", fourMasks())
	for _, tt := range []struct {
		name string
		book book
		now  string
		sec  time.Duration
		want string
	}{
		{"none", inService(), "3 07:00", 0, ""},
		{"running", b, "3 06:58", 19 * time.Second, "Mask × 4 in the bath, 3:41 left, ends 07:02"},
		{"its last second", b, "3 07:01", 59500 * time.Millisecond, "Mask × 4 in the bath, 0:01 left, ends 07:02"},
		{"over", b, "3 07:02", 0, "Mask × 4 in the bath, time is up: gear out, say how it came out"},
		{"paused", b.add("3 07:00", &bath.Pause{}), "3 08:00", 0, "Mask × 4 in the bath, paused, 2:00 left"},
		{"broken off", b.add("3 07:00", &bath.Abort{Why: "tones out"}), "3 07:01", 0, "Mask × 4 in the bath, broken off: gear out, log it"},
	} {
		if got := tt.book.look(t, tt.now).RunSay(at(tt.now).Add(tt.sec)); got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.name, got, tt.want)
		}
	}
}

// Source: ruling of the trade: 30 days, in which Next says how many are left;
// after that each wash wants a gear officer's reason. They are 720 hours,
// whatever the clock does on the 8th.
func TestPaperMissing(t *testing.T) {
	b := inService().add("3 08:00", &bath.Procedure{Item: "mask", State: bath.PaperPending})
	get := advise.Action{
		Urgency: advise.Soon, Due: at("2026-04-02 09:00"), Kind: "procedure", Preset: map[string]string{"item": "mask", "state": "on-file"},
		Say: "Get the maker's paper for mask", Why: "30 days left, accepted by Kim Vale until then",
	}
	why := func(s string) advise.Action {
		a := get
		a.Why = s
		return a
	}
	late := why("the 30 days are over: no wash of it starts without a gear officer's reason each time")
	late.Urgency = advise.Today
	max := units.Temperature(50)
	says(t, "paper-mask", []moment{
		{"no paper was asked about", inService(), "3 08:00", advise.Action{}},
		{"from the first day", b, "3 08:00", get},
		{"12 days left", b, "21 08:00", why("12 days left, accepted by Kim Vale until then")},
		{"a day left", b, "2026-04-01 08:00", why("1 day left, accepted by Kim Vale until then")},
		{"the last hour", b, "2026-04-02 08:30", why("less than a day left, accepted by Kim Vale until then")},
		{"an hour too late", b, "2026-04-02 10:00", late},
		{"it came", b.add("9 08:00", &bath.Procedure{Item: "mask", State: bath.PaperOnFile, Title: "guide", MaxC: &max}), "2026-04-09 08:00", advise.Action{}},
		{"washed outside", b.add("9 08:00", &bath.Procedure{Item: "mask", State: bath.PaperOutside}), "2026-04-09 08:00", advise.Action{}},
	})
}

// A guide that goes on before the timer is at its end fills in what its start
// said, and leaves the minutes to who saw them.
func TestAWashThatIsStillOnFillsInAllButItsMinutes(t *testing.T) {
	b := inService().add("3 06:58", fourMasks())
	form := map[string]string{"item": "mask=4", "soil": "light", "result": "clean", "start": fmt.Sprint(b.lastSeq()), "bath": "104 °F"}
	if diff := cmp.Diff(form, b.look(t, "3 06:59").Fill("wash", nil)); diff != "" {
		t.Errorf("while it runs (-want +got)\n%s", diff)
	}
	form["time"] = "4 min"
	if diff := cmp.Diff(form, b.look(t, "3 07:02").Fill("wash", nil)); diff != "" {
		t.Errorf("at its end (-want +got)\n%s", diff)
	}
}
