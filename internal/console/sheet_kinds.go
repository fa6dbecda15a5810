package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
)

// kindsSheet lists every kind of entry, and after them setting a PIN; enter
// opens the form.
type kindsSheet struct{ menu }

func newKinds(t *theme) *kindsSheet {
	return &kindsSheet{menu{t: t, all: kindOffers()}}
}

// kindOffers are the forms of all kinds but crossing out, which needs a line:
// the log book has it.
func kindOffers() (all []offer) {
	for _, spec := range bath.Specs() {
		if spec.Kind == "strike" {
			continue
		}
		o := offer{key: keyFor(spec.Kind), say: spec.Title, words: string(spec.Kind) + " " + alsoCalled[spec.Kind], do: openForm{kind: spec.Kind}}
		if spec.Role != bath.Crew {
			o.right = spec.Role.Say()
		}
		all = append(all, o)
	}
	return append(all, offer{say: "Set a PIN", words: "code password", do: openSetPIN{}})
}

// alsoCalled is what else somebody may type for a kind.
var alsoCalled = map[bath.Kind]string{
	"reading": "measure sample probe", "temp": "temperature heat warm", "dose": "soap detergent top up top-up", "water": "level mark make-up refill",
	"filter": "pump", "start": "ultrasound cycle run", "wash": "ultrasound cycle result run", "degas": "bubbles run empty",
	"decision": "top up drain keep sign", "hold": "lock out do not use", "release": "back in service", "media": "cartridge",
	"intake": "smoke blood asbestos foam", "gear-hold": "out of use", "calibration": "meter buffer dip slope", "stock": "shelf jugs order",
	"duty": "foil eyewash inspection", "handover": "note next shift", "member": "people crew roster add", "tank": "volume heater soap ratio",
	"procedure": "maker's paper limit", "setting": "units shift prices clock", "spill": "floor leak", "ready": "back in service certificate",
}

func (s *kindsSheet) title() string { return "Log anything" }

func (s *kindsSheet) bindings() []key.Binding {
	return []key.Binding{bind("enter", "open its form", "enter"), keys.find, keys.up, keys.down, keys.esc}
}

func (s *kindsSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok:
		return nil
	case key.Matches(k, keys.esc):
		return closeSheet{}
	}
	return s.key(k)
}

// keyFor is the key that opens the form of a kind from anywhere, or the screen
// with it; else "".
func keyFor(k bath.Kind) string {
	for _, kk := range kindKeys {
		if kk.kind == k {
			return kk.key.Help().Key
		}
	}
	if k == "decision" {
		return keys.decide.Help().Key
	}
	return ""
}
