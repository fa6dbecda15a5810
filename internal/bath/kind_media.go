package bath

import (
	"fmt"

	"bathside/internal/units"
)

// Media is a filter cartridge changed.
type Media struct {
	Stage   string   `json:"stage"`            // 1 or 2
	Route   string   `json:"route"`            // where the old one went
	Paper   string   `json:"paper,omitzero"`   // the hauler's bill or manifest
	Allowed string   `json:"allowed,omitzero"` // by whom, where nothing is on file
	Outside []string `json:"outside,omitzero"`
}

var mediaSpec = &Spec{
	Kind: "media", Title: "Change a filter cartridge", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Media) },
	Fields: []Field{
		field("stage", "cartridge", "1", func(m *Media) *string { return &m.Stage }).words("1", "2").help("1 comes first in the flow"),
		field("route", "old one to", "hauler", func(m *Media) *string { return &m.Route }).words(RouteHauler, RouteHold, RouteTrash).help("a used cartridge may be regulated waste: ask, never guess"),
		field("paper", "bill or manifest", "bill 2207", func(m *Media) *string { return &m.Paper }).optional("number of the hauler's paper"),
		field("allowed", "allowed by", "R. Quill, county", func(m *Media) *string { return &m.Allowed }).optional("who said that it may go there, by name"),
	},
}

func (m *Media) spec() *Spec             { return mediaSpec }
func (m *Media) check(view, Entry) error { return nil }
func (m *Media) say(units.System) string {
	return fmt.Sprintf("filter cartridge %s changed, old one to %s", m.Stage, m.Route) + suffix(", paper ", m.Paper) + suffix(", allowed by ", m.Allowed) + outsideSay(m.Outside)
}
func (m *Media) stage() int { return map[string]int{"1": 0, "2": 1}[m.Stage] }

// outside lists what was sent on though it is held, or though nobody has said
// that it may be.
func (m *Media) outside(v view, e Entry) []string {
	if v.b.foul(e, e.Seq > v.s.Seq) {
		return foulOutside(StreamCartridge, m.Route, m.Allowed)
	}
	c := checks{sys: v.sys}
	p, ok := v.s.Permission(StreamCartridge, m.Route)
	switch {
	case ok:
		c.lapsed(v.s, p, e)
	case m.Route == RouteTrash && m.Allowed == "":
		c.add(Fails, "nothing is on file that a cartridge may go to the trash, and nobody is named who allowed it")
	}
	return c.say()
}

// SetOutside marks what the change passed over, before it is recorded.
func (m *Media) SetOutside(why []string) { m.Outside = why }

// applyBath starts the hours of the new cartridge: those since it was changed,
// though it may be logged late. The old one is held back where it was not sent
// on.
func (m *Media) applyBath(b *Bath, e Entry) {
	b.keep(e, m.Route, Waste{Stream: StreamCartridge, Stage: m.Stage})
	i := m.stage()
	if e.At.Before(b.MediaAt[i]) {
		return
	}
	b.MediaAt[i], b.FilterS[i] = e.At, 0
	for _, f := range Of[*Filter](b.Entries) {
		if f.At.After(e.At) {
			b.FilterS[i] += f.Is.Time
		}
	}
}
