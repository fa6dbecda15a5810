package bath

import (
	"fmt"
	"strings"

	"bathside/internal/units"
)

// Where liquid goes.
const (
	RouteSewer  = "sewer"
	RouteHauler = "hauler"
	RouteHold   = "hold"  // kept until the authority has answered
	RouteTrash  = "trash" // for cartridges, where somebody has said so
)

// Drain ends a fill: what left, how it was, and where it went.
type Drain struct {
	VolumeL units.Volume       `json:"volume_l"`
	PH      *units.PH          `json:"ph,omitzero"`       // of a cooled sample, raw
	SampleC *units.Temperature `json:"sample_c,omitzero"` // of that sample
	LiquidC *units.Temperature `json:"liquid_c,omitzero"` // of what ran out
	Oil     *bool              `json:"oil,omitzero"`      // free oil seen
	Route   string             `json:"route"`
	Witness string             `json:"witness,omitzero"`
	Locked  *bool              `json:"locked,omitzero"`  // heater and ultrasound, before it was opened
	Paper   string             `json:"paper,omitzero"`   // the hauler's bill or manifest, the laboratory's report
	Allowed string             `json:"allowed,omitzero"` // by whom, where the bath was contaminated
	Under   string             `json:"under,omitzero"`   // the permission, as it was on file
	Outside []string           `json:"outside,omitzero"`
}

var drainSpec = &Spec{
	Kind: "drain", Title: "Drain the bath", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Drain) },
	Fields: []Field{
		field("volume", "volume", "64gal", func(d *Drain) *units.Volume { return &d.VolumeL }).help("heater and ultrasound off, locked out; skin and eyes covered"),
		field("ph", "pH, cooled cup", "9.40", func(d *Drain) **units.PH { return &d.PH }).optional("of a sample cooled to 68 to 86 °F; as read"),
		field("sample", "sample at", "77F", func(d *Drain) **units.Temperature { return &d.SampleC }).optional("temperature of that sample"),
		field("liquid", "liquid at", "98F", func(d *Drain) **units.Temperature { return &d.LiquidC }).optional("as it ran out; hot liquid burns"),
		field("oil", "free oil", "no", func(d *Drain) **bool { return &d.Oil }).optional("oil seen on top"),
		field("route", "where to", "sewer", func(d *Drain) *string { return &d.Route }).words(RouteSewer, RouteHauler, RouteHold).help("hold: kept until the authority has answered"),
		field("locked", "locked out", "yes", func(d *Drain) **bool { return &d.Locked }).optional("heater and ultrasound, before it was opened"),
		field("paper", "bill or report", "bill 2207", func(d *Drain) *string { return &d.Paper }).optional("number of the hauler's bill or manifest, or of the laboratory's report"),
		field("allowed", "allowed by", "R. Quill, sewer district", func(d *Drain) *string { return &d.Allowed }).optional("contaminated: who said that it may leave"),
		field("witness", "witness", "Ana Reyes", func(d *Drain) *string { return &d.Witness }).optional("who saw it"),
	},
}

func (d *Drain) spec() *Spec { return drainSpec }

func (d *Drain) check(v view, e Entry) error {
	if d.VolumeL <= 0 || d.VolumeL > v.b.Tank.VolumeL*1.1 {
		return refuse("input", "%s drained is not possible: this tank holds %s to the mark; check the unit", v.sys.vol(d.VolumeL), v.sys.vol(v.b.Tank.VolumeL))
	}
	if d.PH != nil && (*d.PH < 0 || *d.PH > 14) {
		return refuse("input", "a pH of %.2f is outside 0 to 14: read it again", float64(*d.PH))
	}
	if d.SampleC != nil {
		if err := checkLiquid("a sample", *d.SampleC, v.sys); err != nil {
			return err
		}
	}
	if d.LiquidC != nil {
		if err := checkLiquid("a bath", *d.LiquidC, v.sys); err != nil {
			return err
		}
	}
	return d.inOrder(v, e)
}

// inOrder keeps drains in the order of the fills that they end.
func (d *Drain) inOrder(v view, e Entry) error {
	l, ok := v.b.LastLife()
	switch {
	case !ok:
		return nil
	case l.Drain == nil && e.At.Before(l.Fill.At) && !l.Fill.At.After(v.now):
		return refuse("order", "%s is before the open fill, which began %s: a drain comes after it; check the time", v.s.day(e.At), v.s.day(l.Fill.At))
	case l.Drain != nil && e.At.Before(l.Drain.At) && !l.Drain.At.After(v.now):
		return refuse("order", "%s is before the last drain, %s (line %d), and the tank has stood empty since: check the time, or cross that line out first", v.s.day(e.At), v.s.day(l.Drain.At), l.Drain.Seq)
	}
	return nil
}

// outside lists what the drain passed over. Local rules and the holder of the
// permission come first; the console knows only what is on file.
func (d *Drain) outside(v view, e Entry) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if !v.open {
		add("no fill was open")
	} else if t, ok := v.life.Temp(); ok && t.Is.Heat != nil && *t.Is.Heat {
		add("the heater was last logged as on")
	}
	if m, err := v.s.Member(e.By); err == nil && m.Role != Officer {
		add("%s is %s: draining is for a gear officer", m.Name, m.Role.Say())
	}
	if d.Locked != nil && !*d.Locked {
		add("heater and ultrasound were not locked out")
	}
	for _, c := range d.LimitChecks(v.s, v.b, e) {
		if c.Is != Passes {
			out = append(out, c.Say)
		}
	}
	if d.Route == RouteSewer && v.open && v.life.thinned() {
		add("water went in after the drain was signed: " + NoDilution)
	}
	return out
}

// thinned reports whether water went in after the last decision, which was to
// drain. What evaporated is made up before it.
func (l Life) thinned() bool {
	d, ok := last(Of[*Decision](l.Entries))
	if !ok || d.Is.Choice != ChoiceDrain {
		return false
	}
	for _, w := range Of[*Water](l.Entries) {
		if w.Is.VolumeL > 0 && w.Is.Cause != CauseEvaporation && d.Before(w.Entry) {
			return true
		}
	}
	return false
}

// NamePermission puts into a drain what is on file for its way, for the line
// that is about to be written: a later permission rewrites no history.
func (s *State) NamePermission(d *Drain) {
	d.Under = ""
	if p, ok := s.Permission(StreamLiquid, d.Route); ok {
		d.Under = strings.Join(append([]string{p.Source()}, p.Limits(s.System())...), ", ")
	}
}

// SetOutside marks what the drain passed over, before it is recorded.
func (d *Drain) SetOutside(why []string) { d.Outside = why }

func (d *Drain) say(sys units.System) string {
	s := sys.Text(d.VolumeL) + " drained to " + d.Route
	if d.PH != nil {
		s += fmt.Sprintf(", pH %.2f", float64(*d.PH))
		if d.SampleC != nil {
			s += " at " + sys.Text(*d.SampleC)
		}
	}
	if d.LiquidC != nil {
		s += ", liquid at " + sys.Text(*d.LiquidC)
	}
	if d.Oil != nil && *d.Oil {
		s += ", free oil on it"
	}
	s += suffix(", seen by ", d.Witness) + suffix(", paper ", d.Paper) + suffix(", allowed by ", d.Allowed) + suffix(" · under ", d.Under)
	return s + outsideSay(d.Outside)
}

// applyBath holds back what was not sent on.
func (d *Drain) applyBath(b *Bath, e Entry) {
	b.keep(e, d.Route, Waste{Stream: StreamLiquid, VolumeL: d.VolumeL})
}
