// Package advise says what a bath's state means at a moment: how it stands,
// who is on duty, and what to do next, each with its reason.
//
// It keeps nothing and decides nothing for anybody. Every face draws the same
// Snapshot, so that no screen computes a rule of its own. A next-action rule is
// one function in a next_*.go file and one test.
package advise

import (
	"time"

	"bathside/internal/bath"
	"bathside/internal/roster"
	"bathside/internal/units"
)

// Snapshot is a bath at a moment, ready to be shown. It is never changed.
type Snapshot struct {
	State  *bath.State
	Bath   *bath.Bath
	Life   bath.Life // the open fill; the last one where Open is false
	Open   bool
	Now    time.Time // in the station's zone
	Sys    units.System
	Times  units.Times
	PH     Judgement
	Soap   *Outlook // what more soap would do, once the bath is getting close; nil where that is not known
	Trend  *Trend   // nil where there is no first reading to fall from
	Temp   *Temp    // last measured in this fill; nil where nobody did
	Level  Level
	About  *About // how high it probably stands now; nil where that is not known
	Shift  roster.Shift
	OnDuty []bath.Member
	Next   []Action

	vessel vessel // of the open fill
}

// Temp is the bath as somebody last measured it.
type Temp struct {
	C        units.Temperature
	At       time.Time
	HeaterOn *bool // nil where nobody said
}

// Level is how high the bath stood when somebody last looked.
type Level struct {
	VolumeL units.Volume
	At      time.Time
	Known   bool
}

// Assess looks at one bath of a station; an empty id is the first.
func Assess(s *bath.State, id string, now time.Time) (*Snapshot, error) {
	b, err := s.Bath(id)
	if err != nil {
		return nil, err
	}
	x := &Snapshot{State: s, Bath: b, Now: now.In(s.Zone()), Sys: s.System(), Times: s.Times()}
	x.Life, x.Open = b.LastLife()
	x.Open = x.Open && x.Life.Drain == nil
	x.PH = Judgement{State: PHUnknown, Why: "no fill is open", Limit: s.Site.DropLimit()}
	if x.Open {
		x.PH = judge(s, b, x.Life, x.Now).Judgement
		if t, at, ok := soFar(x.Life, x.Now).Measured(); ok {
			x.Temp = &Temp{C: t.BathC, At: at, HeaterOn: t.Heat}
		}
		x.Level.VolumeL, x.Level.At, x.Level.Known = x.Life.Level(b.Tank)
		x.Level.VolumeL = max(0, x.Level.VolumeL) // an imported line may say that more was missing than there is
	}
	if x.Open {
		x.vessel = learnVessel(s.Site, b.Tank, x.Life)
		x.About = x.about()
	}
	x.Trend = x.trend()
	if x.PH.State == PHWatch || x.deciding() {
		if o, err := x.Outlook(); err == nil {
			x.Soap = &o
		}
	}
	x.Shift = s.Shifts().At(x.Now)
	x.OnDuty = s.OnDuty(x.Shift.Platoon)
	x.Next = next(x)
	return x, nil
}

// Set is the set point in force: the last one logged in this fill, or the
// tank's.
func (x *Snapshot) Set() units.Temperature {
	if !x.Open {
		return x.Bath.Tank.Set()
	}
	return x.Life.Set(x.Bath.Tank)
}

// day is the duty day that t belongs to.
func (x *Snapshot) day(t time.Time) (start, end time.Time) {
	return x.State.Shifts().Day(t.In(x.Now.Location()))
}
