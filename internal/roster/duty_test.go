package roster_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

// The platoon that meets a weekly job moves by 7 days modulo the length of the
// cycle. Source: arithmetic, 7 mod 3, 7 mod 6 and 7 mod 9 on the cycles as
// career departments publish them.
func TestSameWeekdayFallsToOtherPlatoons(t *testing.T) {
	tests := []struct{ pattern, want string }{
		{"24/48@07:00", "A B C A B C"},
		{"48/96@07:00", "A A B B C C"},
		{"kelly@07:00", "A B B B C C C A A"},
	}
	for _, tt := range tests {
		t.Run(tt.pattern, func(t *testing.T) {
			p := mustParse(t, tt.pattern)
			noon := time.Date(2026, 1, 1, 12, 0, 0, 0, zone(t, "America/New_York"))
			var got []string
			for week := range strings.Fields(tt.want) {
				got = append(got, p.At(noon.AddDate(0, 0, 7*week)).Platoon)
			}
			if got := strings.Join(got, " "); got != tt.want {
				t.Errorf("got %s, want %s", got, tt.want)
			}
		})
	}
}

// Each platoon averages 56 hours a week. Source: departments' published
// description of 24/48 (Grand Junction, Colorado, questions and answers); for
// the others by arithmetic, a third of 168 hours.
func TestEachPlatoonWorks56HoursAWeek(t *testing.T) {
	tests := []struct {
		pattern string
		weeks   int // a whole number of cycles
	}{
		{"24/48@07:00", 3},
		{"48/96@07:00", 6},
		{"kelly@07:00", 9},
	}
	for _, tt := range tests {
		t.Run(tt.pattern, func(t *testing.T) {
			p := mustParse(t, tt.pattern)
			start := time.Date(2026, 1, 1, 7, 0, 0, 0, time.UTC)
			end := start.AddDate(0, 0, 7*tt.weeks)
			got := map[string]time.Duration{}
			for s := p.At(start); s.Start.Before(end); s = p.Next(s.Start) {
				got[s.Platoon] += s.End.Sub(s.Start)
			}
			all := time.Duration(tt.weeks) * 56 * time.Hour
			if diff := cmp.Diff(map[string]time.Duration{"A": all, "B": all, "C": all}, got); diff != "" {
				t.Errorf("hours in %d weeks, -want +got:\n%s", tt.weeks, diff)
			}
		})
	}
}

func TestShiftAt(t *testing.T) {
	tests := []struct{ name, pattern, at, want string }{
		{"the first minute", "24/48@07:00", "2026-01-01 07:00:00", "A 01-01 07:00 to 01-02 07:00"},
		{"the second before", "24/48@07:00", "2026-01-01 06:59:59", "C 12-31 07:00 to 01-01 07:00"},
		{"midnight", "24/48@07:00", "2026-01-02 00:00:00", "A 01-01 07:00 to 01-02 07:00"},
		{"the last second", "24/48@07:00", "2026-01-02 06:59:59", "A 01-01 07:00 to 01-02 07:00"},
		{"the relief", "24/48@07:00", "2026-01-02 07:00:00", "B 01-02 07:00 to 01-03 07:00"},
		{"change at midnight", "24/48@00:00", "2026-01-02 00:00:00", "B 01-02 00:00 to 01-03 00:00"},
		{"first of two days", "48/96@08:00", "2026-01-01 12:00:00", "A 01-01 08:00 to 01-03 08:00"},
		{"second of two days", "48/96@08:00", "2026-01-03 07:59:59", "A 01-01 08:00 to 01-03 08:00"},
		{"before the first day", "48/96@08:00", "2025-12-30 12:00:00", "C 12-30 08:00 to 01-01 08:00"},
		{"the platoon back next day but one", "kelly@07:00", "2026-01-03 12:00:00", "A 01-03 07:00 to 01-04 07:00"},
		{"end of the nine days", "kelly@07:00", "2026-01-09 12:00:00", "C 01-09 07:00 to 01-10 07:00"},
		{"the nine days again", "kelly@07:00", "2026-01-10 12:00:00", "A 01-10 07:00 to 01-11 07:00"},
		{"own first day", "24/48@07:00,A=2026-01-03", "2026-01-03 12:00:00", "A 01-03 07:00 to 01-04 07:00"},
		{"one crew", "", "2026-01-02 06:59:59", " 01-01 07:00 to 01-02 07:00"},
		{"drill night", "drill:tue@19:00", "2026-01-06 19:00:00", " 01-06 07:00 to 01-07 07:00"},
		{"after the drill, past midnight", "drill:tue@19:00", "2026-01-07 00:30:00", " 01-06 07:00 to 01-07 07:00"},
	}
	const minute = "01-02 15:04"
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at, err := time.ParseInLocation(time.DateTime, tt.at, zone(t, "Europe/London"))
			if err != nil {
				t.Fatal(err)
			}
			s := mustParse(t, tt.pattern).At(at)
			got := s.Platoon + " " + s.Start.Format(minute) + " to " + s.End.Format(minute)
			if got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestNextDrill(t *testing.T) {
	tests := []struct{ name, pattern, from, want string }{
		{"days before", "drill:tue@19:00", "2026-01-03 12:00", "2026-01-06 19:00"},
		{"the same day", "drill:tue@19:00", "2026-01-06 08:00", "2026-01-06 19:00"},
		{"as it begins", "drill:tue@19:00", "2026-01-06 19:00", "2026-01-06 19:00"},
		{"a minute late", "drill:tue@19:00", "2026-01-06 19:01", "2026-01-13 19:00"},
		// The clock skips 02:00 to 03:00 on 8 March 2026: 15 U.S.C. 260a.
		{"at a skipped time", "drill:sun@02:30", "2026-03-07 12:00", "2026-03-08 03:00"},
		{"over a change of the clock", "drill:tue@19:00", "2026-03-06 12:00", "2026-03-10 19:00"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const minute = "2006-01-02 15:04"
			from, err := time.ParseInLocation(minute, tt.from, zone(t, "America/New_York"))
			if err != nil {
				t.Fatal(err)
			}
			drill, ok := mustParse(t, tt.pattern).NextDrill(from)
			if got := drill.Format(minute); !ok || got != tt.want {
				t.Errorf("got %s %t, want %s", got, ok, tt.want)
			}
		})
	}
}

