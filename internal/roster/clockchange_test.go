package roster_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// The changes of the clock in 2026, by law and by the IANA time zone database:
//
//	New York   8 March, 02:00 to 03:00; 1 November, 02:00 to 01:00 (15 U.S.C. 260a)
//	London     29 March, 01:00 to 02:00; 25 October, 02:00 to 01:00 (Summer Time Order 2002)
//	Lord Howe  5 April, 02:00 to 01:30; 4 October, 02:00 to 02:30 (IANA, rules "LH")
//
// The instants wanted are those times in UTC, worked by hand.
func TestDutyDayAcrossAClockChange(t *testing.T) {
	tests := []struct {
		name, zone, pattern string
		day                 string // of the calendar, in the zone
		start, end          string // UTC
	}{
		{"New York, spring, 23 h", "America/New_York", "24/48@07:00", "2026-03-07", "2026-03-07T12:00:00Z", "2026-03-08T11:00:00Z"},
		{"New York, autumn, 25 h", "America/New_York", "24/48@07:00", "2026-10-31", "2026-10-31T11:00:00Z", "2026-11-01T12:00:00Z"},
		{"New York, change skipped", "America/New_York", "24/48@02:30", "2026-03-08", "2026-03-08T07:00:00Z", "2026-03-09T06:30:00Z"},
		{"New York, change shown twice", "America/New_York", "24/48@01:30", "2026-11-01", "2026-11-01T05:30:00Z", "2026-11-02T06:30:00Z"},
		{"New York, change as the clock is put back", "America/New_York", "24/48@02:00", "2026-11-01", "2026-11-01T07:00:00Z", "2026-11-02T07:00:00Z"},
		{"London, spring, 23 h", "Europe/London", "24/48@09:00", "2026-03-28", "2026-03-28T09:00:00Z", "2026-03-29T08:00:00Z"},
		{"London, autumn, 25 h", "Europe/London", "24/48@09:00", "2026-10-24", "2026-10-24T08:00:00Z", "2026-10-25T09:00:00Z"},
		{"London, change skipped", "Europe/London", "24/48@01:00", "2026-03-29", "2026-03-29T01:00:00Z", "2026-03-30T00:00:00Z"},
		{"London, change shown twice", "Europe/London", "24/48@01:00", "2026-10-25", "2026-10-25T00:00:00Z", "2026-10-26T01:00:00Z"},
		{"Lord Howe, autumn, 24 h 30", "Australia/Lord_Howe", "24/48@07:00", "2026-04-04", "2026-04-03T20:00:00Z", "2026-04-04T20:30:00Z"},
		{"Lord Howe, spring, 23 h 30", "Australia/Lord_Howe", "24/48@07:00", "2026-10-03", "2026-10-02T20:30:00Z", "2026-10-03T20:00:00Z"},
		{"Lord Howe, change shown twice", "Australia/Lord_Howe", "24/48@01:45", "2026-04-05", "2026-04-04T14:45:00Z", "2026-04-05T15:15:00Z"},
		{"Lord Howe, change skipped", "Australia/Lord_Howe", "24/48@02:15", "2026-10-04", "2026-10-03T15:30:00Z", "2026-10-04T15:15:00Z"},
		{"two days, one of them short", "America/New_York", "48/96@07:00,A=2026-03-07", "2026-03-07", "2026-03-07T12:00:00Z", "2026-03-08T11:00:00Z"},
		{"one crew", "America/New_York", "", "2026-03-07", "2026-03-07T12:00:00Z", "2026-03-08T11:00:00Z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			noon, err := time.ParseInLocation("2006-01-02 15:04", tt.day+" 12:00", zone(t, tt.zone))
			if err != nil {
				t.Fatal(err)
			}
			start, end := mustParse(t, tt.pattern).Day(noon)
			got := [2]string{start.UTC().Format(time.RFC3339), end.UTC().Format(time.RFC3339)}
			if diff := cmp.Diff([2]string{tt.start, tt.end}, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// In the hour that the clock shows twice, the second time follows the first:
// a shift that began at the first 01:30 is still on duty at the second.
func TestTheHourShownTwice(t *testing.T) {
	p := mustParse(t, "24/48@01:30,A=2026-10-31")
	first := time.Date(2026, 11, 1, 5, 29, 0, 0, time.UTC).In(zone(t, "America/New_York"))
	tests := []struct {
		name, clock, want string
		after             time.Duration
	}{
		{"before the change", "01:29 EDT", "A", 0},
		{"the change", "01:30 EDT", "B", time.Minute},
		{"01:29 again", "01:29 EST", "B", time.Hour},
		{"01:30 again", "01:30 EST", "B", time.Hour + time.Minute},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at := first.Add(tt.after)
			if got := at.Format("15:04 MST"); got != tt.clock {
				t.Fatalf("the test is wrong: the clock shows %s, not %s", got, tt.clock)
			}
			if got := p.At(at).Platoon; got != tt.want {
				t.Errorf("got platoon %s, want %s", got, tt.want)
			}
		})
	}
}

// At 00:01 on 7 November 2010 St. John's put the clock back to 23:01 the day
// before (IANA, rules "StJohns"). The shift that began at 00:00 stays on duty.
func TestTheClockPutBackOverMidnight(t *testing.T) {
	p := mustParse(t, "24/48@00:00,A=2010-11-07")
	at := time.Date(2010, 11, 7, 3, 0, 0, 0, time.UTC).In(zone(t, "America/St_Johns"))
	if got := at.Format("2 January 15:04"); got != "6 November 23:30" {
		t.Fatalf("the test is wrong: the clock shows %s", got)
	}
	s := p.At(at)
	got := s.Platoon + " since " + s.Start.UTC().Format(time.RFC3339)
	if want := "A since 2010-11-07T02:30:00Z"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestATurnOfTwoDaysLasts47HoursInSpring(t *testing.T) {
	noon := time.Date(2026, 3, 7, 12, 0, 0, 0, zone(t, "America/New_York"))
	s := mustParse(t, "48/96@07:00,A=2026-03-07").At(noon)
	if got := s.End.Sub(s.Start); got != 47*time.Hour {
		t.Errorf("got %v, want 47h", got)
	}
}

// From 2038 on, a zone is a rule instead of a table. Time.ZoneBounds of Go 1.26
// says that on 31 December of a leap year the zone ends at that day's start:
// looking for the next change from one to the next once never came to an end.
func TestLastDayOfALeapYearAheadOfTheTables(t *testing.T) {
	noon := time.Date(2040, 12, 31, 12, 0, 0, 0, zone(t, "America/New_York"))
	start, end := mustParse(t, "24/48@07:00").Day(noon)
	got := start.Format(time.RFC3339) + " to " + end.Format(time.RFC3339)
	if want := "2040-12-31T07:00:00-05:00 to 2041-01-01T07:00:00-05:00"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
