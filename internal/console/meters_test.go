package console

import (
	"testing"
	"time"
)

// A meter is checked from its page with the keys that the screen names, and a
// dip that fails takes the trust from what it reads.
func TestADipIsLoggedFromTheMeterPage(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("2", "v")
	d.wants("Meters: calibrations and dips", "slope 98.3 %, offset 0.1 mV: good")
	d.press("a")
	d.wants("Check or calibrate a meter", "M1")
	d.press("a", "tab", "tab") // who, when, one dip
	d.typ("carbonate@72F=10.31")
	d.press("enter")
	d.wants("carbonate reads 10.31 and should read 10.04", "✗")
	d.press("p")
	d.typ("995")
	d.press("enter")
	d.typ("121")
	d.press("enter")
	d.wants("Kept, not trusted: meter M1 had failed on 23 Mar")
	d.press("a")
	d.press("v")
	d.wants("doubtful: meter")
}

// Two readings of the first sample are asked for, within 0.05.
func TestAFirstReadingIsAskedForTwice(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("2", "end", "x")
	d.typ("probe was dirty")
	d.press("enter", "n")
	d.press("p")
	d.typ("1038")
	d.press("enter")
	d.typ("121")
	d.press("enter", "tab", "tab", "tab", "tab", "y")
	d.wants("First reading: every later one is judged against it.")
	d.press("enter")
	d.wants("A first reading wants a second number within 0.05")
	d.typ("1046")
	d.press("enter")
	d.wants("10.38 and 10.46 are 0.08 apart")
	d.press("backspace", "0", "enter")
	d.wants("Saved")
}

func TestTheProbeIsTimed(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "ctrl+t")
	second := func(n int) {
		for range n {
			d.clock.t = d.clock.t.Add(time.Second)
			d.send(clockMsg(d.clock.t))
		}
	}
	second(1)
	d.wants("20 s to go, keep it still")
	second(8)
	d.wants("12 s to go")
	second(12)
	d.wants("The probe has stood 20 s", "waited         20 s")
}
