package advise_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/trend"
	"bathside/internal/units"
)

// owed is a bath with something of each kind to do.
func owed() book {
	return inService().
		add("2 13:00", &bath.Duty{What: bath.DutyEyewash}).add("2 13:00", &bath.Duty{What: bath.DutyBackup}).
		add("2 13:00", &bath.Duty{What: bath.DutyFoil}).add("2 13:00", &bath.Duty{What: bath.DutyInspection}).
		add("9 08:00", dip(10.01)).add("9 08:10", hot(10.05)).
		add("9 20:00", wash(49, bath.ResultClean))
}

// A clock ran a year ahead when a line was written. Set right again, what was
// due is due all the same: nothing that is to come counts as done.
func TestWhatIsToComeIsNotDone(t *testing.T) {
	const now, ahead = "20 07:00", "2027-03-20 07:00"
	due := owed().look(t, now)
	for name, body := range map[string]bath.Body{
		"a reading": hot(10.02), "a dip": dip(10.01), "two buffers": twoBuffers(), "the mark": &bath.Water{Cause: bath.CauseEvaporation},
		"the filter": &bath.Filter{Time: units.Minutes(30)}, "eyewash": &bath.Duty{What: bath.DutyEyewash}, "foil": &bath.Duty{What: bath.DutyFoil},
		"inspection": &bath.Duty{What: bath.DutyInspection}, "backup": &bath.Duty{What: bath.DutyBackup}, "temperature": &bath.Temp{BathC: 50},
		"a wash": wash(49, bath.ResultClean), "a note": &bath.Handover{Note: "x"}, "cartridge": &bath.Media{Stage: "1", Route: "hauler"},
	} {
		t.Run(name, func(t *testing.T) {
			x := owed().add(ahead, body).look(t, now)
			if x.Next[0].ID != "clock" {
				t.Errorf("first comes %s, not the clock", x.Next[0].ID)
			}
			for _, a := range due.Next {
				if a.Urgency > advise.Today {
					continue
				}
				i := slices.IndexFunc(x.Next, func(b advise.Action) bool { return b.ID == a.ID })
				if i < 0 || x.Next[i].Urgency > advise.Today {
					t.Errorf("%s (%s) is not asked for any more: %v", a.ID, a.Why, ids(x))
				}
			}
			if x.PH.State != due.PH.State {
				t.Errorf("the pH is %v: %s", x.PH.State, x.PH.Why)
			}
		})
	}
}

// A reading dated ahead is shown and decides nothing: what is read after it,
// by a clock that is right, is the last one.
func TestAReadingDatedAheadIsNotTheLast(t *testing.T) {
	b := owed().add("2027-03-20 07:00", hot(10.05)).add("20 08:00", hot(9.40))
	x := b.look(t, "20 08:05")
	if x.PH.Last == nil || x.PH.Last.Is.PH != 9.40 || x.PH.State != advise.PHPast {
		t.Errorf("got %v by %+v", x.PH.State, x.PH.Last)
	}
	var doubts []string
	for _, r := range x.PH.Doubtful() {
		doubts = append(doubts, r.Doubt.Why)
	}
	want := []string{"dated 20 Mar 2027, which is to come: cross it out with the time it was taken"}
	if diff := cmp.Diff(want, doubts); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	right := owed().add("20 08:00", hot(9.40)).look(t, "20 08:05")
	if diff := cmp.Diff(right.Trend.Forecast, x.Trend.Forecast); diff != "" {
		t.Errorf("the forecast differs (-without +with the line):\n%s", diff)
	}
	if b.look(t, "2027-03-20 07:05").PH.Latest.Is.PH != 10.05 {
		t.Error("once its date has come it is still not the last")
	}
}

// A first reading is that whatever its date, or a bath would get a lower one.
func TestAFirstReadingDatedAheadStays(t *testing.T) {
	x := warmed().add("2027-03-02 10:30", first(10.12)).look(t, "2 12:00")
	if x.PH.First == nil || x.PH.First.Is.PH != 10.12 {
		t.Errorf("got %+v", x.PH.First)
	}
}

// 15 minutes are the rule of the trade; a time that is to come is not fresh.
func TestATemperatureDatedAheadIsNotFresh(t *testing.T) {
	b := owed().add("20 06:00", &bath.Temp{BathC: 48})
	for name, tt := range map[string]struct {
		when string
		want units.Temperature
	}{
		"a minute, as two workstations differ": {"20 07:01", 41}, "an hour": {"20 08:00", 48}, "a year": {"2027-03-20 07:00", 48},
	} {
		if x := b.add(tt.when, &bath.Temp{BathC: 41}).look(t, "20 07:00"); x.Temp == nil || x.Temp.C != tt.want {
			t.Errorf("%s ahead: got %+v, want %v", name, x.Temp, tt.want)
		}
	}
}

// This clock was set back to before everything that is in the log book. It is
// told first, and every figure is still one.
func TestAClockSetBack(t *testing.T) {
	for _, now := range []string{"8 07:00", "2 08:05", "1 09:05", "2026-02-01 07:00", "2000-01-01 00:00", "1970-01-01 00:00"} {
		x := owed().look(t, now)
		if x.Next[0].ID != "clock" {
			t.Errorf("at %s first comes %s: %v", now, x.Next[0].ID, ids(x))
		}
		if why := x.Next[0].Why; !strings.Contains(why, "the log book has a line written 9 Mar 2026 20:00, and here it is "+x.Now.Format("2 Jan 2006 15:04")) {
			t.Errorf("at %s: %s", now, why)
		}
		if x.Trend == nil {
			continue
		}
		f := x.Trend.Forecast
		if dated := f.State == trend.Dated; dated && !(0 <= f.Q10 && f.Q10 <= f.Q50 && f.Q50 <= f.Q90) {
			t.Errorf("at %s the forecast is %+v", now, f)
		}
	}
}

// The clock is put forward on 8 March and back on 1 November 2026 (15 U.S.C.
// 260a). What comes round weekly does so at the same time on the wall.
func TestDutiesAcrossChangesOfTheClock(t *testing.T) {
	for done, due := range map[string]string{"2026-03-03 07:30": "2026-03-10 07:30", "2026-10-28 07:30": "2026-11-04 07:30", "2026-10-25 01:30": "2026-11-01 01:30"} {
		x := bare().add("2026-02-02 08:00", &bath.Fill{VolumeL: 260}).add(done, &bath.Duty{What: bath.DutyEyewash}).add(done, &bath.Duty{What: bath.DutyBackup}).look(t, done)
		for _, id := range []string{"duty-eyewash", "backup"} {
			i := slices.IndexFunc(x.Next, func(a advise.Action) bool { return a.ID == id })
			if i < 0 || !x.Next[i].Due.Equal(at(due)) || x.Next[i].Urgency != advise.Later {
				t.Errorf("%s done %s: got %+v, want it due %s", id, done, x.Next[i], due)
			}
		}
	}
}
