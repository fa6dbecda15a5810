package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestTheAuthorMayCrossOutUntilTheirShiftEnds(t *testing.T) {
	tests := []struct {
		name, shift string
		wait        time.Duration // from 7:10 on Monday
		by          string
		ok          bool
	}{
		{"author, same day", "24/48@07:00", 12 * time.Hour, crew, true},
		{"author, before the change", "24/48@07:00", 23 * time.Hour, crew, true},
		{"author, after the change", "24/48@07:00", 24 * time.Hour, crew, false},
		{"author, second day of a 48-hour shift", "48/96@07:00,A=2026-03-02", 30 * time.Hour, crew, true},
		{"author, after the 48-hour shift", "48/96@07:00,A=2026-03-02", 48 * time.Hour, crew, false},
		{"author, no shifts", "drill:tue@19:00", 20 * time.Hour, crew, true},
		{"author, no shifts, next duty day", "drill:tue@19:00", 24 * time.Hour, crew, false},
		{"another of the crew", "24/48@07:00", time.Hour, keyHolder, false},
		{"gear officer, a month later", "24/48@07:00", 30 * 24 * time.Hour, officer, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			b.log(officer, &bath.Setting{Shift: tt.shift})
			e := b.log(crew, &bath.Reading{PH: 9.9, SampleC: 50})
			b.now = monday.Add(10 * time.Minute).Add(tt.wait - time.Minute)
			err := b.strike(tt.by, e, nil)
			if !tt.ok {
				checkRefusal(t, err, "role", "was written by Lee Holm: only they, before their shift ends, or a gear officer may cross it out")
			} else if err != nil {
				t.Error(err)
			}
		})
	}
}

// New York put its clock forward on 8 March 2026 (15 U.S.C. 260a): that duty
// day has 23 hours, and ends at 7 on the wall all the same.
func TestAShiftEndsByTheClockOnTheWall(t *testing.T) {
	ny := mustZone("America/New_York")
	b := begun(t)
	b.log(officer, &bath.Setting{Zone: "America/New_York"})
	b.now = time.Date(2026, time.March, 7, 8, 0, 0, 0, ny)
	e := b.log(crew, &bath.Temp{BathC: 50})
	b.now = time.Date(2026, time.March, 8, 6, 50, 0, 0, ny)
	if err := b.strike(crew, e, nil); err != nil {
		t.Error(err)
	}
	e = b.log(crew, &bath.Temp{BathC: 50})
	b.now = time.Date(2026, time.March, 8, 7, 0, 0, 0, ny)
	checkRefusal(t, b.strike(crew, e, nil), "role", "before their shift ends")
}

func TestWhatLaterLinesRestOnStays(t *testing.T) {
	b := newBook(t)
	fill := b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	dose := b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	first := b.log(crew, &bath.Reading{PH: 10.1, SampleC: 50, Baseline: true})
	drain := b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
	second := b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	for _, tt := range []struct {
		name        string
		target      bath.Entry
		by, restsOn string
	}{
		{"fill", fill, "line 7 (Soap added)", "line 6"},
		{"dose", dose, "line 8 (Record a pH reading)", "line 7"},
		{"drain", drain, "line 10 (Fill the bath)", "line 9"},
	} {
		checkRefusal(t, b.strike(officer, tt.target, nil), "rests", tt.by+" rests on "+tt.restsOn+": cross that one out first")
	}
	for _, e := range []bath.Entry{second, drain, first, dose, fill} { // the last first
		if err := b.strike(officer, e, nil); err != nil {
			t.Fatalf("line %d: %v", e.Seq, err)
		}
	}
	if lives := b.bath().Lives(); len(lives) != 0 {
		t.Errorf("%d fills are left", len(lives))
	}
	checkRefusal(t, b.strike(officer, fill, nil), "struck", "line 6 is crossed out already, by line 15")
}

// A corrected line still counts, so what it rests on stays too.
func TestACorrectedLineStillRests(t *testing.T) {
	b := begun(t)
	first := b.entries[8]
	if err := b.strike(crew, first, &bath.Reading{PH: 10.2, SampleC: 50, Meter: "M1", Baseline: true}); err != nil {
		t.Fatal(err)
	}
	checkRefusal(t, b.strike(crew, b.entries[6], nil), "rests", "line 9 (Record a pH reading) rests on line 7")
	checkRefusal(t, b.strike(crew, b.entries[5], nil), "rests", "rests on line 6")
}

func TestSomeLinesCannotBeCrossedOut(t *testing.T) {
	b := begun(t)
	struck := b.log(crew, &bath.Temp{BathC: 50})
	if err := b.strike(crew, struck, nil); err != nil {
		t.Fatal(err)
	}
	strike := b.entries[len(b.entries)-1]
	checkRefusal(t, b.strike(officer, strike, nil), "input", "line 11 crosses out another line, and stays: record again what that one said")
	for _, e := range b.entries[2:5] { // member, setting, tank
		checkRefusal(t, b.strike(officer, e, nil), "input", "cannot be crossed out: record it again with the right values")
	}
}

func TestCrossingOutUndoesWhatAWholeFoldMust(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Filter{Time: units.Hours(1)})
	filter := b.log(crew, &bath.Filter{Time: units.Hours(10)})
	hold := b.log(crew, &bath.Hold{Cause: bath.HoldLeak, Why: "wrong bath"})
	duty := b.log(crew, &bath.Duty{What: bath.DutyFoil})
	note := b.log(crew, &bath.Handover{Note: "typo"})
	for _, e := range []bath.Entry{filter, hold, duty, note} {
		if err := b.strike(crew, e, nil); err != nil {
			t.Fatalf("line %d: %v", e.Seq, err)
		}
	}
	tub := b.bath()
	if tub.FilterS[0].Hours() != 1 || tub.Tag != nil || len(b.state.Duties) != 0 || len(b.state.Notes) != 0 {
		t.Errorf("got %v h, tag %v, duties %v, %d notes", tub.FilterS[0].Hours(), tub.Tag, b.state.Duties, len(b.state.Notes))
	}
}

// TestALineIsNotCrossedOutBeforeItIsWritten: an imported file may say so of a
// red tag that is hung later. It hangs, however the lines are folded.
func TestALineIsNotCrossedOutBeforeItIsWritten(t *testing.T) {
	b := begun(t)
	hold := b.state.Seq + 2
	for _, body := range []bath.Body{&bath.Strike{Target: hold, Why: "beforehand"}, &bath.Hold{Cause: bath.HoldLeak, Why: "drips"}} {
		e := b.draft(crew, b.now, body)
		e.Seq = uint64(len(b.entries) + 1)
		b.entries = append(b.entries, e)
	}
	whole, err := bath.Fold(b.entries)
	if err != nil {
		t.Fatal(err)
	}
	parts, err := b.state.Apply(b.entries[hold-2:]...)
	if err != nil {
		t.Fatal(err)
	}
	for name, s := range map[string]*bath.State{"whole": whole, "in parts": parts} {
		if s.Baths[0].Tag == nil || s.Struck[hold] != 0 {
			t.Errorf("%s: the tag of line %d is crossed out by the line before it", name, hold)
		}
	}
}
