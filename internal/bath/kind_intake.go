package bath

import (
	"strings"
	"time"

	"bathside/internal/units"
)

// What gear may have met besides smoke.
const (
	ElseNone        = "none"
	ElseClassA      = "class-a-foam"     // no flag
	ElseFluorinated = "fluorinated-foam" // counted, and asked at disposal
	ElseBlood       = "blood"
	ElseAsbestos    = "asbestos"
	ElseOpioid      = "opioid"
	ElseChemical    = "chemical"
	ElseCBRN        = "cbrn"
	ElseUnknown     = "unknown"
)

// heldOut is what leaves no way into the bath, as a sentence says it.
var heldOut = map[string]string{
	ElseAsbestos: "asbestos", ElseOpioid: "an opioid", ElseChemical: "a chemical",
	ElseCBRN: "a CBRN agent", ElseUnknown: "something nobody has named",
}

// intakeStands is how long the answer for an incident stands.
const intakeStands = 24 * time.Hour

// Intake is the answer to "anything but smoke?", once for an incident.
type Intake struct {
	Else     string `json:"else"`
	Incident string `json:"incident,omitzero"`
	Rinsed   bool   `json:"rinsed,omitzero"` // blood: rinsed cool and disinfected
}

// Answer is the last intake.
type Answer struct {
	Intake
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
}

// No answer is chosen beforehand: a name alone must not give one.
var intakeSpec = &Spec{
	Kind: "intake", Title: "Anything but smoke?", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Intake) },
	Fields: []Field{
		field("else", "anything but smoke", ElseNone, func(i *Intake) *string { return &i.Else }).
			words(ElseNone, ElseClassA, ElseFluorinated, ElseBlood, ElseAsbestos, ElseOpioid, ElseChemical, ElseCBRN, ElseUnknown).help("ask who wore it; once for an incident"),
		field("incident", "incident", "house fire, Mill Road", func(i *Intake) *string { return &i.Incident }).optional("so that it is found again"),
		field("rinsed", "blood: rinsed cool", "yes", func(i *Intake) *bool { return &i.Rinsed }).optional("below 45 °C, and disinfected, before any hot bath"),
	},
}

func (i *Intake) spec() *Spec { return intakeSpec }

func (i *Intake) check(view, Entry) error { return nil }

func (i *Intake) apply(s *State, e Entry) {
	if s.Intake == nil || !e.At.Before(s.Intake.At) {
		s.Intake = &Answer{*i, e.Seq, e.At, e.By}
	}
}

func (i *Intake) say(units.System) string {
	s := "intake: " + strings.ReplaceAll(i.Else, "-", " ") + " besides smoke"
	if i.Else == ElseNone {
		s = "intake: nothing but smoke"
	}
	if i.Rinsed {
		s += ", rinsed cool and disinfected"
	}
	return s + suffix(" · ", i.Incident)
}
