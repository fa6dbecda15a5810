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
	RouteHold   = "hold" // kept until the authority has answered
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
	Outside []string           `json:"outside,omitzero"`
}

var drainSpec = &Spec{
	Kind: "drain", Title: "Drain the bath", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Drain) },
	Fields: []Field{
		field("volume", "volume", "64gal", func(d *Drain) *units.Volume { return &d.VolumeL }).help("heater and ultrasound off; skin and eyes covered"),
		field("ph", "pH, cooled cup", "9.40", func(d *Drain) **units.PH { return &d.PH }).optional("of a sample cooled to 68 to 86 °F; as read"),
		field("sample", "sample at", "77F", func(d *Drain) **units.Temperature { return &d.SampleC }).optional("temperature of that sample"),
		field("liquid", "liquid at", "98F", func(d *Drain) **units.Temperature { return &d.LiquidC }).optional("as it ran out"),
		field("oil", "free oil", "no", func(d *Drain) **bool { return &d.Oil }).optional("oil seen on top"),
		field("route", "where to", "sewer", func(d *Drain) *string { return &d.Route }).words(RouteSewer, RouteHauler, RouteHold).help("hold: kept until the authority has answered"),
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
	if d.Route == RouteSewer {
		if v.b.Tank.Sewer == "" {
			add("no permission for the sewer is on file")
		}
		if d.PH == nil || d.SampleC == nil {
			add("no pH of a cooled sample was taken")
		}
		if d.PH != nil && *d.PH >= 12.5 { // 40 CFR 261.22: corrosive waste
			add("pH %.2f is 12.5 or above: possible corrosive waste (40 CFR 261.22), not for the sewer", float64(*d.PH))
		}
		if d.PH != nil && *d.PH < 5 { // 40 CFR 403.5(b)
			add("pH %.2f is below 5.0, the federal floor for a sewer (40 CFR 403.5(b))", float64(*d.PH))
		}
	}
	if t := v.b.Tag; t != nil && t.Kind == HoldContaminated && d.Route != RouteHold {
		add("the bath was red-tagged as contaminated: it is held until the authority has answered")
	}
	return out
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
	s += suffix(", seen by ", d.Witness)
	if len(d.Outside) > 0 {
		s += " · outside the rule: " + strings.Join(d.Outside, "; ")
	}
	return s
}
