package console

import (
	"testing"
	"time"
)

// A machine that stood still for longer than good news stays has its last tick
// far behind: what is said then is still there at the next one.
func TestGoodNewsOutlastsAStall(t *testing.T) {
	tick := time.Date(2026, time.March, 2, 7, 0, 0, 0, time.UTC)
	clock := tick.Add(5 * time.Second)
	s := toast{now: func() time.Time { return clock }}
	s.pass("Saved", tick)
	if s.tick(clock.Add(time.Second)); s.text != "Saved" {
		t.Error("gone at the first tick after the stall")
	}
	if s.tick(clock.Add(toastFor + time.Second)); s.text != "" {
		t.Error("it stays")
	}
}
