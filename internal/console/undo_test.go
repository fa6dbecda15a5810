package console

import (
	"testing"
	"time"
)

// The last line is taken back by its author, after a question that names it and
// whose default is no.
func TestUndoTakesTheLastLineBack(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("u")
	d.wants("Not now: nobody has written here yet")
	d.press("w", "2", "enter", "down")
	d.press("esc")
	d.press("p", "9", "9", "8", "enter", "1", "2", "1", "enter", "a")
	d.wants("Saved: line 23", "u takes it back")
	d.press("u")
	d.wants("Take this line back?", "23  23 Mar 07:00", "pH 9.98")
	d.press("enter")
	if _, struck := d.m.state.Struck[23]; struck {
		t.Fatal("enter alone took it back")
	}
	d.press("u", "y")
	d.wants("Taken back: line 23")
	if _, struck := d.m.state.Struck[23]; !struck {
		t.Fatal("it was not taken back")
	}
	d.press("u")
	d.wants("Amari has written nothing in the last 10 min")
}

func TestUndoEndsAfterTenMinutes(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("p", "9", "9", "8", "enter", "1", "2", "1", "enter", "a")
	d.clock.t = d.clock.t.Add(11 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.press("u")
	d.wants("has written nothing in the last 10 min")
}

// What was said is found again, and what went wrong stays until a key.
func TestMessagesAreKept(t *testing.T) {
	d := sit(t, 100, 30, true)
	d.press("u")
	d.clock.t = d.clock.t.Add(time.Minute)
	d.send(clockMsg(d.clock.t))
	d.wants("nobody has written here yet")
	d.press("down")
	d.lacks("nobody has written here yet")
	d.press("m")
	d.wants("Messages, the newest first", "07:00  Not now: nobody has written here yet")
}

// What appears by itself does not vanish under the fingers of somebody typing.
func TestWhatAppearsByItselfIsNotTypedAway(t *testing.T) {
	d := sit(t, 100, 30, true)
	now := d.clock.t
	d.m.toast.now = func() time.Time { return now }
	d.press("down")
	d.m.toast.appear("Time is up")
	for range 5 {
		now = now.Add(100 * time.Millisecond)
		d.press("down")
		d.wants("Time is up")
	}
	now = now.Add(500 * time.Millisecond) // a pause in typing
	d.press("down")
	d.lacks("Time is up")
}
