package bath

import "bathside/internal/units"

// What happens to a PIN.
const (
	PINSet    = "set"
	PINReset  = "reset" // by set-up, unsigned
	PINWrong  = "wrong"
	PINLocked = "locked"
)

// PIN is something that happened to a member's PIN. It holds neither the PIN
// nor what a PIN is checked against. The station writes it by itself.
type PIN struct {
	Member string `json:"member"`
	Event  string `json:"event"`
}

var pinSpec = &Spec{
	Kind: "pin", Title: "What happened to a PIN", Scope: OfStation, Role: Crew, own: true,
	New: func() Body { return new(PIN) },
	Fields: []Field{
		field("member", "whose", "Ana Reyes", func(p *PIN) *string { return &p.Member }).help("the member whose PIN it is"),
		field("event", "what", PINSet, func(p *PIN) *string { return &p.Event }).words(PINSet, PINReset, PINWrong, PINLocked).help("what happened"),
	},
}

func (p *PIN) spec() *Spec { return pinSpec }

func (p *PIN) check(view, Entry) error {
	if p.Member == "" {
		return refuse("missing", "whose PIN is it? Give a name from the roster")
	}
	return nil
}

func (p *PIN) say(units.System) string {
	switch p.Event {
	case PINSet:
		return "PIN of " + p.Member + " set"
	case PINReset:
		return "PIN of " + p.Member + " set anew by set-up, unsigned"
	case PINWrong:
		return "a wrong PIN was given for " + p.Member
	}
	return "PIN of " + p.Member + " locked after wrong tries"
}

// ByItself refuses a body that the station writes by itself and nobody else
// may; nil for every other.
func ByItself(b Body) error {
	if !b.spec().own {
		return nil
	}
	return refuse("by-itself", "the station writes by itself what happens to a PIN: set one with bathside pin set, or by Set a PIN under e in the console")
}
