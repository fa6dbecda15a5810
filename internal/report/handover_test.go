package report

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestWriteHandover(t *testing.T) {
	busy := inUse().
		add("26 06:30", "Amari Boone", &bath.Handover{Note: "hauler comes Friday"}).
		add("25 14:00", "Teo Lund", &bath.Water{VolumeL: units.Gallons(1), Cause: bath.CauseSpill}).
		last(func(e *bath.Entry) { e.Logged = at("26 06:45") })
	washing := inUse().
		add("26 06:40", "Amari Boone", &bath.Gear{Tag: "M-2", Item: "mask"}).
		add("26 06:45", "Teo Lund", &bath.GearHold{Tag: "M-2", Why: "lens crazed"}).
		add("26 06:50", "Amari Boone", &bath.Start{Items: []bath.Load{{Item: "tool", Name: "Hand tool", Count: 3}}, Time: units.Minutes(8), BathC: 49})
	for name, c := range map[string]struct {
		book *book
		from int // the line before the first to tell
	}{
		"busy":   {busy, 15},
		"wash":   {washing, len(*washing) - 3},
		"quiet":  {setUp(), len(*setUp())},
		"metric": {abroad(), 15},
	} {
		t.Run(name, func(t *testing.T) {
			x := c.book.look(t, "26 06:52")
			golden(t, "handover-"+name+".golden", written(t, func(b *bytes.Buffer) error {
				return WriteHandover(b, x, (*c.book)[c.from:])
			}))
		})
	}
}

// A narrow screen gets lines of its own width, with every word.
func TestAHandoverInFewColumns(t *testing.T) {
	b := inUse().add("26 06:30", "Amari Boone", &bath.Handover{Note: "hauler comes Friday"})
	x := b.look(t, "26 06:52")
	wide := string(written(t, func(w *bytes.Buffer) error { return WriteHandover(w, x, *b) }))
	for _, columns := range []int{56, 70, 200} {
		got := string(written(t, func(w *bytes.Buffer) error { return WriteHandoverIn(w, columns, x, *b) }))
		for line := range strings.Lines(got) {
			if n := ansi.StringWidth(strings.TrimSuffix(line, "\n")); n > min(columns, width) {
				t.Errorf("a line of %d columns in %d: %q", n, columns, line)
			}
		}
		if diff := cmp.Diff(strings.Fields(wide), strings.Fields(got)); diff != "" {
			t.Errorf("in %d columns other words (-wide +narrow):\n%s", columns, diff)
		}
	}
}

func TestEveryNoteIsToldOnce(t *testing.T) {
	b := setUp()
	words := []string{"one", "two", "three", "four", "five"}
	for _, w := range words {
		b.add("25 20:00", "Teo Lund", &bath.Handover{Note: "note " + w})
	}
	got := string(written(t, func(w *bytes.Buffer) error { return WriteHandover(w, b.look(t, "26 06:52"), (*b)[5:]) }))
	for _, w := range words {
		if n := strings.Count(got, "note "+w); n != 1 {
			t.Errorf("note %s is told %d times", w, n)
		}
	}
}

func TestLine(t *testing.T) {
	e := bath.Entry{
		Seq: 41, At: at("9 06:05"), Logged: at("9 06:05"), By: "Teo Lund",
		Body: &bath.Filter{Time: units.Minutes(25)},
	}
	late := e
	late.Logged = at("11 08:00")
	hostile := e
	hostile.By, hostile.Body = "Teo\x1b[2J", &bath.Handover{Note: "one\ntwo\u202e"}
	for name, c := range map[string]struct {
		e        bath.Entry
		struckBy uint64
		want     string
	}{
		"plain":           {e, 0, "  41   9 Nov 2026 06:05  Teo Lund      filter ran 25 min"},
		"crossed out":     {e, 52, "  41   9 Nov 2026 06:05  Teo Lund      crossed out by line 52: filter ran 25 min"},
		"from paper":      {late, 0, "  41   9 Nov 2026 06:05  Teo Lund      filter ran 25 min, written down 11 Nov 08:00"},
		"one line always": {hostile, 0, "  41   9 Nov 2026 06:05  Teo[2J        one two"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := Line(c.e, units.US, units.Times{}, c.struckBy); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

var errFull = errors.New("no room")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestAFailedWriteIsTold(t *testing.T) {
	x := inUse().look(t, "26 06:52")
	for name, err := range map[string]error{
		"status":   WriteStatus(full{}, x),
		"handover": WriteHandover(full{}, x, nil),
		"tally":    WriteTally(full{}, x, nil, seal),
		"decision": WriteDecision(full{}, x, decide(t, x), nil),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

func TestWhen(t *testing.T) {
	x := inUse().look(t, "26 06:52")
	for name, c := range map[string]struct {
		at   time.Time
		want string
	}{
		"today":              {at("26 00:00"), "00:00"},
		"the minute before":  {at("25 23:59"), "Wed 25 Nov 23:59"},
		"tomorrow":           {at("27 07:00"), "Fri 27 Nov 07:00"},
		"another year":       {at("26 06:52").AddDate(-1, 0, 0), "26 Nov 2025 06:52"},
		"written elsewhere":  {at("26 06:00").UTC(), "06:00"},
		"before the changed": {at("1 01:30"), "Sun 1 Nov 01:30 MDT"}, // MDT: the clock goes back at 02:00, 15 U.S.C. 260a
	} {
		t.Run(name, func(t *testing.T) {
			if got := when(x, c.at); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
