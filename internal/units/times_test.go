package units_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

// Denver put its clock forward on 8 March 2026 at 2:00 and back on 1 November
// 2026 at 2:00 (15 U.S.C. 260a). ISO dates as ISO 8601 has them.
func TestTimes(t *testing.T) {
	denver, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	at := func(s string) time.Time {
		v, err := time.Parse(time.RFC3339, s)
		if err != nil {
			t.Fatal(err)
		}
		return v.In(denver)
	}
	month := units.TimesOf(units.Clock12, units.DatesMonth)
	tests := []struct {
		name      string
		times     units.Times
		at        time.Time
		day, full string
	}{
		{"unset", units.TimesOf("", ""), at("2026-01-02T19:05:00-07:00"), "Fri 2 Jan 19:05", "2 Jan 2026 19:05"},
		{"of words that are none", units.TimesOf("36h", "stardate"), at("2026-01-02T19:05:00-07:00"), "Fri 2 Jan 19:05", "2 Jan 2026 19:05"},
		{"month first, twelve hours", month, at("2026-01-02T19:05:00-07:00"), "Fri Jan 2 7:05 pm", "Jan 2, 2026 7:05 pm"},
		{"midnight", month, at("2026-01-02T00:00:00-07:00"), "Fri Jan 2 12:00 am", "Jan 2, 2026 12:00 am"},
		{"noon", month, at("2026-01-02T12:00:00-07:00"), "Fri Jan 2 12:00 pm", "Jan 2, 2026 12:00 pm"},
		{"ISO", units.TimesOf(units.Clock24, units.DatesISO), at("2026-01-02T07:05:00-07:00"), "Fri 2026-01-02 07:05", "2026-01-02 07:05"},
		{"before the skip", units.Times{}, at("2026-03-08T01:59:00-07:00"), "Sun 8 Mar 01:59", "8 Mar 2026 01:59"},
		{"after the skip", units.Times{}, at("2026-03-08T03:00:00-06:00"), "Sun 8 Mar 03:00", "8 Mar 2026 03:00"},
		{"before the hour shown twice", units.Times{}, at("2026-11-01T00:59:00-06:00"), "Sun 1 Nov 00:59", "1 Nov 2026 00:59"},
		{"shown twice, first", units.Times{}, at("2026-11-01T01:30:00-06:00"), "Sun 1 Nov 01:30 MDT", "1 Nov 2026 01:30 MDT"},
		{"shown twice, second", month, at("2026-11-01T01:30:00-07:00"), "Sun Nov 1 1:30 am MST", "Nov 1, 2026 1:30 am MST"},
		{"after the hour shown twice", units.Times{}, at("2026-11-01T02:00:00-07:00"), "Sun 1 Nov 02:00", "1 Nov 2026 02:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.times.DayClock(tt.at); got != tt.day {
				t.Errorf("got %q, want %q", got, tt.day)
			}
			if got := tt.times.FullClock(tt.at); got != tt.full {
				t.Errorf("got %q, want %q", got, tt.full)
			}
		})
	}
}

// What is shown fits the columns of lists, and can be typed again.
func TestTimesFitAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := units.Times{Twelve: rapid.Bool().Draw(t, "twelve"), Dates: units.Dates(rapid.IntRange(0, 2).Draw(t, "dates"))}
		at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "at"), 0).UTC()
		for _, c := range []struct {
			text string
			w    int
		}{{s.DateClock(at), s.DateClockW()}, {s.DayClock(at), s.DayClockW()}, {s.FullClock(at), s.FullClockW()}} {
			if len(c.text) > c.w {
				t.Errorf("%q is wider than %d", c.text, c.w)
			}
		}
		hour, minute, err := units.ParseClock(s.Clock(at))
		if err != nil || hour != at.Hour() || minute != at.Minute() {
			t.Errorf("%q read as %d:%02d, %v", s.Clock(at), hour, minute, err)
		}
	})
}

func TestParseClockRefuses(t *testing.T) {
	for _, text := range []string{"", "24:00", "7:60", "7", "0705", "13:05pm", "0pm", "0:30am", "7:05xm", "pm", "7:05 pm pm", "-1:00"} {
		if h, m, err := units.ParseClock(text); err == nil {
			t.Errorf("%q read as %d:%02d", text, h, m)
		}
	}
}
