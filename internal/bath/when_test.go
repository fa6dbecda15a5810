package bath_test

import (
	"strings"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// New York put its clock forward on 8 March 2026 at 2:00 and back on
// 1 November 2026 at 2:00 (15 U.S.C. 260a). 3 March 2026 was a Tuesday.
func TestParseWhen(t *testing.T) {
	const (
		tuesday = "2026-03-03T12:00:00-05:00"
		forward = "2026-03-08T10:00:00-04:00"
		back    = "2026-11-01T10:00:00-05:00"
	)
	tests := []struct{ name, text, now, want string }{
		{"nothing", "", tuesday, tuesday},
		{"now", " NOW ", tuesday, tuesday},
		{"earlier today", "07:05", tuesday, "2026-03-03T07:05:00-05:00"},
		{"one digit", "7:05", tuesday, "2026-03-03T07:05:00-05:00"},
		{"later than now is yesterday", "23:30", tuesday, "2026-03-02T23:30:00-05:00"},
		{"this minute", "12:00", tuesday, tuesday},
		{"this minute, some seconds on", "12:00", "2026-03-03T12:00:41-05:00", tuesday},
		{"next minute", "12:01", tuesday, "2026-03-02T12:01:00-05:00"},
		{"afternoon", "9:05pm", tuesday, "2026-03-02T21:05:00-05:00"},
		{"morning, with a space", "Yesterday 7:05 AM", tuesday, "2026-03-02T07:05:00-05:00"},
		{"noon", "12:00pm", tuesday, tuesday},
		{"midnight on twelve hours", "12:00 a.m.", tuesday, "2026-03-03T00:00:00-05:00"},
		{"date and afternoon", "2026-03-01 7:05 pm", tuesday, "2026-03-01T19:05:00-05:00"},
		{"date as the day comes first", "1 Mar 07:05", tuesday, "2026-03-01T07:05:00-05:00"},
		{"date as the month comes first", "Mar 1 7:05 am", tuesday, "2026-03-01T07:05:00-05:00"},
		{"a date to come is last year's", "mar 4 07:05", tuesday, "2025-03-04T07:05:00-05:00"},
		{"date with its year", "Mar 4, 2026 07:05", tuesday, "2026-03-04T07:05:00-05:00"},
		{"hours and minutes ago", "1h30 ago", tuesday, "2026-03-03T10:30:00-05:00"},
		{"midnight", "00:00", tuesday, "2026-03-03T00:00:00-05:00"},
		{"midnight at midnight", "00:00", "2026-03-03T00:00:00-05:00", "2026-03-03T00:00:00-05:00"},
		{"before midnight, just after", "23:59", "2026-03-03T00:00:30-05:00", "2026-03-02T23:59:00-05:00"},
		{"today", "today 07:05", tuesday, "2026-03-03T07:05:00-05:00"},
		{"today, still to come", "today 13:00", tuesday, "2026-03-03T13:00:00-05:00"},
		{"yesterday", "yesterday 23:30", tuesday, "2026-03-02T23:30:00-05:00"},
		{"the day's own name, before now", "tue 07:05", tuesday, "2026-03-03T07:05:00-05:00"},
		{"the day's own name, after now", "tue 12:05", tuesday, "2026-02-24T12:05:00-05:00"},
		{"another day", "mon 23:00", tuesday, "2026-03-02T23:00:00-05:00"},
		{"tomorrow's name is last week's", "wed 07:05", tuesday, "2026-02-25T07:05:00-05:00"},
		{"whole name", "Wednesday  07:05", tuesday, "2026-02-25T07:05:00-05:00"},
		{"part of a name", "thurs 07:05", tuesday, "2026-02-26T07:05:00-05:00"},
		{"date", "2026-03-01 07:05", tuesday, "2026-03-01T07:05:00-05:00"},
		{"date with a T and seconds", "2026-03-01t07:05:09", tuesday, "2026-03-01T07:05:09-05:00"},
		{"date to come", "2026-03-09 07:05", tuesday, "2026-03-09T07:05:00-04:00"},
		{"RFC 3339", "2026-03-01T12:05:00z", tuesday, "2026-03-01T07:05:00-05:00"},
		{"minutes ago", "20 min ago", tuesday, "2026-03-03T11:40:00-05:00"},
		{"hours ago", "2h ago", tuesday, "2026-03-03T10:00:00-05:00"},
		{"a day ago over the change", "1 day ago", forward, "2026-03-07T09:00:00-05:00"},
		{"yesterday over the change", "yesterday 10:00", forward, "2026-03-07T10:00:00-05:00"},
		{"just before the skip", "01:59", forward, "2026-03-08T01:59:00-05:00"},
		{"just after the skip", "03:00", forward, "2026-03-08T03:00:00-04:00"},
		{"shown twice: the last", "01:30", back, "2026-11-01T01:30:00-05:00"},
		{"shown twice, now between", "01:30", "2026-11-01T01:10:00-05:00", "2026-11-01T01:30:00-04:00"},
		{"shown twice, now in the first", "01:30", "2026-11-01T01:40:00-04:00", "2026-11-01T01:30:00-04:00"},
		{"shown twice, not yet at all", "01:30", "2026-11-01T00:40:00-04:00", "2026-10-31T01:30:00-04:00"},
		{"date shown twice", "2026-11-01 01:30", back, "2026-11-01T01:30:00-05:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := bath.ParseWhen(tt.text, instant(t, tt.now), units.Times{})
			if err != nil {
				t.Fatal(err)
			}
			if s := got.Format(time.RFC3339); s != tt.want {
				t.Errorf("got %s, want %s", s, tt.want)
			}
		})
	}
	refused := []struct{ text, now, say string }{
		{"tomorrow 07:05", tuesday, `"tomorrow 07:05" is not a time: write 07:05, 7:05pm, yesterday 07:05, tue 07:05, 2026-03-01 07:05 or 20min ago`},
		{"month 07:05", tuesday, "is not a time"},
		{"tu 07:05", tuesday, "is not a time"},
		{"tue", tuesday, "is not a time"},
		{"24:00", tuesday, "is not a time"},
		{"07:60", tuesday, "is not a time"},
		{"0705", tuesday, "is not a time"},
		{"20 ago", tuesday, "is not a time"},
		{"-5min ago", tuesday, "is not a time"},
		{"13:05pm", tuesday, "is not a time"},
		{"0:05pm", tuesday, "is not a time"},
		{"30 feb 07:05", tuesday, "is not a time"},
		{"3/1 07:05", tuesday, "is not a time"}, // 3 January or 1 March
		{"2026-02-29 07:05", tuesday, "is not a time"},
		{"7\x1b[2J", tuesday, `"7[2j"`},
		{"02:30", forward, "there was no Sun 8 Mar 02:30: the clock was put forward over it; give the time on the wall"},
		{"2026-03-08 02:00", forward, "there was no Sun 8 Mar 02:00"},
		{"sun 02:59", forward, "there was no Sun 8 Mar 02:59"},
	}
	for _, tt := range refused {
		t.Run("not "+tt.text, func(t *testing.T) {
			got, err := bath.ParseWhen(tt.text, instant(t, tt.now), units.Times{})
			if err == nil {
				t.Fatalf("read as %s", got)
			}
			if tt.text == "7\x1b[2J" {
				return
			}
			id := "when"
			if strings.HasPrefix(tt.say, "there was no") {
				id = "skipped"
			}
			checkRefusal(t, err, id, tt.say)
		})
	}
}

// instant reads a time and gives it in New York's zone.
func instant(t *testing.T, s string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t.Fatal(err)
	}
	return at.In(mustZone("America/New_York"))
}
