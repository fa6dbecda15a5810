package bath

import (
	"slices"
	"strings"
)

// Kind is the name of a kind of entry, as the journal stores it.
type Kind string

// Scope says what an entry belongs to.
type Scope int

// The scopes of an entry.
const (
	OfStation Scope = iota // settings, members, duties: no bath
	OfBath                 // a bath, with or without a fill in it
	OfFill                 // an open fill: refused where there is none
)

// Spec describes a kind of entry: everything a face needs to ask for one.
type Spec struct {
	Kind   Kind
	Title  string // "Record a pH reading"
	Scope  Scope
	Role   Role // the least role that may record it
	Fields []Field
	New    func() Body
	usual  Body // see Usual

	// held marks a kind whose entries State keeps as they are, so that
	// crossing one out needs no new fold from the first entry.
	held bool
	// own marks a kind that the station writes by itself: no face asks for one.
	own bool
}

// specs is every kind of entry, in the order a menu shows them.
var specs = []*Spec{
	readingSpec, tempSpec, doseSpec, waterSpec, filterSpec, startSpec, pauseSpec, resumeSpec, abortSpec, washSpec, careSpec, readySpec, degasSpec,
	titrationSpec, decisionSpec, fillSpec, drainSpec, cleanSpec, spillSpec, holdSpec, releaseSpec, mediaSpec, disposalSpec, dischargeSpec,
	intakeSpec, gearSpec, gearHoldSpec, gearReleaseSpec, inspectSpec, calibrationSpec, stockSpec, dutySpec, handoverSpec, practiceSpec, memberSpec, tankSpec, basketSpec, procedureSpec, settingSpec, strikeSpec, pinSpec,
}

// Specs lists every kind of entry that somebody may make, in the order a menu
// shows them.
func Specs() []*Spec {
	return slices.DeleteFunc(slices.Clone(specs), func(s *Spec) bool { return s.own })
}

// SpecOf finds the spec of any kind.
func SpecOf(k Kind) (*Spec, bool) {
	i := slices.IndexFunc(specs, func(s *Spec) bool { return s.Kind == k })
	if i < 0 {
		return nil, false
	}
	return specs[i], true
}

// Field finds a field by name.
func (s *Spec) Field(name string) (Field, bool) {
	i := slices.IndexFunc(s.Fields, func(f Field) bool { return f.Name == name })
	if i < 0 {
		return Field{}, false
	}
	return s.Fields[i], true
}

func kindNames() string {
	var names []string
	for _, s := range Specs() {
		names = append(names, string(s.Kind))
	}
	return strings.Join(names, ", ")
}
