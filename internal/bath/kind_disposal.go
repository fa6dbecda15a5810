package bath

import (
	"fmt"
	"strconv"
	"strings"

	"bathside/internal/units"
)

// Disposal is held waste that left: which, by what way, and who said so.
type Disposal struct {
	Line    uint64   `json:"line"` // that kept it
	Route   string   `json:"route"`
	Allowed string   `json:"allowed,omitzero"` // by whom
	Paper   string   `json:"paper,omitzero"`   // bill or manifest
	Note    string   `json:"note,omitzero"`
	Outside []string `json:"outside,omitzero"`
}

var disposalSpec = &Spec{
	Kind: "disposal", Title: "Held waste sent off", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Disposal) },
	Fields: []Field{
		field("line", "kept by line", "41", func(d *Disposal) *uint64 { return &d.Line }).help("the line that says hold"),
		field("route", "where to", RouteHauler, func(d *Disposal) *string { return &d.Route }).words(RouteHauler, RouteSewer, RouteTrash).help("as it was allowed"),
		field("allowed", "allowed by", "R. Quill, sewer district", func(d *Disposal) *string { return &d.Allowed }).optional("who said that it may go there, by name"),
		field("paper", "bill or manifest", "bill 2207", func(d *Disposal) *string { return &d.Paper }).optional("its number"),
		field("note", "note", "two drums", func(d *Disposal) *string { return &d.Note }).optional("what else to know"),
	},
}

func (d *Disposal) spec() *Spec { return disposalSpec }

func (d *Disposal) check(v view, e Entry) error {
	i := v.b.wasteAt(d.Line)
	switch {
	case i < 0:
		return refuse("no-waste", "line %d kept nothing back in bath %s: %s", d.Line, v.b.ID, v.b.keptSay())
	case v.b.Waste[i].Sent != 0:
		return refuse("sent", "what line %d kept left already, by line %d: %s", d.Line, v.b.Waste[i].Sent, v.b.keptSay())
	case e.At.Before(v.b.Waste[i].At):
		return refuse("order", "%s is before it was kept, %s: give the time it left", v.s.day(e.At), v.s.day(v.b.Waste[i].At))
	}
	return checkWay(v.b.Waste[i].Stream, d.Route)
}

// keptSay names the lines that keep something, for a refusal.
func (b *Bath) keptSay() string {
	var lines []string
	for _, w := range b.Kept() {
		lines = append(lines, strconv.FormatUint(w.Seq, 10))
	}
	if len(lines) == 0 {
		return "nothing is held there now"
	}
	return "give one of " + strings.Join(lines, ", ")
}

// outside lists what speaks against the way it left by.
func (d *Disposal) outside(v view, e Entry) (out []string) {
	if m, err := v.s.Member(e.By); err == nil && m.Role != Officer {
		out = append(out, fmt.Sprintf("%s is %s: sending waste off is for a gear officer", m.Name, m.Role.Say()))
	}
	i := v.b.wasteAt(d.Line)
	if i < 0 {
		return out
	}
	w := v.b.Waste[i]
	if w.Foul {
		return append(out, foulOutside(w.Stream, d.Route, d.Allowed)...)
	}
	p, ok := v.s.Permission(w.Stream, d.Route)
	c := checks{sys: v.sys}
	switch {
	case ok:
		c.lapsed(v.s, p, e)
	case d.Route != RouteHauler && d.Allowed == "":
		c.add(Fails, "no permission for the %s by way of %s is on file, and nobody is named who allowed it", w.Stream, d.Route)
	}
	return append(out, c.say()...)
}

// SetOutside marks what the disposal passed over, before it is recorded.
func (d *Disposal) SetOutside(why []string) { d.Outside = why }

func (d *Disposal) applyBath(b *Bath, e Entry) {
	if i := b.wasteAt(d.Line); i >= 0 && b.Waste[i].Sent == 0 {
		b.Waste[i].Sent = e.Seq
	}
}

func (d *Disposal) say(units.System) string {
	return fmt.Sprintf("what line %d kept went to %s", d.Line, d.Route) + suffix(", allowed by ", d.Allowed) + suffix(", paper ", d.Paper) + suffix(" · ", d.Note) + outsideSay(d.Outside)
}

// outsideSay is how a line says what it passed over.
func outsideSay(why []string) string {
	return suffix(" · outside the rule: ", strings.Join(why, "; "))
}
