package advise

import (
	"fmt"

	"bathside/internal/bath"
)

// ofThisShift reports whether an entry was written since the change of shift:
// one about the shift before that was logged late is news all the same.
func (x *Snapshot) ofThisShift(e bath.Entry) bool {
	return !e.Logged.Before(x.Shift.Start) && !e.Logged.After(x.Now)
}

// ThisShift are those of the lines that were written since the change of
// shift; none is an empty list, not nil.
func (x *Snapshot) ThisShift(lines []bath.Entry) []bath.Entry {
	since := []bath.Entry{}
	for _, e := range lines {
		if x.ofThisShift(e) {
			since = append(since, e)
		}
	}
	return since
}

// Running is what is under way at the moment, a line for each bath with a wash
// in it; the bath is named where there are several. It says when a wash ends
// and not how much of it is left: a sheet stands longer than a second.
func (x *Snapshot) Running() (say []string) {
	for _, b := range x.State.Baths {
		y := *x
		if y.Bath = b; b.Run == nil {
			continue
		}
		run := y.RunSay(x.Now)
		if b.Run.Ended == nil && b.Run.Paused == nil && b.Run.Left(x.Now) > 0 {
			run = runSay(*b.Run) + " in the bath, ends " + x.Clock(b.Run.Ends(x.Now))
		}
		if len(x.State.Baths) > 1 {
			run = "bath " + b.ID + ": " + run
		}
		say = append(say, run)
	}
	return say
}

// Held is the gear that is kept from use, pieces and what came out of a wash,
// each with who said so and why.
func (x *Snapshot) Held() (say []string) {
	add := func(name string, h *bath.Held) {
		say = append(say, fmt.Sprintf("%s, held by %s %s: %s", name, h.By, x.Clock(h.At), h.Why))
	}
	for _, p := range x.State.Gear {
		if p.Hold != nil && p.Gone == "" {
			add(p.Tag, p.Hold)
		}
	}
	for _, b := range x.State.Baths {
		for _, batch := range b.Batches {
			if batch.Hold != nil {
				add(batch.Say(), batch.Hold)
			}
		}
	}
	return say
}
