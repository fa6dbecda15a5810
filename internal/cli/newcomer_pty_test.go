//go:build unix

package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// newcomer sits at a console of w by h where nothing is set up. Its clock
// stands until the test moves it.
type newcomer struct {
	*seat
	clock string // the file with the time
	now   time.Time
}

func newNewcomer(t testing.TB, data string, w, h int, now time.Time) *newcomer {
	t.Helper()
	n := &newcomer{clock: filepath.Join(t.TempDir(), "clock"), now: now}
	n.seat = &seat{TB: t}
	n.wait(0)
	cmd := exec.Command("bathside", "--data", data)
	cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "LANG=C.UTF-8", "LC_ALL=", "NO_COLOR=", "TZ=UTC", "BATHSIDE_AS=", "BATHSIDE_TEST_CLOCK="+n.clock)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)})
	if err != nil {
		t.Fatal(err)
	}
	n.seat.attach(cmd, tty, vt.NewSafeEmulator(w, h))
	return n
}

// wait moves the clock on. The file is put in place whole: the console may read
// it at any time.
func (n *newcomer) wait(d time.Duration) {
	n.Helper()
	n.now = n.now.Add(d)
	fresh := n.clock + ".new"
	if err := os.WriteFile(fresh, []byte(n.now.Format(time.RFC3339)), 0o600); err != nil {
		n.Fatal(err)
	}
	if err := os.Rename(fresh, n.clock); err != nil {
		n.Fatal(err)
	}
}

// step is what a newcomer sees, and what they do because of it.
type step struct {
	sees  []string
	wait  time.Duration // before the keys: what the screen says takes so long
	types string        // text, then the keys
	keys  []string
}

var named = map[string]string{"enter": "\r", "esc": "\x1b", "down": "\x1b[B", "up": "\x1b[A", "right": "\x1b[C", "left": "\x1b[D", "tab": "\t", "space": " ", "home": "\x1b[H", "end": "\x1b[F"}

// follow does each step as soon as the screen shows what it is about.
func (n *newcomer) follow(steps []step) {
	n.Helper()
	for _, s := range steps {
		n.until(strings.Join(s.sees, ", "), s.sees...)
		n.wait(s.wait)
		n.press(strings.Split(s.types, "")...)
		for _, k := range s.keys {
			if seq, ok := named[k]; ok {
				k = seq
			}
			n.press(k)
		}
	}
}

// A newcomer with no manual brings a bath from nothing into service, washes a
// load and hands over, by what the screen says alone.
func TestANewcomerWashesALoadFromNothing(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {100, 30}, {60, 16}} {
		t.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(t *testing.T) {
			washFromNothing(t, size[0], size[1])
		})
	}
}

