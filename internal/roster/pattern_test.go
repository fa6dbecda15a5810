package roster_test

import (
	"strings"
	"testing"
	"time"
	_ "time/tzdata"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"bathside/internal/roster"
)

func mustParse(t testing.TB, s string) roster.Pattern {
	t.Helper()
	p, err := roster.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestParseWritesBackTheShortForm(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"one crew", "", ""},
		{"24/48", "24/48@07:00", "24/48@07:00"},
		{"48/96", "48/96@08:00", "48/96@08:00"},
		{"nine days", "kelly@07:00", "kelly@07:00"},
		{"drill night", "drill:tue@19:00", "drill:tue@19:00"},
		{"own first day", "kelly@07:30,A=2026-03-02", "kelly@07:30,A=2026-03-02"},
		{"first day before 1970", "24/48@07:00,A=1969-12-31", "24/48@07:00,A=1969-12-31"},
		{"usual first day", "24/48@07:00,A=2026-01-01", "24/48@07:00"},
		{"capitals and blanks", " Kelly @ 7:00 , a=2026-03-02 ", "kelly@07:00,A=2026-03-02"},
		{"midnight", "24/48@00:00", "24/48@00:00"},
		{"last minute", "drill:sun@23:59", "drill:sun@23:59"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := mustParse(t, tt.in).String(); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestEmptyStringIsTheZeroPattern(t *testing.T) {
	if got := mustParse(t, ""); got != (roster.Pattern{}) {
		t.Errorf("got %v, want the zero pattern", got)
	}
}

func TestBadPatternsAreOneSentence(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"unknown", "24/47@07:00",
			`shift pattern "24/47@07:00": "24/47" is not a pattern we know: write 24/48, 48/96, kelly or drill:tue, then @ and the time, as in 24/48@07:00`},
		{"no name", "@07:00",
			`shift pattern "@07:00": "" is not a pattern we know: write 24/48, 48/96, kelly or drill:tue, then @ and the time, as in 24/48@07:00`},
		{"no time", "24/48",
			`shift pattern "24/48": the time is missing: add @ and the time, as in 24/48@07:00`},
		{"hour 24", "24/48@24:00",
			`shift pattern "24/48@24:00": the time "24:00" is not on the clock: write 00:00 to 23:59, as in 07:00`},
		{"bare hour", "24/48@7",
			`shift pattern "24/48@7": the time "7" is not on the clock: write 00:00 to 23:59, as in 07:00`},
		{"no such day", "drill:xyz@19:00",
			`shift pattern "drill:xyz@19:00": the drill day "xyz" is not a weekday: write sun, mon, tue, wed, thu, fri or sat, as in drill:tue@19:00`},
		{"drill without a day", "drill@19:00",
			`shift pattern "drill@19:00": the drill day "" is not a weekday: write sun, mon, tue, wed, thu, fri or sat, as in drill:tue@19:00`},
		{"drill with a platoon", "drill:tue@19:00,A=2026-01-01",
			`shift pattern "drill:tue@19:00,A=2026-01-01": a drill night has no platoon A: leave out ",a=2026-01-01"`},
		{"platoons with a weekday", "kelly:tue@07:00",
			`shift pattern "kelly:tue@07:00": only a drill has a weekday: leave out ":tue"`},
		{"no such date", "24/48@07:00,A=2026-02-30",
			`shift pattern "24/48@07:00,A=2026-02-30": "a=2026-02-30" is not a day on which platoon A works: write A= and a date, as in A=2026-01-01`},
		{"another platoon", "24/48@07:00,B=2026-01-01",
			`shift pattern "24/48@07:00,B=2026-01-01": "b=2026-01-01" is not a day on which platoon A works: write A= and a date, as in A=2026-01-01`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := roster.Parse(tt.in)
			if err == nil {
				t.Fatal("got no error")
			}
			if diff := cmp.Diff(tt.want, err.Error()); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// anyPattern draws every kind of pattern, at every minute of the day.
func anyPattern(t *rapid.T) roster.Pattern {
	hour := rapid.IntRange(0, 24*60-1).Draw(t, "minute")
	at := time.Date(2026, 1, 1, 0, hour, 0, 0, time.UTC).Format("@15:04")
	first := time.Date(2026, 1, rapid.IntRange(-30000, 30000).Draw(t, "first"), 0, 0, 0, 0, time.UTC)
	day := strings.ToLower(first.Weekday().String()[:3])

	p, err := roster.Parse(rapid.SampledFrom([]string{
		"",
		"drill:" + day + at,
		"24/48" + at + first.Format(",A=2006-01-02"),
		"48/96" + at + first.Format(",A=2006-01-02"),
		"kelly" + at + first.Format(",A=2006-01-02"),
	}).Draw(t, "pattern"))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestStringReadsBackAsTheSamePattern(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		got, err := roster.Parse(p.String())
		if err != nil {
			t.Fatal(err)
		}
		if got != p {
			t.Errorf("%q reads back as %q", p, got)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"", "24/48@07:00", "drill:tue@19:00", "kelly@07:00,A=2026-03-02", "kelly:@,", "24/48@07:00,A=1e309", "24/48\x1b[2J@07:00", "drill:\u202etue@19:00", "9/9999999999@07:00",
		"24/48@07:00,A=9999-12-31", "24/48@07:00,A=0000-01-01", "0/0@24:60", "\x00\xff", strings.Repeat("24/", 3000), strings.Repeat("👩\u200d🚒", 200),
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := roster.Parse(s)
		if err != nil {
			if strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) || len(err.Error()) > 600 {
				t.Errorf("%q is refused with %q", s, err)
			}
			return
		}
		if again, err := roster.Parse(p.String()); err != nil || again != p {
			t.Errorf("%q became %q, then %q (%v)", s, p, again, err)
		}
		someday := time.Date(2026, time.March, 8, 1, 59, 0, 0, zone(t, "America/New_York")) // a minute before the clock is put forward
		d := p.At(someday)
		if !d.Start.Before(d.End) || someday.Before(d.Start) || !someday.Before(d.End) {
			t.Errorf("%q: %v is on duty from %v to %v", s, someday, d.Start, d.End)
		}
	})
}
