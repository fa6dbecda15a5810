//go:build unix

package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// seat is a console in a real pseudo-terminal, with an emulator that shows
// what its user sees.
type seat struct {
	testing.TB
	cmd    *exec.Cmd
	tty    *os.File
	screen *vt.SafeEmulator
	wrote  chan struct{} // a chunk came
	bytes  atomic.Int64  // written by the console so far
	sent   syncBuffer    // the same, as it came
	away   atomic.Bool   // nobody looks: what is written is not drawn
	keys   int
}

// syncBuffer is a buffer that is written to and read at the same time.
type syncBuffer struct {
	mu sync.Mutex
	b  []byte
}

func (b *syncBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.b = append(b.b, p...)
	return len(p), nil
}

func (b *syncBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return string(b.b)
}

// shell runs bathside as a process of its own on the station file at data.
func shell(t testing.TB, data string, args ...string) string {
	t.Helper()
	cmd := exec.Command("bathside", append([]string{"--data", data}, args...)...)
	cmd.Env = append(os.Environ(), "TZ=UTC", "BATHSIDE_AS=")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("bathside %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}

// tendedStation is a station file with an open fill and its first reading.
func tendedStation(t testing.TB) string {
	t.Helper()
	data := filepath.Join(t.TempDir(), "station.db")
	ago := func(d time.Duration) string { return time.Now().Add(-d).UTC().Format(time.RFC3339) }
	shell(t, data, "setup", "--station", "Mill Road 5", "--tank", "72gal", "--officer", "Amari Okafor", "--zone", "UTC", "--now", ago(72*time.Hour))
	shell(t, data, "log", "fill", "--volume", "72gal", "--at", ago(72*time.Hour))
	shell(t, data, "log", "dose", "--volume", "1.8gal", "--at", ago(71*time.Hour))
	shell(t, data, "log", "reading", "--ph", "10.20", "--sample", "121F", "--baseline", "--at", ago(70*time.Hour))
	shell(t, data, "log", "member", "--name", "Lee Tran", "--role", "keyholder")
	return data
}

// sitDown starts a console on the station file, with anything else of the
// environment last.
func sitDown(t testing.TB, data string, env ...string) *seat {
	t.Helper()
	return sitAt(t, exec.Command("bathside", "--data", data), env...)
}

// sitAt starts a command that opens a console.
func sitAt(t testing.TB, cmd *exec.Cmd, env ...string) *seat {
	t.Helper()
	cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "LANG=C.UTF-8", "LC_ALL=", "NO_COLOR=", "TZ=UTC")
	cmd.Env = append(cmd.Env, env...)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Cols: 100, Rows: 30})
	if err != nil {
		t.Fatal(err)
	}
	s := &seat{TB: t}
	s.attach(cmd, tty, vt.NewSafeEmulator(100, 30))
	s.until("the first screen", "Next")
	return s
}

// attach shows on screen what the console writes, and leaves it at the end.
func (s *seat) attach(cmd *exec.Cmd, tty *os.File, screen *vt.SafeEmulator) {
	s.cmd, s.tty, s.screen, s.wrote = cmd, tty, screen, make(chan struct{}, 1024)
	go s.show()
	go func() { _, _ = io.Copy(tty, screen) }() // the terminal answers questions
	s.Cleanup(func() {
		_, _ = tty.Write([]byte("\x03\x03"))
		_ = cmd.Wait()
		_ = tty.Close()
	})
}

func (s *seat) show() {
	buf := make([]byte, 32<<10)
	for {
		n, err := s.tty.Read(buf)
		if n > 0 {
			s.bytes.Add(int64(n))
			_, _ = s.sent.Write(buf[:n])
			if !s.away.Load() {
				_, _ = s.screen.Write(buf[:n])
			}
			s.wrote <- struct{}{}
		}
		if err != nil {
			close(s.wrote)
			return
		}
	}
}

func (s *seat) text() string { return ansi.Strip(s.screen.Render()) }

// until waits for words on the screen; the deadline only ends a test that has
// failed anyway.
func (s *seat) until(what string, words ...string) {
	s.Helper()
	deadline := time.After(20 * time.Second)
	for {
		missing := ""
		for _, w := range words {
			if !strings.Contains(s.text(), w) {
				missing = w
			}
		}
		if missing == "" {
			return
		}
		select {
		case _, ok := <-s.wrote:
			if !ok {
				s.Fatalf("waiting for %s: the console left\n%s", what, s.text())
			}
		case <-deadline:
			s.Fatalf("waiting for %s: %q never came\n%s", what, missing, s.text())
		}
	}
}

