package report

import (
	"fmt"
	"io"
	"slices"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// WriteHandover writes the sheet of the shift change, to be read aloud or
// printed: red tag, notes, what to do, how the bath stands, and what happened.
// since are the entries to tell, oldest first, as the log book has them; those
// that are crossed out are told as such. The error is w's.
func WriteHandover(w io.Writer, x *advise.Snapshot, since []bath.Entry) error {
	return WriteHandoverIn(w, width, x, since)
}

// WriteHandoverIn is WriteHandover in so many columns, for a narrow screen;
// never more than a page has.
func WriteHandoverIn(w io.Writer, columns int, x *advise.Snapshot, since []bath.Entry) error {
	t := text{columns: min(columns, width)}
	writeTag(&t, x)
	t.say("Handover, " + place(x))
	t.say(stamp(x) + ". " + relief(x))
	t.blank()
	notes := lastNotes(x, since)
	writeNotes(&t, x, notes)
	t.blank()
	writeList(&t, "Running", x.Running())
	writeList(&t, "Kept from use", x.Held())
	writeNext(&t, x)
	t.blank()
	writeBath(&t, x)
	writeOthers(&t, x)
	t.blank()
	writeEvents(&t, x, slices.DeleteFunc(slices.Clone(since), func(e bath.Entry) bool { return holds(notes, e.Seq) }))
	if _, err := io.WriteString(w, t.String()); err != nil {
		return fmt.Errorf("write handover: %w", err)
	}
	return nil
}

// relief is who hands over to whom, and when.
func relief(x *advise.Snapshot) string {
	if x.Shift.Platoon == "" {
		return duty(x)
	}
	next := x.State.Shifts().Next(x.Now)
	return fmt.Sprintf("%s Platoon %s comes on next.", duty(x), next.Platoon)
}

// lastNotes are the notes of since and at least the last three of all, those
// from before it included: what nobody has dealt with is still told.
func lastNotes(x *advise.Snapshot, since []bath.Entry) []bath.Entry {
	const least = 3
	notes := x.State.Notes
	from := max(len(notes)-least, 0)
	for from > 0 && holds(since, notes[from-1].Seq) {
		from--
	}
	return notes[from:]
}

func holds(es []bath.Entry, seq uint64) bool {
	return slices.ContainsFunc(es, func(e bath.Entry) bool { return e.Seq == seq })
}

func writeNotes(t *text, x *advise.Snapshot, notes []bath.Entry) {
	t.say("Notes")
	for _, n := range notes {
		t.hang("", 2, fmt.Sprintf("%s, %s: %s", n.By, when(x, n.At), n.Say(x.Sys)))
	}
	if len(notes) == 0 {
		t.hang("", 2, "none")
	}
}

// writeList writes what there is of something; nothing where there is none.
func writeList(t *text, name string, say []string) {
	if len(say) == 0 {
		return
	}
	t.say(name)
	for _, s := range say {
		t.hang("", 2, s)
	}
	t.blank()
}

func writeEvents(t *text, x *advise.Snapshot, events []bath.Entry) {
	t.say("What happened")
	for _, e := range events {
		t.hang("", 2, event(x, e))
	}
	if len(events) == 0 {
		t.hang("", 2, "nothing was written down")
	}
}

// event is an entry as it is told: when, where, who, what, and its line.
func event(x *advise.Snapshot, e bath.Entry) string {
	where := ""
	if len(x.State.Baths) > 1 && e.Bath != "" {
		where = " in bath " + e.Bath
	}
	e.At = local(x, e.At)
	s := fmt.Sprintf("%s%s, %s: %s (line %d)", when(x, e.At), where, e.By, what(e, x.Sys, x.Times, x.State.Struck[e.Seq]), e.Seq)
	if now, ok := corrected(x.State, e); ok {
		s += "; corrected to " + now.Say(x.Sys)
	}
	return s
}

// corrected is what counts in place of a line that is crossed out.
func corrected(st *bath.State, e bath.Entry) (bath.Entry, bool) {
	if st.Struck[e.Seq] == 0 {
		return bath.Entry{}, false
	}
	for _, b := range st.Baths {
		for _, kept := range b.Entries {
			if kept.Seq == e.Seq {
				return kept, true
			}
		}
	}
	return bath.Entry{}, false
}
