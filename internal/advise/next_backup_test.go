package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// A week is our judgement, no source.
func TestBackupDue(t *testing.T) {
	made := inService().add("3 02:00", &bath.Duty{What: bath.DutyBackup, Note: "station-2026-03-03T0200.db, 12 lines"})
	backUp := func(u advise.Urgency, due, why string) advise.Action {
		return advise.Action{Urgency: u, Due: at(due), Say: "Back up the log book", Why: why + ": run bathside backup"}
	}
	ahead := advise.Action{Urgency: advise.Today, Say: "Back up the log book", Why: "the last is dated 9 Mar 2027, which is to come: run bathside backup"}
	says(t, "backup", []moment{
		{"never filled", setUp(), "20 07:00", advise.Action{}},
		{"never made, a new station", filled(), "2 08:05", backUp(advise.Later, "9 08:00", "due 9 Mar, none made yet")},
		{"never made, a week later", filled(), "9 07:00", backUp(advise.Today, "9 08:00", "due today, none made yet")},
		{"never made, weeks later", filled(), "30 07:00", backUp(advise.Today, "9 08:00", "was due 9 Mar, none made yet")},
		{"just made", made, "3 02:05", backUp(advise.Later, "10 02:00", "due 10 Mar, last today")},
		{"the day before its day", made, "8 07:00", backUp(advise.Soon, "10 02:00", "due Tuesday, last Tuesday")},
		{"on its duty day, which began the day before", made, "9 07:00", backUp(advise.Today, "10 02:00", "due tomorrow, last 3 Mar")},
		{"missed", made, "11 07:00", backUp(advise.Today, "10 02:00", "was due yesterday, last 3 Mar")},
		{"made again", made.add("11 08:00", &bath.Duty{What: bath.DutyBackup}), "11 08:05", backUp(advise.Later, "18 08:00", "due 18 Mar, last today")},
		{"logged late, it does not turn back", made.add("1 08:00", &bath.Duty{What: bath.DutyBackup}), "3 08:05", backUp(advise.Later, "10 02:00", "due 10 Mar, last today")},
		{"another duty", made.add("11 08:00", &bath.Duty{What: bath.DutyEyewash}), "11 08:05", backUp(advise.Today, "10 02:00", "was due yesterday, last 3 Mar")},
		{"contaminated, it is due all the same", made.add("8 08:00", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"}), "11 07:00", backUp(advise.Today, "10 02:00", "was due yesterday, last 3 Mar")},
		{"by a clock that ran a year ahead", made.add("2027-03-09 08:00", &bath.Duty{What: bath.DutyBackup}), "11 07:00", ahead},
	})
}