// leave presses escape and waits for words to go. A frame may come in pieces:
// words that are there again need not be of the frame that follows, and a key
// that follows escape too soon would be taken for one with alt.
func (s *seat) leave(words string) {
	s.Helper()
	s.press("\x1b")
	deadline := time.After(20 * time.Second)
	for strings.Contains(s.text(), words) {
		select {
		case _, ok := <-s.wrote:
			if !ok {
				s.Fatalf("leaving %q: the console left\n%s", words, s.text())
			}
		case <-deadline:
			s.Fatalf("leaving %q: it stays\n%s", words, s.text())
		}
	}
}

// press types keys, and counts them.
func (s *seat) press(keys ...string) {
	s.Helper()
	for _, k := range keys {
		if _, err := s.tty.WriteString(k); err != nil {
			s.Fatal(err)
		}
		s.keys++
	}
}

func TestConsoleStoresAReadingInTenKeys(t *testing.T) {
	data := tendedStation(t)
	s := sitDown(t, data)
	s.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r", "a")
	s.until("the reading to be saved", "Saved: line", "pH 9.95", "down 0.25, act at 0.50")
	if s.keys > 10 {
		t.Errorf("%d keys, want at most 10", s.keys)
	}
	if out := shell(t, data, "export"); !strings.Contains(out, `"ph":9.95`) || !strings.Contains(out, `"sample_c":49.4`) {
		t.Errorf("the reading is not in the export:\n%s", out)
	}

	s.press("2", "\x1b[F", "x") // Readings, the oldest, cross out
	s.until("the question why", "Cross out a line", "first reading")
	s.press("r", "i", "n", "s", "e", "\r", "a")
	s.until("the line to be crossed out", "READ AGAIN")
	if state := phState(t, data); state != "unknown" {
		t.Errorf("state is %q after the first reading was crossed out, want unknown", state)
	}
}

// TestHangUpLosesNothing closes the terminal right after the last key.
func TestHangUpLosesNothing(t *testing.T) {
	data := tendedStation(t)
	s := sitDown(t, data)
	s.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r")
	s.until("who it is", "Down 0.25")
	s.press("a")
	s.until("the reading to be queued", "Sav") // saving, or saved
	if err := s.cmd.Process.Signal(syscall.SIGHUP); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Wait(); err != nil {
		t.Errorf("the console left with %v", err)
	}
	if out := shell(t, data, "export"); !strings.Contains(out, `"ph":9.95`) {
		t.Errorf("the reading is lost:\n%s", out)
	}
}

// TestKilledConsoleReopens kills the console once it has said "Saved".
func TestKilledConsoleReopens(t *testing.T) {
	data := tendedStation(t)
	s := sitDown(t, data)
	s.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r", "a")
	s.until("the reading to be saved", "Saved: line")
	if err := s.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Wait(); err == nil {
		t.Error("a killed console ended well")
	}
	sitDown(t, data).until("the reading", "pH 9.95")
	shell(t, data, "verify")
}

func phState(t testing.TB, data string) string {
	t.Helper()
	var st struct {
		PH struct {
			State    string   `json:"state"`
			Baseline *float64 `json:"baseline"`
		} `json:"ph"`
	}
	if err := json.Unmarshal([]byte(shell(t, data, "status", "--json")), &st); err != nil {
		t.Fatal(err)
	}
	if st.PH.Baseline != nil {
		t.Errorf("baseline is %v, want none: nothing is promoted", *st.PH.Baseline)
	}
	return st.PH.State
}

func TestTwoConsolesSeeEachOther(t *testing.T) {
	data := tendedStation(t)
	one, other := sitDown(t, data), sitDown(t, data)
	one.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r", "a")
	one.until("the reading to be saved", "Saved: line")
	other.until("the other console to notice", "pH 9.95")
}

func TestMovingTheFocusCostsFewBytes(t *testing.T) {
	s := sitDown(t, tendedStation(t))
	s.press("\t")
	s.until("the first screen to be over", "▸Trend")
	var costs []int64
	for _, panel := range []string{"▸Cycle", "▸Next", "▸Trend", "▸Cycle", "▸Next"} {
		before := s.bytes.Load()
		s.press("\t")
		s.until("the focus to move", panel)
		costs = append(costs, s.bytes.Load()-before)
	}
	slices.Sort(costs)
	cost := costs[len(costs)/2] // a late answer of the terminal may fall into one of them
	t.Logf("a change of focus: %d bytes at 100x30", cost)
	if cost > 300 {
		t.Errorf("a change of focus wrote %d bytes, want at most 300", cost)
	}
}

func TestTwentyWritersAtOnceLoseNothing(t *testing.T) {
	data := tendedStation(t)
	before := strings.Count(shell(t, data, "export"), "\n")
	var wg sync.WaitGroup
	for i := range 20 {
		wg.Go(func() {
			shell(t, data, "log", "temp", "--as", "Lee", "--bath", fmt.Sprintf("%dF", 100+i))
		})
	}
	wg.Wait()
	if after := strings.Count(shell(t, data, "export"), "\n"); after != before+20 {
		t.Errorf("%d lines, want %d", after, before+20)
	}
	shell(t, data, "verify")
}
