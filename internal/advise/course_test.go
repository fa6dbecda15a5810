package advise_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// What was measured is what somebody measured by itself, before a wash or with
// one; a wash that was started has its temperature from the start.
func TestTempsAreThoseThatSomebodyMeasured(t *testing.T) {
	b := inService().
		add("3 08:00", wash(48, bath.ResultClean)).
		add("4 08:00", &bath.Temp{BathC: 51, Heat: new(true)})
	var got []units.Temperature
	for _, m := range b.look(t, "5 08:00").Temps() {
		got = append(got, m.C)
	}
	if diff := cmp.Diff([]units.Temperature{50, 48, 51}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

// A set point is in force until another one is logged; the same one again
// changes nothing.
func TestSetPointsFollowEachOther(t *testing.T) {
	b := inService().
		add("4 08:00", &bath.Temp{BathC: 50, SetC: new(units.Temperature(48))}).
		add("5 08:00", &bath.Temp{BathC: 48, SetC: new(units.Temperature(48))}).
		add("6 08:00", &bath.Temp{BathC: 48, SetC: new(units.Temperature(52))})
	x := b.look(t, "9 08:00")
	want := []advise.SetPoint{
		{C: x.Bath.Tank.Set(), From: at("2 08:00"), To: at("4 08:00")},
		{C: 48, From: at("4 08:00"), To: at("6 08:00")},
		{C: 52, From: at("6 08:00"), To: x.Now},
	}
	if diff := cmp.Diff(want, x.SetPoints()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if last := x.SetPoints()[2].C; last != x.Set() {
		t.Errorf("the last set point is %v, and %v is in force", last, x.Set())
	}
}

// The last look is what the level was last seen at, and the course ends where
// the level probably stands now.
func TestLooksAndCourseEndAtTheLevel(t *testing.T) {
	full := units.Gallons(70)
	b := inService().
		add("5 08:00", looked(6)).
		add("9 08:00", &bath.Water{VolumeL: 5, BelowL: new(units.Volume(20)), Cause: bath.CauseEvaporation})
	x := b.look(t, "12 08:00")
	var stood []units.Volume
	for _, l := range x.Looks() {
		stood = append(stood, l.VolumeL)
	}
	if diff := cmp.Diff([]units.Volume{full, full, full - 15}, stood); diff != "" {
		t.Errorf("looks -want +got:\n%s", diff)
	}
	if last := x.Looks()[2]; last != x.Level {
		t.Errorf("the last look is %+v, the level was last seen at %+v", last, x.Level)
	}

	course := x.LevelCourse(x.Life.Fill.At, x.Now.AddDate(0, 0, 30))
	for i, l := range course {
		if i > 0 && l.At.Before(course[i-1].At) || l.At.After(x.Now) {
			t.Fatalf("level %d is of %s, after one of %s", i, l.At, course[i-1].At)
		}
	}
	near(t, "the level now", float64(course[len(course)-1].VolumeL), float64(x.About.VolumeL), 1e-9)
	for _, seen := range x.Looks()[1:] {
		found := false
		for _, l := range course {
			found = found || l.At.Equal(seen.At) && l.VolumeL-seen.VolumeL < 1e-9 && seen.VolumeL-l.VolumeL < 1e-9
		}
		if !found {
			t.Errorf("the course passes by what was seen on %s", seen.At)
		}
	}
	if c := setUp().look(t, "3 08:00").LevelCourse(at("2 08:00"), at("3 08:00")); c != nil {
		t.Errorf("an empty bath has a course: %v", c)
	}
}
