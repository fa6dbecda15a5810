package station

import (
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// PINError is why a PIN was not taken; its text is a sentence for the crew. It
// counts as a *bath.Refusal with the same ID, and never holds the PIN.
type PINError struct {
	ID     string    // "pin-missing", "pin-wrong", "pin-locked", "pin-none" or "pin-damaged"
	Member string    // whose PIN
	Left   int       // "pin-wrong": tries left before it is locked
	Until  time.Time // "pin-locked"

	say string
}

// Error is the sentence.
func (e *PINError) Error() string { return e.say }

// Unwrap is the refusal that it amounts to.
func (e *PINError) Unwrap() error { return &bath.Refusal{ID: e.ID, Say: e.say} }

// pinSayer finds the words for what is wrong with the PIN of a member.
type pinSayer struct {
	bath.Member
	zone  *time.Location
	times units.Times
}

func (p pinSayer) error(id, format string, args ...any) *PINError {
	return &PINError{ID: id, Member: p.Name, say: fmt.Sprintf(format, args...)}
}

func (p pinSayer) missing(act string) *PINError {
	return p.error("pin-missing", "%s asks for the PIN of %s: type it, or give it in $BATHSIDE_PIN where there is no terminal", act, p.Name)
}

func (p pinSayer) none() *PINError {
	return p.error("pin-none", "%s has no PIN yet: have %s set one", p.Name, p.whom())
}

func (p pinSayer) damaged() *PINError {
	return p.error("pin-damaged", "the PIN of %s is damaged in the file, and none can be checked against it: have %s set a new one", p.Name, p.whom())
}

func (p pinSayer) wrong(r pinRecord) *PINError {
	left := tries - r.Wrong
	said := fmt.Sprintf("%d tries are left", left)
	if left == 1 {
		said = "one try is left"
	}
	e := p.error("pin-wrong", "that is not the PIN of %s: %s before it is locked for %d min; type it again, or have %s set a new one",
		p.Name, said, int(r.nextLock().Minutes()), p.whom())
	e.Left = left
	return e
}

// lockedNow is for the try that brought the lock.
func (p pinSayer) lockedNow(r pinRecord) *PINError {
	e := p.locked(r)
	e.say = fmt.Sprintf("that is not the PIN of %s, for the %dth time: it is locked until %s; wait, or have %s set a new one",
		p.Name, tries, p.clock(r), p.whom())
	return e
}

// locked is for tries that came while it was locked.
func (p pinSayer) locked(r pinRecord) *PINError {
	e := p.error("pin-locked", "the PIN of %s is locked until %s after wrong tries: wait, or have %s set a new one", p.Name, p.clock(r), p.whom())
	e.Until = r.until().In(p.zone)
	return e
}

// clock is the end of the lock, to the next full minute.
func (p pinSayer) clock(r pinRecord) string {
	return p.times.Clock(r.until().Add(time.Minute - time.Nanosecond).In(p.zone))
}

// whom is who can help.
func (p pinSayer) whom() string {
	if p.Role == bath.Officer {
		return "another gear officer, or bathside setup --reset-pin,"
	}
	return "a gear officer"
}
