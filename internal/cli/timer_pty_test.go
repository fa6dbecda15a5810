//go:build unix

package cli

import (
	"regexp"
	"testing"
	"time"
)

// The end of a wash is in the log book and not in the console: a console that
// is killed takes no time with it, and one that sits down after the end asks.
func TestTimerSurvivesAKilledConsole(t *testing.T) {
	data := tendedStation(t)
	shell(t, data, "log", "degas", "--time", "15min", "--as", "Lee", "--at", time.Now().Add(-69*time.Hour).UTC().Format(time.RFC3339))
	shell(t, data, "log", "intake", "--else", "none", "--as", "Lee")
	start := []string{"log", "start", "--item", "tool=3", "--time", "10min", "--bath", "121F", "--checked", "--as", "Lee"}
	shell(t, data, start...)
	started := time.Now()

	s := sitDown(t, data)
	s.until("the timer", "Hand tool × 3 in the bath")
	if err := s.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Wait(); err == nil {
		t.Error("a killed console ended well")
	}
	s = sitDown(t, data)
	s.until("the timer again", "Hand tool × 3 in the bath", " left")
	m := regexp.MustCompile(`(\d+:\d\d) left`).FindStringSubmatch(s.text())
	if m == nil {
		t.Fatalf("no time is left:\n%s", s.text())
	}
	left := 10*time.Minute - time.Since(started)
	shown, err := time.ParseDuration(regexp.MustCompile(`(\d+):(\d\d)`).ReplaceAllString(m[1], "${1}m${2}s"))
	if err != nil {
		t.Fatal(err)
	}
	// The shell took its second to start, and the strip counts whole ones.
	if off := (shown - left).Abs(); off > 5*time.Second {
		t.Errorf("the strip shows %s, and %s are left", shown, left.Round(time.Second))
	}
}

func TestAWashThatEndedWhileTheConsoleWasClosedAsksForItsResult(t *testing.T) {
	data := tendedStation(t)
	ago := func(d time.Duration) string { return time.Now().Add(-d).UTC().Format(time.RFC3339) }
	shell(t, data, "log", "degas", "--time", "15min", "--as", "Lee", "--at", ago(69*time.Hour))
	shell(t, data, "log", "intake", "--else", "none", "--as", "Lee", "--now", ago(26*time.Minute))
	shell(t, data, "log", "start", "--item", "tool=3", "--time", "10min", "--bath", "121F", "--checked", "--as", "Lee", "--now", ago(25*time.Minute))
	sitDown(t, data).until("the question", "Time is up", "Gear out; say how the wash came out")
}
