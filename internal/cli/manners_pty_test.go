//go:build unix

package cli

import (
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"github.com/creack/pty"
)

// resize gives the terminal another size, as a dragged window does.
func (s *seat) resize(w, h int) {
	s.Helper()
	if err := pty.Setsize(s.tty, &pty.Winsize{Cols: uint16(w), Rows: uint16(h)}); err != nil {
		s.Fatal(err)
	}
	if !s.away.Load() {
		s.screen.Resize(w, h)
	}
}

// A storm of sizes leaves a whole screen of the last one.
func TestResizeStormsEndWell(t *testing.T) {
	s := sitDown(t, tendedStation(t))
	dice := rand.New(rand.NewPCG(1, 2))
	s.away.Store(true) // the emulator (x/vt v0.1.0) does not bear what was drawn for another size
	for range 300 {
		s.resize(20+dice.IntN(200), 5+dice.IntN(60))
	}
	s.away.Store(false)
	s.resize(100, 30)
	s.until("a whole screen", "Next", "? help", "[1 Today]", "10.20")
	s.resize(40, 10)
	s.until("the sentence", "This window is 40 x 10")
	s.resize(60, 16)
	s.until("the small screen", "[1 Today]")
}

// Ctrl+z leaves for the shell and fg comes back, with what another process
// recorded meanwhile.
func TestSuspendAndResume(t *testing.T) {
	data := tendedStation(t)
	// Only a shell with job control can bring it back; enter stands for fg.
	s := sitAt(t, exec.Command("sh", "-m", "-c", `bathside --data "$0"; echo left for a while; read enter; fg`, data))
	s.press("p", "9", "9")
	s.until("the form", "▸ pH             99")
	s.press("\x1a")
	s.until("the shell", "left for a while")
	shell(t, data, "log", "reading", "--ph", "9.91", "--sample", "121F", "--as", "Lee")
	s.press("\r")
	s.until("the form, and the reading of the other", "Record a pH reading", "pH 9.91")
	s.press("8", "\r", "1", "2", "1", "\r", "a")
	s.until("the reading", "Saved: line")
}

// A terminal that goes away ends the console, and what was saved is there.
func TestAClosedTerminalEndsTheConsole(t *testing.T) {
	data := tendedStation(t)
	s := sitDown(t, data)
	s.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r", "a")
	s.until("the reading to be saved", "Saved: line")
	if err := s.tty.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Wait(); err != nil {
		t.Errorf("the console left with %v", err)
	}
	if out := shell(t, data, "export"); !strings.Contains(out, `"ph":9.95`) {
		t.Errorf("the reading is lost:\n%s", out)
	}
}

// What a key costs on a slow line, at 100x30 and full colour.
func TestKeysCostFewBytes(t *testing.T) {
	s := sitDown(t, tendedStation(t))
	s.press("7")
	s.until("the log book", "[7 Log book]", "Line 7")
	for _, c := range []struct {
		what, key, see string // see: what is drawn last, the frame may come in pieces
		most           int64
	}{
		{"a row move with its detail", "\x1b[B", "Line 6", 600},
		{"another", "\x1b[B", "Line 5", 600},
		{"a screen", "6", "[6 Guides]", 9000},
		{"a row move in a list", "\x1b[B", "▸ Weekly reading", 200},
		{"a form", "p", "esc leave, nothing saved", 3000},
		{"a digit", "9", "▸ pH             9", 60},
		{"closing it", "\x1b", "[6 Guides]", 3000},
	} {
		before := s.bytes.Load()
		s.press(c.key)
		s.until(c.what, c.see)
		cost := s.bytes.Load() - before
		t.Logf("%s: %d bytes at 100x30", c.what, cost)
		if cost > c.most {
			t.Errorf("%s wrote %d bytes, want at most %d", c.what, cost, c.most)
		}
	}
}
