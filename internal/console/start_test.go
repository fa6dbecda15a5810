package console

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// A wash is started past the gates; its timer counts down in the top lines of
// every screen, calls once when it is over, and asks how the wash came out.
func TestAWashIsStartedAndItsTimerRuns(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("s")
	d.typ("helmet=2")
	d.press("enter")
	d.typ("5")
	d.press("enter")
	d.typ("121")
	d.press("enter", "a")
	d.wants("Not in the bath: nobody has said whether there was anything but smoke")
	for _, b := range []bath.Body{
		&bath.Intake{Else: bath.ElseNone},
		&bath.Procedure{Item: "helmet", State: bath.PaperOnFile, Title: "shell care, rev 2", MaxC: new(units.Fahrenheit(126))},
	} {
		if _, err := d.st.Record(station.Draft{By: "Noor", Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	d.run(d.m.load())
	d.m.sheets[0].(*form).fields.row("checked").set("yes")
	d.press("enter")
	d.wants("Helmet shell floats, and no lid is clipped over it")
	d.m.sheets[0].(*form).fields.row("lids").set("yes")
	d.press("enter")
	d.wants("Helmet shell × 2 in the bath, 5:00 left, ends 07:05")
	tick := func(after time.Duration) {
		d.clock.t = d.clock.t.Add(after)
		d.send(clockMsg(d.clock.t))
	}
	tick(79 * time.Second)
	for _, screen := range []string{"1", "2", "3", "7"} {
		d.press(screen)
		d.wants("Helmet shell × 2 in the bath, 3:41 left")
	}
	tick(222 * time.Second)
	d.wants("Time is up: ultrasound off, gear out, say how it came out")
	d.press("1")
	d.wants("Gear out; say how the wash came out")
	tick(time.Second)
	d.lacks("Time is up: ultrasound off")
	d.press("home", "enter")
	d.wants("Log a wash", "helmet=2")
	d.press("a")
	d.wants("Saved")
	d.lacks("in the bath,")
}
