//go:build unix

package cli

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A console that breaks tells so on a screen that is soon gone: why it broke is
// in the trace, and what was saved in the log book. With --debug the trace has
// each key, but not which one.
func TestABrokenConsoleLeavesATrace(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	data := tendedStation(t)
	clock := filepath.Join(t.TempDir(), "clock")
	if err := os.WriteFile(clock, []byte(time.Now().UTC().Format(time.RFC3339)), 0o600); err != nil {
		t.Fatal(err)
	}
	s := sitAt(t, exec.Command("bathside", "--data", data, "--debug"), "BATHSIDE_TEST_CLOCK="+clock)
	s.press("p", "9", "9", "5", "\r", "1", "2", "1", "\r", "a")
	s.until("the reading to be saved", "Saved: line")
	if err := os.Remove(clock); err != nil { // the program under test panics without it
		t.Fatal(err)
	}
	_, _ = s.tty.WriteString("7") // unless the tick came first
	if err := s.cmd.Wait(); err == nil {
		t.Error("a broken console ended well")
	}
	for range s.wrote { // what it said at last
	}
	if said := s.sent.String(); !strings.Contains(said, "bathside: the console ended by a mistake") {
		t.Errorf("said %q", said[max(0, len(said)-400):])
	}
	trace, err := os.ReadFile(filepath.Join(state, "bathside", "trace.log"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"level=ERROR", "the console broke", "no such file", "testClock", "message=tea.KeyPressMsg"} {
		if !strings.Contains(string(trace), want) {
			t.Errorf("no %q in the trace:\n%s", want, trace)
		}
	}
	if out := shell(t, data, "export"); !strings.Contains(out, `"ph":9.95`) {
		t.Errorf("the reading is lost:\n%s", out)
	}
}