func TestPlatoonsHaveNoDrill(t *testing.T) {
	for _, s := range []string{"", "24/48@07:00"} {
		if drill, ok := mustParse(t, s).NextDrill(time.Unix(0, 0).UTC()); ok {
			t.Errorf("%q: got a drill at %v", s, drill)
		}
	}
}

// anyInstant draws instants near the changes of the clock as often as far from
// them. Havana and Cairo change it at midnight, St. John's long did so a minute
// later, Lord Howe by half an hour, and Apia left out a whole day.
func anyInstant(t *rapid.T) time.Time {
	name := rapid.SampledFrom([]string{
		"UTC", "America/New_York", "Europe/London", "Australia/Lord_Howe", "America/Havana",
		"Africa/Cairo", "America/St_Johns", "Pacific/Apia", "Pacific/Kiritimati", "Pacific/Pago_Pago",
	}).Draw(t, "zone")
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "unix"), 0).In(loc)
	if _, change := at.ZoneBounds(); !change.IsZero() && rapid.Bool().Draw(t, "near a change") {
		at = change.Add(time.Duration(rapid.IntRange(-50*60, 50*60).Draw(t, "minutes")) * time.Minute)
	}
	return at
}

func TestEveryInstantHasOneShift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at := anyPattern(t), anyInstant(t)
		s := p.At(at)
		if at.Before(s.Start) || !at.Before(s.End) {
			t.Fatalf("%v is not within its shift, %v", at, s)
		}
		for _, within := range []time.Time{s.Start, s.End.Add(-1)} {
			if diff := cmp.Diff(s, p.At(within)); diff != "" {
				t.Errorf("another shift at %v, -at %v +then:\n%s", within, at, diff)
			}
		}
	})
}

func TestShiftsLeaveNoGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at := anyPattern(t), anyInstant(t)
		s, next := p.At(at), p.Next(at)
		if !next.Start.Equal(s.End) {
			t.Errorf("shift ends %v, next starts %v", s.End, next.Start)
		}
		if s.Platoon != "" && next.Platoon == s.Platoon {
			t.Errorf("platoon %s relieves itself at %v", s.Platoon, s.End)
		}
	})
}

func TestDutyDaysLieWithinShifts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at := anyPattern(t), anyInstant(t)
		s := p.At(at)
		start, end := p.Day(at)
		if at.Before(start) || !at.Before(end) {
			t.Errorf("%v is not within its day, %v to %v", at, start, end)
		}
		if start.Before(s.Start) || end.After(s.End) {
			t.Errorf("day %v to %v is not within shift %v", start, end, s)
		}
	})
}

func TestNextDrillIsTheOneOfTheDaysAhead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at := anyPattern(t), anyInstant(t)
		drill, ok := p.NextDrill(at)
		if !ok {
			t.Skip("no drill night")
		}
		if wait := drill.Sub(at); wait < 0 || wait > 8*24*time.Hour {
			t.Errorf("from %v to drill at %v is %v", at, drill, wait)
		}
	})
}

func BenchmarkAt(b *testing.B) {
	p := mustParse(b, "48/96@08:00")
	at := time.Date(2026, 3, 8, 1, 0, 0, 0, zone(b, "America/New_York"))
	for b.Loop() {
		p.At(at)
	}
}
