package console

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// beforeChange is the tended station half an hour before a change of shift,
// with a wash in the bath and a mask held.
func beforeChange(t testing.TB, w, h int) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	d.clock.t = start.Add(20*24*time.Hour + 22*time.Hour + 20*time.Minute) // Mon 22 Mar, 06:20
	for _, l := range []struct {
		by   string
		body bath.Body
	}{
		{"Noor", &bath.Gear{Tag: "M-2", Item: "mask"}},
		{"Lee", &bath.GearHold{Tag: "M-2", Why: "lens crazed"}},
		{"Amari", &bath.Intake{Else: bath.ElseNone}},
		{"Amari", &bath.Start{Items: []bath.Load{{Item: "tool", Count: 3}}, Time: units.Minutes(10), BathC: units.Fahrenheit(120), Checked: true}},
	} {
		if _, err := d.st.Record(stationDraft(l.by, l.body)); err != nil {
			t.Fatal(err)
		}
	}
	d.clock.t = d.clock.t.Add(time.Minute)
	d.run(d.m.load())
	return d
}

func TestHandoverGoldens(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
		keys []string
	}{
		{"handover-100x30", 100, 30, nil},
		{"handover-80x24", 80, 24, []string{"pgdown"}},
		{"handover-60x16", 60, 16, nil},
		{"handover-end-60x16", 60, 16, []string{"end"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := beforeChange(t, c.w, c.h)
			d.press("7", "v")
			d.press(c.keys...)
			d.golden(c.name)
		})
	}
}

// The shift is asked for its note, writes it beside what it hands over, and is
// asked no more.
func TestTheShiftHandsOver(t *testing.T) {
	d := beforeChange(t, 100, 30)
	d.wants("Hand over to A shift")
	d.press("7", "v")
	d.wants("Handover, Mill Road", "Hand tool × 3 in the bath, ends", "M-2, held by Lee Tran", "comes on next")
	d.press("enter")
	d.wants("Hand over to the next shift")
	d.typ("packs still drip")
	d.press("enter", "n")
	d.wants("Saved", "Noor Haddad, 06:21: packs still drip")
	d.press("v")
	d.wants("Log book", "packs still drip")
	d.press("1")
	d.lacks("Hand over to A shift")
}

func TestHandoverFits(t *testing.T) {
	for name, press := range map[string][]string{"top": nil, "end": {"end"}, "note": {"enter"}} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := beforeChange(t, 100, 30)
			d.press("7", "v")
			d.press(press...)
			d.sweep()
		})
	}
}
