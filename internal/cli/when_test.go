package cli

import (
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestParseAt(t *testing.T) {
	// Denver put the clock forward on 8 March 2026 at 02:00 (15 USC 260a: the
	// second Sunday of March).
	denver, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 9, 7, 30, 0, 0, denver)
	for _, c := range []struct{ text, want string }{
		{"07:05", "2026-03-09T07:05:00-06:00"},
		{"07:30", "2026-03-09T07:30:00-06:00"},
		{"7:05", "2026-03-09T07:05:00-06:00"},
		{"07:31", "2026-03-08T07:31:00-06:00"}, // has not been yet today
		{"00:00", "2026-03-09T00:00:00-06:00"},
		{"yesterday 23:50", "2026-03-08T23:50:00-06:00"},
		{"2026-03-07 23:50", "2026-03-07T23:50:00-07:00"}, // before the change
		{"2026-03-07T23:50", "2026-03-07T23:50:00-07:00"},
		{"2026-03-09T13:05:00Z", "2026-03-09T13:05:00Z"},
		{" 20min ago ", "2026-03-09T07:10:00-06:00"},
		{"31h ago", "2026-03-07T23:30:00-07:00"}, // real hours, across the change
		{"2026-03-08 02:30", ""},                 // never on the wall
		{"2026-02-30 07:00", ""},
		{"25:00", ""},
		{"yesterday", ""},
		{"20 ago", ""},
		{"-5min ago", ""},
		{"soon", ""},
		{"", ""},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := parseAt(c.text, now)
			if c.want == "" {
				if err == nil {
					t.Fatalf("got %v, want a refusal", got)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if got.Format(time.RFC3339) != c.want {
				t.Errorf("got %s, want %s", got.Format(time.RFC3339), c.want)
			}
		})
	}
}

// A clock time alone is the last one that has been, and shows as it was typed.
func TestClockAloneIsTheLastOne(t *testing.T) {
	zone := time.FixedZone("", -7*3600)
	rapid.Check(t, func(t *rapid.T) {
		now := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "now"), 0).In(zone)
		clock := fmt.Sprintf("%02d:%02d", rapid.IntRange(0, 23).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute"))
		got, err := parseAt(clock, now)
		if err != nil {
			t.Fatal(err)
		}
		if got.After(now) || now.Sub(got) > 24*time.Hour || got.Format("15:04") != clock {
			t.Errorf("%s at %v: got %v", clock, now, got)
		}
	})
}
