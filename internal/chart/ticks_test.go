package chart

import (
	"math"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // zones must not depend on the machine

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// spell writes ticks as their labels, and checks that they ascend.
func spell(t *testing.T, ticks []Tick) string {
	t.Helper()
	var labels []string
	for i, tick := range ticks {
		if i > 0 && tick.At <= ticks[i-1].At {
			t.Errorf("tick %q does not come after %q", tick.Label, ticks[i-1].Label)
		}
		labels = append(labels, tick.Label)
	}
	return strings.Join(labels, " ")
}

// TestDecimal is worked by hand. The rule is Heckbert's, "Nice numbers for graph
// labels", Graphics Gems (1990), with his example 105 to 543; the reference is
// from memory.
func TestDecimal(t *testing.T) {
	tests := []struct {
		name   string
		lo, hi float64
		most   int
		want   string
	}{
		{"Heckbert's example", 105, 543, 5, "200 300 400 500"},
		{"ends are ticks", 9.7, 10.3, 7, "9.7 9.8 9.9 10.0 10.1 10.2 10.3"},
		{"one fewer allowed", 9.7, 10.3, 6, "9.8 10.0 10.2"},
		{"through zero", -1, 1, 5, "-1.0 -0.5 0.0 0.5 1.0"},
		{"no sign on zero", -0.3, 0.3, 1, "0"},
		{"below zero", -40, -10, 4, "-40 -30 -20 -10"},
		{"step of five", 0, 100, 25, "0 5 10 15 20 25 30 35 40 45 50 55 60 65 70 75 80 85 90 95 100"},
		{"small", 0.0001, 0.0005, 5, "0.0001 0.0002 0.0003 0.0004 0.0005"},
		{"tiny", 1e-9, 3e-9, 3, "1e-09 2e-09 3e-09"},
		{"large", 0, 5e7, 3, "0 2e+07 4e+07"},
		{"one", 3, 8, 1, "5"},
		{"none wanted", 3, 8, 0, ""},
		{"no range", 3, 3, 5, ""},
		{"not a number", math.NaN(), 3, 5, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := spell(t, Decimal(tt.lo, tt.hi, tt.most)); got != tt.want {
				t.Errorf("Decimal(%v, %v, %d) = %q, want %q", tt.lo, tt.hi, tt.most, got, tt.want)
			}
		})
	}
}

func TestDecimalKeepsToTheCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e6, 1e6).Draw(t, "lo")
		hi := lo + rapid.Float64Range(0.01, 1e6).Draw(t, "length")
		most := rapid.IntRange(1, 30).Draw(t, "most")
		ticks := Decimal(lo, hi, most)
		if len(ticks) > most {
			t.Fatalf("%d ticks, want at most %d", len(ticks), most)
		}
		// Steps grow by 2.5 at most, so that a sparse axis still has a third.
		if most >= 6 && len(ticks) < most/3 {
			t.Fatalf("only %d ticks of %d", len(ticks), most)
		}
		for _, tick := range ticks {
			if slack := 1e-6 * (hi - lo); tick.At < lo-slack || tick.At > hi+slack {
				t.Fatalf("tick %v outside %v to %v", tick.At, lo, hi)
			}
		}
	})
}

func TestFitSetsTicksOnRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e4, 1e4).Draw(t, "lo")
		s := span{lo, lo + rapid.Float64Range(0.01, 1e4).Draw(t, "length")}
		rows := rapid.IntRange(3, 60).Draw(t, "rows")
		got, step := fit(s, rows)
		y := scale{got.hi, got.lo, rows}
		for _, v := range []float64{s.lo, s.hi} {
			if _, ok := y.cell(v); !ok {
				t.Fatalf("%v is outside %v", v, got)
			}
		}
		ticks := multiples(got.lo, got.hi, step)
		if len(ticks) < 1 || len(ticks) > 16 {
			t.Fatalf("%d ticks of step %v in %v", len(ticks), step, got)
		}
		for _, tick := range ticks {
			if at := y.at(tick.At); math.Abs(at-math.Round(at)) > 1e-3 {
				t.Fatalf("tick %v is at row %v", tick.At, at)
			}
		}
		// At worst a third of the rows stay empty, more only where there are few.
		if used := y.at(s.lo) - y.at(s.hi); rows > 12 && used < 0.6*float64(rows-1) {
			t.Fatalf("only %.1f of %d rows used", used, rows)
		}
	})
}

