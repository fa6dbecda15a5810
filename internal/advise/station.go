package advise

import (
	"cmp"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Part is a part of the station's set-up: what is set in it, each value with
// whose word it is.
type Part struct {
	ID     string // stable: "members"
	Name   string
	Values []Value
	None   string // what there is to say while it has no values
	Add    *Value // the entry that adds to it; nil where nothing is added
}

// Value is one thing that the station has set, or has not.
type Value struct {
	Label string
	Is    string // "" where nobody said and no usual value stands for it
	From  string // whose word it is, or that nobody said
	Help  string // what it is for

	// Kind is the entry that changes it, Preset fills in the entry's form, and
	// Field is where the form begins. A PIN is no entry that anybody makes: its
	// Kind is KindPIN and Field the member.
	Kind   bath.Kind
	Field  string
	Preset map[string]string
}

// KindPIN marks a value that is changed by setting a PIN.
const KindPIN bath.Kind = "pin"

// What stands in place of whose word a value is.
const (
	fromUsual  = "usual value"
	fromNobody = "nobody set it"
)

// StationParts is the whole set-up of the station and of the bath that is
// looked at. Whether a member has a PIN is not in the log book: pins says so by
// name, and is nil where that is not known.
func (x *Snapshot) StationParts(pins map[string]bool) []Part {
	parts := append(x.tankParts(), x.settingParts()...)
	parts = append(parts, x.memberPart())
	if pins != nil {
		parts = append(parts, x.pinPart(pins))
	}
	return append(parts, x.paperPart(), x.permissionPart(), x.basketPart(), x.stockPart(), x.dutyPart(), x.meterPart())
}

// fieldValue is a field of the set-up as it stands in b: the value there, or
// the usual one. about names what b is, as State.SetBy does.
func (x *Snapshot) fieldValue(kind bath.Kind, about string, f bath.Field, b bath.Body) Value {
	spec, _ := bath.SpecOf(kind)
	v := Value{Label: f.Label, Is: f.Get(b, x.Sys), Help: cmp.Or(f.Help, "like "+f.Example), Kind: kind, Field: f.Name}
	switch o, ok := x.State.SetBy(kind, about, f.Name); {
	case v.Is != "" && ok:
		v.From = x.wordOf(o.By, o.At)
	case v.Is != "":
		v.From = fromNobody
	default:
		v.Is, v.From = f.Get(spec.Usual(), x.Sys), fromUsual
		if v.Is == "" {
			v.From = fromNobody
		}
	}
	v.Preset = map[string]string{f.Name: v.Is}
	return v
}

// wordOf is whose word something is, and since when: "Noor Haddad, 2 Mar".
func (x *Snapshot) wordOf(who string, since time.Time) string { return who + ", " + x.Date(since) }

// filledIn is a body as a form would be filled in with it.
func filledIn(b bath.Body, kind bath.Kind, sys units.System) map[string]string {
	spec, _ := bath.SpecOf(kind)
	out := map[string]string{}
	for _, f := range spec.Fields {
		if text := f.Get(b, sys); text != "" {
			out[f.Name] = text
		}
	}
	return out
}
