package bath

import "bathside/internal/units"

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
