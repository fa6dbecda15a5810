//go:build unix

package cli

import (
	"strings"
	"testing"
)

// The keys that each daily task takes, with the console open and the PIN's
// digits not counted. Source of the bounds: what this project promises.
func TestTheDailyTasksTakeFewKeys(t *testing.T) {
	data := tendedStation(t)
	s := sitDown(t, data)
	for _, task := range []struct {
		name string
		most int
		keys string // one a rune
		done string
	}{
		{"a reading", 10, "p995\r121\ra", "Saved: line 8"},
		{"a filter run", 6, "f30\ra", "Saved: line 9"},
		{"a guide", 3, "6\r", "▸Set up a bath · step"},
		{"a decision", 10, "\x1b3\ra", ""},
	} {
		s.keys = 0
		for _, r := range task.keys {
			if r == '\x1b' { // out of the guide, which belongs to the task before
				s.leave("▸Set up a bath · step")
				s.keys = 0
				continue
			}
			s.press(string(r))
		}
		if task.done != "" {
			s.until(task.name, task.done)
		}
		t.Logf("%s: %d keys", task.name, s.keys)
		if s.keys > task.most {
			t.Errorf("%s takes %d keys, want at most %d", task.name, s.keys, task.most)
		}
	}
	s.until("the decision to be saved", "Signed by Amari Okafor")
	if out := shell(t, data, "export"); strings.Count(out, `"kind":"decision"`) != 1 {
		t.Errorf("no decision in the log book:\n%s", out)
	}
}
