package advise_test

import (
	"slices"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
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
