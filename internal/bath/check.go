package bath

import (
	"time"
)

// Slack is how far ahead of the clock an entry may be dated: two workstations
// are rarely set to the same second.
const Slack = 2 * time.Minute

// view is what a rule may look at: the state before the entry.
type view struct {
	s    *State
	b    *Bath // nil for entries of the station
	life Life  // the open fill; valid where open
	open bool
	now  time.Time
	sys  sysText

	restated bool // the entry is the correction of one that was taken
}

// Check says whether e may be recorded on top of s at the time now; the error
// is a *Refusal. Starting is gated, recording what happened is not: Outside
// marks what was done against the rules.
func Check(s *State, e Entry, now time.Time) error {
	spec := e.Body.spec()
	v := view{s: s, now: now, sys: sysText{s.System()}}
	if err := v.find(spec, e); err != nil {
		return err
	}
	if err := checkWho(s, spec, e); err != nil {
		return err
	}
	if e.At.After(now.Add(Slack)) {
		return refuse("future", "%s is in the future: it is %s now; give the time it happened", v.s.day(e.At), v.s.day(now.In(e.At.Location())))
	}
	if err := v.checkFill(spec, e); err != nil {
		return err
	}
	return checkBody(v, e)
}

// checkBody checks what e carries, wherever it came from: a form takes only
// what a field allows, but a body may also be read as JSON.
func checkBody(v view, e Entry) error {
	for _, f := range e.Body.spec().Fields {
		if err := f.check(e.Body); err != nil {
			return err
		}
	}
	return e.Body.check(v, e)
}

func (v *view) find(spec *Spec, e Entry) (err error) {
	if spec.Scope == OfStation {
		return nil
	}
	if v.b, err = v.s.Bath(e.Bath); err != nil {
		return err
	}
	v.life, v.open = v.b.Life()
	return nil
}

// checkFill keeps entries of a fill inside it. An open fill dated later than
// now was made by a clock that ran ahead; it does not hold up the station.
func (v view) checkFill(spec *Spec, e Entry) error {
	if spec.Scope != OfFill {
		return nil
	}
	if !v.open {
		return refuse("no-fill", "%s: no fill is open in bath %s, so there is nothing to record it on; log the fill first", spec.Title, v.b.ID)
	}
	if start := v.life.Fill.At; e.At.Before(start) && !start.After(v.now) {
		return refuse("before-fill", "%s is before the open fill, which began %s: give a time since then", v.s.day(e.At), v.s.day(start))
	}
	return nil
}

// checkWho lets a member record what their role allows. The very first member
// names themself: a station begins with its first gear officer.
func checkWho(s *State, spec *Spec, e Entry) error {
	if len(s.Members) == 0 {
		return checkFirst(e)
	}
	m, err := s.Member(e.By)
	if err != nil {
		return err
	}
	return checkRole(m, spec.Role, spec.Title)
}

func checkFirst(e Entry) error {
	m, ok := e.Body.(*Member)
	switch {
	case !ok:
		return refuse("who", "nobody is on the roster yet: run bathside setup, which makes the first gear officer")
	case e.By != m.Name:
		return refuse("who", "the first member of a station names themself, and this says it is by %q: give the same name", short(clean(e.By)))
	case m.Role != Officer:
		return refuse("role", "the first member of a station is a gear officer, not %s", m.Role.Say())
	}
	return nil
}

func checkRole(m Member, least Role, title string) error {
	if m.Role.rank() >= least.rank() {
		return nil
	}
	return refuse("role", "%s is %s: %q is for %s; ask one of them, or log it with their name", m.Name, m.Role.Say(), title, least.orAbove())
}

// Outside lists what e breaks of the rules for what may be done. Such an
// entry is kept all the same, and marked: what happened can always be written
// down.
func Outside(s *State, e Entry) []string {
	o, ok := e.Body.(interface {
		outside(v view, e Entry) []string
	})
	if !ok {
		return nil
	}
	v := view{s: s, now: e.Logged, sys: sysText{s.System()}}
	if v.find(e.Body.spec(), e) != nil {
		return nil
	}
	if e.Seq == 0 { // not written yet: it will come after everything
		e.Seq = s.Seq + 1
	}
	v.life, v.open = v.b.lifeOf(e)
	v.life = v.life.before(e)
	return o.outside(v, e)
}
