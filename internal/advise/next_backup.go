package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
)

// backupEvery is how many days may pass between two backups (our judgement, no
// source: what is lost is then at most what a shift can write down again).
const backupEvery = 7

// backupDue: a copy of the log book, once a week. It has no form: the command
// that makes the copy logs it.
func backupDue(x *Snapshot) []Action {
	if len(x.Bath.Entries) == 0 { // nothing worth keeping yet
		return none
	}
	last, done := x.State.Duties[bath.DutyBackup]
	since := x.Bath.Entries[0].At
	if done {
		since = last
	}
	a := Action{ID: "backup", Say: "Back up the log book", Due: since.In(x.Now.Location()).AddDate(0, 0, backupEvery)}
	a.Urgency = x.byDate(a.Due, backupEvery)
	a.Why = fmt.Sprintf("%s, none made yet: run bathside backup", x.dueSay(a.Due))
	if done {
		a.Why = fmt.Sprintf("%s, last %s: run bathside backup", x.dueSay(a.Due), x.Date(last))
	}
	if toCome(last, x.Now) {
		a.Due, a.Urgency, a.Why = time.Time{}, Today, x.toComeSay(last)+": run bathside backup"
	}
	return one(a)
}
