package heat

import (
	"slices"
	"testing"
	"time"

	"bathside/internal/units"
	"pgregory.net/rapid"
)

// TestCourseIsLevelsInARow: a course says of each time what Level says of it alone.
func TestCourseIsLevelsInARow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		day := rapid.Float64Range(-2, 40)
		events := slices.Clone(fill)
		for range rapid.IntRange(0, 8).Draw(t, "events") {
			what := rapid.SampledFrom([]What{Filled, Poured, Dosed, Looked, LookedLost, CarriedOut}).Draw(t, "what")
			events = append(events, Event{after(day.Draw(t, "day")), what, units.Volume(rapid.Float64Range(0, 60).Draw(t, "volume"))})
		}
		var times []time.Time
		for range rapid.IntRange(0, 12).Draw(t, "times") {
			times = append(times, after(day.Draw(t, "time")))
		}
		slices.SortFunc(times, time.Time.Compare)

		got := book.Course(events, times...)
		for _, at := range times {
			want, ok := book.Level(events, at)
			switch {
			case !ok:
				continue
			case len(got) == 0:
				t.Fatalf("the course ends before %s", at)
			case !got[0].At.Equal(at) || got[0].Seen != want.Seen:
				t.Fatalf("got a level of %s seen %s, want of %s seen %s", got[0].At, got[0].Seen, at, want.Seen)
			}
			if d := got[0].Now.Volume - want.Now.Volume; d > 1e-6 || d < -1e-6 || got[0].U-want.U > 1e-6 || want.U-got[0].U > 1e-6 {
				t.Fatalf("at %s: got %v ± %v, want %v ± %v", at, got[0].Now.Volume, got[0].U, want.Now.Volume, want.U)
			}
			got = got[1:]
		}
		if len(got) > 0 {
			t.Fatalf("%d levels of times that nobody asked for", len(got))
		}
	})
}

// Worked by hand, with 8 L a day: five days, a look that made up 30 L, a day.
func TestCourse(t *testing.T) {
	events := slices.Concat(fill, []Event{{after(5), Looked, 30}, {after(5), Poured, 30}})
	want := []units.Volume{227.125, 187.125, 227.125, 219.125}
	got := book.Course(events, after(-1), monday, after(5).Add(-1), after(5), after(6))
	if len(got) != len(want) {
		t.Fatalf("got %d levels, want %d: none before the fill", len(got), len(want))
	}
	for i, l := range got {
		if d := l.Now.Volume - want[i]; d > 1e-6 || d < -1e-6 {
			t.Errorf("level %d: got %v, want %v", i, l.Now.Volume, want[i])
		}
	}
}
