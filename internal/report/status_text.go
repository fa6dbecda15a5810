package report

import (
	"fmt"
	"io"
	"strings"
	"time"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// WriteStatus writes how the bath of x stands, for a person or a screen reader:
// the red tag first, then what to do next, then the figures. The error is w's.
func WriteStatus(w io.Writer, x *advise.Snapshot) error {
	var t text
	writeTag(&t, x)
	t.say(place(x))
	t.say(stamp(x) + ". " + duty(x))
	t.blank()
	writeNext(&t, x)
	t.blank()
	writeBath(&t, x)
	writeOthers(&t, x)
	if _, err := io.WriteString(w, t.String()); err != nil {
		return fmt.Errorf("write status: %w", err)
	}
	return nil
}

// writeTag writes the line that comes before everything else.
func writeTag(t *text, x *advise.Snapshot) {
	if tag := x.TagSay(); tag != "" {
		t.say(tag)
		t.blank()
	}
}

// writeNext writes what to do, each with its reason below it.
func writeNext(t *text, x *advise.Snapshot) {
	const indent = 9
	t.say("Next")
	for _, a := range x.Next {
		t.hang("  "+a.Urgency.String(), indent, a.Say)
		if a.Why != "" {
			t.hang("", indent, a.Why)
		}
	}
	if len(x.Next) == 0 {
		t.hang("", 2, "nothing")
	}
}

func writeBath(t *text, x *advise.Snapshot) {
	t.say("Bath")
	for _, f := range facts(x) {
		t.hang("  "+f.label, factIndent, f.say)
	}
}

// writeOthers writes a line for each other bath of the station, so that a red
// tag is not missed for having asked about another one.
func writeOthers(t *text, x *advise.Snapshot) {
	if len(x.State.Baths) < 2 {
		return
	}
	t.blank()
	t.say("Other baths")
	for _, y := range everyBath(x) {
		if y != x {
			t.hang("  "+plain.Line(y.Bath.ID), factIndent, brief(y))
		}
	}
}

// brief is a bath in one line.
func brief(x *advise.Snapshot) string {
	switch tag := x.TagSay(); {
	case tag != "":
		return tag
	case !x.Open:
		return "empty"
	}
	return advise.StateWord(x.PH.State) + ": " + x.DropSay()
}

// place is the station and the bath.
func place(x *advise.Snapshot) string {
	if s := x.State.Site.Station; s != "" {
		return s + ": " + bathName(x)
	}
	return bathName(x)
}

// bathName is what the station calls the bath.
func bathName(x *advise.Snapshot) string {
	if n := x.Bath.Tank.Name; n != "" {
		return n
	}
	return "bath " + x.Bath.ID
}

// stamp is the day and time of x.
func stamp(x *advise.Snapshot) string {
	return x.Now.Format("Mon ") + x.Times.FullDate(x.Now) + ", " + x.Times.Clock(x.Now)
}

// duty is who is on, and until when.
func duty(x *advise.Snapshot) string {
	who := "On duty"
	if x.Shift.Platoon != "" {
		who += ", platoon " + x.Shift.Platoon
	}
	names := strings.Join(onDuty(x), ", ")
	if names == "" {
		names = "nobody is on the roster"
	}
	return fmt.Sprintf("%s until %s: %s.", who, when(x, x.Shift.End), names)
}

// when is a time as short as it stays clear: 06:40 today, Thu 19 Nov 06:40
// before, with the year where it is another.
func when(x *advise.Snapshot, t time.Time) string {
	t = local(x, t)
	switch {
	case t.Year() != x.Now.Year():
		return x.Times.FullClock(t)
	case t.YearDay() != x.Now.YearDay():
		return x.Times.DayClock(t)
	}
	return x.Times.Clock(t)
}
