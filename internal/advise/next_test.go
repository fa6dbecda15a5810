package advise_test

import (
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// What a shift finds at 07:00: most urgent first, and of equal urgencies what
// keeps people safe before what is owed.
func TestNextInOrder(t *testing.T) {
	b := inService().
		add("8 20:00", wash(55, bath.ResultClean)).
		add("9 06:30", hot(9.40)).
		add("9 06:40", &bath.Hold{Cause: bath.HoldFoil, Why: "no wear on half the foil"})
	tests := []struct {
		name string
		book book
		now  string
		want []string
	}{
		{"a new station", setUp(), "2 07:00", []string{"fill"}},
		{"a quiet morning", inService().add("2 13:00", &bath.Duty{What: bath.DutyEyewash}).
			add("2 13:00", &bath.Duty{What: bath.DutyFoil}).add("2 13:00", &bath.Duty{What: bath.DutyInspection}),
			"3 07:00", []string{"reading", "dip", "duty-eyewash", "duty-foil", "duty-inspection", "backup"}},
		{"a bad morning", b, "9 07:00", []string{"red-tag", "too-hot", "limit", "drain-limits", "cool", "doubt", "dip", "mark", "duty-eyewash", "duty-foil", "duty-inspection", "backup", "reading"}},
		{"before that morning's tag", b[:len(b)-1], "9 07:00", []string{"too-hot", "limit", "drain-limits", "cool", "doubt", "dip", "filter", "mark", "duty-eyewash", "duty-foil", "duty-inspection", "backup", "reading"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, ids(tt.book.look(t, tt.now))); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// A line counts the same in whatever zone it was written, across the change of
// the clock too.
func TestTheZoneOfTheWriterDoesNotMatter(t *testing.T) {
	b := inService().
		add("2 13:00", &bath.Duty{What: bath.DutyEyewash}).
		add("7 21:00", wash(49, bath.ResultClean)).
		add("7 22:00", &bath.Water{Cause: bath.CauseEvaporation})
	abroad := slices.Clone(b)
	for i := range abroad {
		abroad[i].At, abroad[i].Logged = abroad[i].At.UTC(), abroad[i].Logged.UTC()
	}
	for _, now := range []string{"8 06:30", "9 07:00", "10 12:30", "10 22:30"} {
		if diff := cmp.Diff(b.look(t, now).Next, abroad.look(t, now).Next); diff != "" {
			t.Errorf("on %s: -at home +abroad:\n%s", now, diff)
		}
	}
}

func TestUrgencyWords(t *testing.T) {
	var got []string
	for u := advise.Now; u <= advise.Later; u++ {
		got = append(got, u.String())
	}
	if want := []string{"now", "today", "soon", "later"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// 9 March 2026 is a Monday.
func TestClockAndDate(t *testing.T) {
	x := inService().look(t, "9 07:00")
	tests := []struct {
		name        string
		t           time.Time
		clock, date string
	}{
		{"now", at("9 07:00"), "07:00", "today"},
		{"earlier today", at("9 00:00"), "00:00", "today"},
		{"yesterday, minutes before midnight", at("8 23:59"), "Sun 23:59", "yesterday"},
		{"tomorrow", at("10 07:00"), "Tue 07:00", "tomorrow"},
		{"Thursday", at("12 07:00"), "Thu 07:00", "Thursday"},
		{"last Thursday", at("5 07:00"), "Thu 07:00", "Thursday"},
		{"six days ahead is a date", at("15 07:00"), "15 Mar 07:00", "15 Mar"},
		{"six days ago, the clock change counted", at("3 06:00"), "3 Mar 06:00", "3 Mar"},
		{"a week ago", at("2 07:00"), "2 Mar 07:00", "2 Mar"},
		{"last year", at("2025-12-08 09:00"), "8 Dec 09:00", "8 Dec 2025"},
		{"written in another zone", at("8 23:30").UTC(), "Sun 23:30", "yesterday"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := x.Clock(tt.t); got != tt.clock {
				t.Errorf("Clock: got %q, want %q", got, tt.clock)
			}
			if got := x.Date(tt.t); got != tt.date {
				t.Errorf("Date: got %q, want %q", got, tt.date)
			}
		})
	}
}
