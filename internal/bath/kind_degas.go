package bath

import "bathside/internal/units"

// Degas is the bath run empty to clear bubbles.
type Degas struct {
	Time units.Span `json:"time_s"`
}

var degasSpec = &Spec{
	Kind: "degas", Title: "Run empty to clear bubbles", Scope: OfFill, Role: KeyHolder, held: true,
	New: func() Body { return new(Degas) },
	Fields: []Field{
		field("time", "how long", "15min", func(d *Degas) *units.Span { return &d.Time }).help("soap in and warm; until no more fine bubbles rise"),
	},
}

func (d *Degas) spec() *Spec                 { return degasSpec }
func (d *Degas) check(v view, _ Entry) error { return checkTime("degas", d.Time, 4*3600, v.sys) }
func (d *Degas) say(sys units.System) string { return "run empty for " + sys.Text(d.Time) }
