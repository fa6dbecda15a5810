package advise

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/chem"
)

// meterDue: one dip a week; two buffers once a month, after a failed dip, and
// before anything is decided (rulings of the trade).
func meterDue(x *Snapshot) []Action {
	name, ok := x.meterInUse()
	if !ok {
		return none
	}
	a := Action{Kind: "calibration", Preset: map[string]string{"meter": name}}
	all := newMeters(x.State).of(name).until(x.Now)
	now, why := all.standing(name, x.Now)
	full, fullOK := lastOf(all, func(c MeterCheck) bool { return c.Is.Full() && c.OK })
	dip, dipOK := lastOf(all, func(c MeterCheck) bool { return c.OK })
	switch {
	case now.Trust == chem.Failed:
		a.ID, a.Urgency, a.Say, a.Why = "calibrate", Today, "Calibrate meter "+name+": two buffers", why
	case x.deciding() && (!fullOK || x.Now.Sub(full.At) > checkStands):
		a.ID, a.Urgency, a.Say = "calibrate", Today, "Calibrate meter "+name+" before anything is decided"
		a.Why = "the bath is at its limit; a good bath is not drained for a bad meter"
	case !fullOK:
		a.ID, a.Urgency, a.Say, a.Why = "calibrate", Soon, "Calibrate meter "+name+": two buffers", "none logged yet, so its readings count as less sure"
	case !x.Now.Before(full.At.AddDate(0, 0, calibrateEvery)):
		due := full.At.AddDate(0, 0, calibrateEvery)
		a.ID, a.Due, a.Urgency, a.Say = "calibrate", due, x.byDate(due, calibrateEvery), "Calibrate meter "+name+": two buffers"
		a.Why = fmt.Sprintf("%s, last %s", x.dueSay(due), x.Date(full.At))
	case dipOK:
		due := dip.At.Add(checkStands)
		a.ID, a.Due, a.Urgency, a.Say = "dip", due, x.byDate(due, 7), "Dip meter "+name+" in pH 10 buffer"
		a.Why = fmt.Sprintf("%s, last %s; within 0.1 it is right", x.dueSay(due), x.Date(dip.At))
	}
	return one(a)
}

// meterInUse is the meter of the last reading.
func (x *Snapshot) meterInUse() (string, bool) {
	if !x.Open || x.PH.Latest == nil {
		return "", false
	}
	name := x.PH.Latest.Is.Meter
	return name, name != "" && !bath.IsStrip(name)
}

// deciding reports whether the gear officer has something to decide.
func (x *Snapshot) deciding() bool { return x.PH.State == PHAtLimit || x.PH.State == PHPast }

// electrodeAge: an electrode in warm samples wears out.
func electrodeAge(x *Snapshot) []Action {
	name, ok := x.meterInUse()
	fitted, known := lastOf(newMeters(x.State).of(name), func(c MeterCheck) bool { return c.Is.NewElectrode })
	if !ok || !known || x.Now.Before(fitted.At.AddDate(0, electrodeWarned, 0)) {
		return none
	}
	due := fitted.At.AddDate(0, electrodeLasts, 0)
	return one(Action{
		ID: "electrode", Urgency: x.byDate(due, calibrateEvery), Due: due, Kind: "calibration", Preset: map[string]string{"meter": name, "new-electrode": "yes"},
		Say: "Fit a new electrode to meter " + name,
		Why: fmt.Sprintf("the one in use is from %s, and about %d months is what warm samples leave it", x.Date(fitted.At), electrodeLasts),
	})
}

// buffersAhead is how many days before their date buffers are asked for.
const buffersAhead = 21

// buffersExpire: a buffer past its date calibrates nothing.
func buffersExpire(x *Snapshot) []Action {
	last, ok := lastOf(newMeters(x.State), func(c MeterCheck) bool { return c.Is.Expires != "" })
	if !ok {
		return none
	}
	due, err := time.ParseInLocation(time.DateOnly, last.Is.Expires, x.Now.Location())
	if err != nil || x.Now.Before(due.AddDate(0, 0, -buffersAhead)) {
		return none
	}
	a := Action{ID: "buffers", Urgency: Soon, Due: due, Say: "Get fresh buffers", Why: "the bottles in use expire " + x.Date(due)}
	if !x.Now.Before(due) {
		a.Urgency, a.Why = Today, "the bottles in use expired "+x.Date(due)+"; log the new date with the next calibration"
	}
	return one(a)
}

// lastOf is the last check that is so.
func lastOf(m meters, is func(MeterCheck) bool) (MeterCheck, bool) {
	for i := len(m) - 1; i >= 0; i-- {
		if is(m[i]) {
			return m[i], true
		}
	}
	return MeterCheck{}, false
}
