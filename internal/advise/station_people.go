package advise

import (
	"strings"

	"bathside/internal/bath"
)

// memberPart is who is on the roster. Their role is not filled in: giving it
// anew would forget what they practised.
func (x *Snapshot) memberPart() Part {
	p := Part{
		ID: "members", Name: "Members", None: "Nobody is on the roster yet.",
		Add: &Value{Label: "add a member", Kind: "member", Field: "name"},
	}
	for _, m := range x.State.Members {
		if m.Left {
			continue
		}
		v := Value{
			Label: m.Name, Is: memberSay(m), From: fromNobody, Help: "role, platoon and initials; and whether they have left",
			Kind: "member", Field: "role", Preset: filledIn(&m, "member", x.Sys),
		}
		delete(v.Preset, "role")
		if o, ok := x.State.SetBy("member", m.Name, "name"); ok {
			v.From = x.wordOf(o.By, o.At)
		}
		p.Values = append(p.Values, v)
	}
	return p
}

// memberSay is what a member may do, and when they are on: "key holder,
// platoon A".
func memberSay(m bath.Member) string {
	say := strings.TrimPrefix(m.Role.Say(), "a ")
	if m.Platoon == "" {
		return say + ", on every duty list"
	}
	return say + ", platoon " + m.Platoon
}

// pinPart is who has a PIN.
func (x *Snapshot) pinPart(pins map[string]bool) Part {
	p := Part{ID: "pins", Name: "PINs", None: "Nobody is on the roster yet."}
	for _, m := range x.State.Members {
		if m.Left {
			continue
		}
		v := Value{Label: m.Name, Is: "none", From: "may be acted for by anyone", Help: "what is done in their name asks for no PIN", Kind: KindPIN, Field: m.Name}
		if pins[m.Name] {
			v.Is, v.From, v.Help = "has one", "asked for where their role is needed", "a new one is signed with the old one, or by a gear officer"
		}
		p.Values = append(p.Values, v)
	}
	return p
}