func washFromNothing(t *testing.T, w, h int) {
	data := filepath.Join(t.TempDir(), "station.db")
	n := newNewcomer(t, data, w, h, time.Date(2026, time.March, 2, 3, 0, 0, 0, time.UTC))
	n.follow([]step{
		{sees: []string{"▸ station", "It must be given"}, types: "Ridge Top", keys: []string{"enter"}},
		{sees: []string{"▸ gear officer"}, types: "Noor Haddad", keys: []string{"enter"}},
		{sees: []string{"▸ units"}, keys: []string{"enter"}},
		{sees: []string{"▸ tank holds", "like 70gal"}, types: "70gal", keys: []string{"enter"}},
		{sees: []string{"▸ the mark", "If left empty"}, types: "the upper rivet", keys: []string{"enter"}},
		{sees: []string{"▸ heater", "If left empty"}, keys: []string{"enter"}},
		{sees: []string{"▸ soap"}, keys: []string{"enter"}},
		{sees: []string{"▸ ratio", "If left empty"}, keys: []string{"enter"}},
		{sees: []string{"▸ parts are"}, keys: []string{"enter"}},
		{sees: []string{"▸ set point", "If left empty"}, keys: []string{"enter"}},
		{sees: []string{"▸ bath is"}, keys: []string{"enter"}},
		{sees: []string{"▸ shifts", "24/48@07:00"}, types: "24/48@07:00", keys: []string{"enter"}},
		{sees: []string{"▸ time zone"}, keys: []string{"enter"}},
		{sees: []string{"▸ first PIN", "Enter saves"}, keys: []string{"enter"}},
		{sees: []string{"▸ today  Fill the bath to the mark"}, keys: []string{"enter"}},
		{sees: []string{"Fill the bath ─", "▸ who"}, keys: []string{"enter"}},
		{sees: []string{"▸ today  Add soap", "1.8 gal"}, keys: []string{"enter"}},
		{sees: []string{"Soap added ─", "▸ volume"}, types: "1.75", keys: []string{"enter", "enter"}},
		{sees: []string{"▸ today  Heat to 122 °F", "ready about 04:58"}},
		{sees: []string{"Mon 03:00"}, wait: 2 * time.Hour},
		{sees: []string{"▸ today  Measure the bath"}, keys: []string{"enter"}},
		{sees: []string{"▸ bath at"}, types: "121", keys: []string{"enter", "enter"}},
		{sees: []string{"▸ today  Run empty 15 min"}, keys: []string{"enter"}},
		{sees: []string{"▸ how long"}, wait: 15 * time.Minute, types: "15", keys: []string{"enter", "enter"}},
		{sees: []string{"▸ today  Take the first reading"}, keys: []string{"enter"}},
		{sees: []string{"▸ pH"}, types: "1020", keys: []string{"enter"}},
		{sees: []string{"▸ sample at"}, types: "121", keys: []string{"enter"}},
		{sees: []string{"▸ who"}, keys: []string{"enter"}},
		{sees: []string{"▸ read again", "rinse, dip again"}, types: "1021", keys: []string{"enter"}},
		{sees: []string{"▸ today  Read the same cup again"}, wait: 20 * time.Minute, keys: []string{"enter"}},
		{sees: []string{"▸ pH"}, types: "1078", keys: []string{"enter"}},
		{sees: []string{"▸ sample at"}, types: "72", keys: []string{"enter", "enter"}},
		{sees: []string{"▸ read again", "rinse, dip again"}, types: "1079", keys: []string{"enter"}},
		{sees: []string{"▸ today  Run the eyewash", "OK ✓"}, keys: []string{"4"}},
		{sees: []string{"Nothing in the"}, wait: 10 * time.Second},
		{sees: []string{"[4 Wash]", "choose, then +"}, keys: []string{"down", "down", "down", "down", "down"}},
		{sees: []string{"▸ Hand tool"}, keys: []string{"+", "+"}},
		{sees: []string{"▸ Hand tool           2"}, keys: []string{"tab"}},
		{sees: []string{"━▸In the way: 3", "anything but"}, keys: []string{"enter"}},
		{sees: []string{"▸ anything but smoke", "left or right for more"}, keys: []string{"right"}},
		{sees: []string{"[none]"}, keys: []string{"enter", "enter"}},
		{sees: []string{"━▸In the way: 2", "warm the"}, keys: []string{"enter"}},
		{sees: []string{"▸ bath at"}, types: "121", keys: []string{"enter", "enter"}},
		{sees: []string{"━▸In the way: 1", "the checks of the"}, keys: []string{"enter"}},
		{sees: []string{"━▸Before it goes in: 0 of 3 ticked"}, wait: 10 * time.Second},
		{sees: []string{"0 of 3 ticked", "▢"}, keys: []string{"space"}},
		{sees: []string{"1 of 3 ticked"}, keys: []string{"space"}},
		{sees: []string{"2 of 3 ticked"}, keys: []string{"space"}},
		{sees: []string{"3 of 3 ticked", "s start"}, keys: []string{"s"}},
		{sees: []string{"Start a wash ─", "▸ who", "see it stop"}, keys: []string{"enter"}},
		{sees: []string{"Hand tool × 2 in the bath, 10:30 left"}, wait: 11 * time.Minute},
		{sees: []string{"ime is up"}, keys: []string{"enter"}},
		{sees: []string{"Log a wash ─", "clean", "▸ who"}, keys: []string{"enter"}},
		{sees: []string{"Saved: line 13"}, wait: 20 * time.Minute, keys: []string{"1"}},
		{sees: []string{"▸ today  Hand over to A shift"}, keys: []string{"enter"}},
		{sees: []string{"▸ note", "what the next shift must know"}, types: "two tools still drip", keys: []string{"enter", "enter"}},
		{sees: []string{"Saved", "▸ today  Rinse Hand tool × 2"}, keys: []string{"7"}},
		{sees: []string{"two tools still drip"}, wait: 10 * time.Second},
		{sees: []string{"v handover"}, keys: []string{"v"}},
		{sees: []string{"comes on next", "Noor Haddad, 06:06: two tools still drip"}},
	})
	shell(t, data, "verify")
	if got, want := kindsIn(t, shell(t, data, "export")), "member setting tank fill dose temp degas reading reading intake temp start wash handover"; got != want {
		t.Errorf("the log book holds\n%s, want\n%s", got, want)
	}
}

// kindsIn lists the kinds of exported entries in their order.
func kindsIn(t testing.TB, export string) string {
	t.Helper()
	var kinds []string
	for line := range strings.Lines(export) {
		var e struct{ Kind string }
		if err := json.Unmarshal([]byte(line), &e); err != nil {
			t.Fatal(err)
		}
		kinds = append(kinds, e.Kind)
	}
	return strings.Join(kinds, " ")
}