// TestCalendar is worked by hand on the calendar. Weeks begin on Monday as in
// ISO 8601. In New York the clock goes forward on 8 March 2026 at 02:00 and back
// on 1 November 2026 at 02:00 (IANA time zone database); in Beirut it goes
// forward at midnight, so that 29 March 2026 begins at 01:00.
func TestCalendar(t *testing.T) {
	tests := []struct {
		name, zone, from, to string
		most                 int
		want                 string
	}{
		{"weeks", "UTC", "2026-11-02 06:40", "2026-12-09 12:00", 6, "9 Nov 16 23 30 7 Dec"},
		{"days", "UTC", "2026-02-26 12:00", "2026-03-03 00:00", 6, "27 Feb 28 1 Mar 2 3"},
		{"every other day", "UTC", "2026-02-26 12:00", "2026-03-03 00:00", 3, "28 Feb 2 Mar"},
		{"months", "UTC", "2026-10-15 00:00", "2027-03-15 00:00", 5, "Nov Dec 2027 Feb Mar"},
		{"quarters", "UTC", "2026-10-15 00:00", "2027-07-15 00:00", 4, "2027 Apr Jul"},
		{"years", "UTC", "2024-03-01 00:00", "2027-03-01 00:00", 3, "2025 2026 2027"},
		{"hours over midnight", "UTC", "2026-11-02 17:00", "2026-11-03 08:00", 5, "18:00 21:00 3 Nov 03:00 06:00"},
		{"quarter hours", "UTC", "2026-11-02 17:01", "2026-11-02 18:01", 4, "17:15 17:30 17:45 18:00"},
		{"minutes", "UTC", "2026-11-02 17:01", "2026-11-02 17:05", 9, "17:01 17:02 17:03 17:04 17:05"},
		{"days in spring", "America/New_York", "2026-03-07 00:00", "2026-03-09 12:00", 3, "7 Mar 8 9"},
		{"hours in spring", "America/New_York", "2026-03-08 00:00", "2026-03-08 05:00", 6, "8 Mar 01:00 03:00 04:00 05:00"},
		{"hours in autumn", "America/New_York", "2026-11-01 00:00", "2026-11-01 04:00", 6, "1 Nov 01:00 02:00 03:00 04:00"},
		{"weeks in autumn", "America/New_York", "2026-10-20 00:00", "2026-11-10 00:00", 4, "26 Oct 2 Nov 9"},
		{"no such midnight", "Asia/Beirut", "2026-03-28 00:00", "2026-03-30 12:00", 3, "28 Mar 29 30"},
		{"before 1970", "UTC", "1969-12-20 00:00", "1970-01-06 00:00", 4, "22 Dec 29 5 Jan"},
		{"too short for any", "UTC", "2026-11-02 17:01", "2026-11-02 17:01", 5, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			loc, err := time.LoadLocation(tt.zone)
			if err != nil {
				t.Fatal(err)
			}
			at := func(s string) float64 {
				when, err := time.ParseInLocation("2006-01-02 15:04", s, loc)
				if err != nil {
					t.Fatal(err)
				}
				return float64(when.Unix())
			}
			got := spell(t, Calendar(loc)(at(tt.from), at(tt.to), tt.most))
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("labels (-want +got):\n%s", diff)
			}
		})
	}
}

func TestCalendarKeepsToTheCount(t *testing.T) {
	zones := []string{"UTC", "America/New_York", "America/Sao_Paulo", "Pacific/Apia", "Australia/Lord_Howe"}
	rapid.Check(t, func(t *rapid.T) {
		loc, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, "zone"))
		if err != nil {
			t.Fatal(err)
		}
		lo := rapid.Float64Range(-5e10, 5e10).Draw(t, "lo")
		hi := lo + math.Exp(rapid.Float64Range(0, 23).Draw(t, "log of length"))
		most := rapid.IntRange(1, 20).Draw(t, "most")
		ticks := Calendar(loc)(lo, hi, most)
		if len(ticks) > most {
			t.Fatalf("%d ticks, want at most %d", len(ticks), most)
		}
		for i, tick := range ticks {
			if tick.At < lo || tick.At > hi || i > 0 && tick.At <= ticks[i-1].At {
				t.Fatalf("tick %d of %v is out of place", i, ticks)
			}
		}
	})
}
