package bath

import (
	"fmt"

	"bathside/internal/units"
)

// Filter is a run of the filter pump.
type Filter struct {
	Time units.Span `json:"time_s"`
}

var filterSpec = &Spec{
	Kind: "filter", Title: "Filter run", Scope: OfFill, Role: Crew,
	New: func() Body { return new(Filter) },
	Fields: []Field{
		field("time", "how long", "30min", func(f *Filter) *units.Span { return &f.Time }).help("ultrasound off; see the spray return run"),
	},
}

func (f *Filter) spec() *Spec                 { return filterSpec }
func (f *Filter) check(v view, _ Entry) error { return checkTime("filter run", f.Time, 24*3600, v.sys) }
func (f *Filter) say(sys units.System) string { return "filter ran " + sys.Text(f.Time) }

func (f *Filter) applyBath(b *Bath, e Entry) {
	for i := range b.FilterS {
		if e.At.After(b.MediaAt[i]) {
			b.FilterS[i] += f.Time
		}
	}
}

// Media is a filter cartridge changed.
type Media struct {
	Stage string `json:"stage"` // 1 or 2
	Route string `json:"route"` // where the old one went
}

var mediaSpec = &Spec{
	Kind: "media", Title: "Change a filter cartridge", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Media) },
	Fields: []Field{
		field("stage", "cartridge", "1", func(m *Media) *string { return &m.Stage }).words("1", "2").help("1 comes first in the flow"),
		field("route", "old one to", "hauler", func(m *Media) *string { return &m.Route }).words("hauler", "hold", "trash").help("a used cartridge may be regulated waste: ask, never guess"),
	},
}

func (m *Media) spec() *Spec             { return mediaSpec }
func (m *Media) check(view, Entry) error { return nil }
func (m *Media) say(units.System) string {
	return fmt.Sprintf("filter cartridge %s changed, old one to %s", m.Stage, m.Route)
}
func (m *Media) stage() int { return map[string]int{"1": 0, "2": 1}[m.Stage] }

// applyBath starts the hours of the new cartridge: those since it was changed,
// though it may be logged late.
func (m *Media) applyBath(b *Bath, e Entry) {
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
