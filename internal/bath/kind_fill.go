package bath

import "bathside/internal/units"

// Fill opens a life of the bath: water to the mark.
type Fill struct {
	VolumeL  units.Volume       `json:"volume_l"`
	WaterC   *units.Temperature `json:"water_c,omitzero"`
	Hardness *float64           `json:"hardness_mgl,omitzero"` // mg/L as CaCO3
}

var fillSpec = &Spec{
	Kind: "fill", Title: "Fill the bath", Scope: OfBath, Role: Crew,
	New: func() Body { return new(Fill) },
	Fields: []Field{
		field("volume", "volume", "64gal", func(f *Fill) *units.Volume { return &f.VolumeL }).help("what stands in the tank, to the mark"),
		field("water", "water at", "60F", func(f *Fill) **units.Temperature { return &f.WaterC }).optional("as it ran in; gives the time the bath is ready"),
		field("hardness", "hardness", "120", func(f *Fill) **float64 { return &f.Hardness }).optional("mg/L as CaCO3, where it is known"),
	},
}

func (f *Fill) spec() *Spec { return fillSpec }

func (f *Fill) check(v view, e Entry) error {
	if v.open {
		return refuse("fill-open", "fill %d is still open since %s: log its drain first, then the new fill", v.life.Number, v.s.day(v.life.Fill.At))
	}
	if l, ok := v.b.LastLife(); ok && e.At.Before(l.Drain.At) && !l.Drain.At.After(v.now) {
		return refuse("order", "%s is before the last drain, %s: a fill comes after it; check the time", v.s.day(e.At), v.s.day(l.Drain.At))
	}
	full := v.b.Tank.VolumeL
	switch {
	case f.VolumeL <= 0:
		return refuse("missing", "how much went in? Give the volume, like 64gal")
	case f.VolumeL > full*1.005: // what is read off a mark is no better than half a percent
		return refuse("too-full", "%s is beyond the mark: this tank holds %s; check the unit, or correct the tank", v.sys.vol(f.VolumeL), v.sys.vol(full))
	case f.VolumeL < v.b.Tank.LowL:
		return refuse("too-low", "%s leaves the heater dry: it needs %s; fill to the mark", v.sys.vol(f.VolumeL), v.sys.vol(v.b.Tank.LowL))
	}
	if f.WaterC != nil {
		return checkLiquid("water", *f.WaterC, v.sys)
	}
	return nil
}

func (f *Fill) say(sys units.System) string {
	s := "fresh water, " + sys.Text(f.VolumeL)
	if f.WaterC != nil {
		s += " at " + sys.Text(*f.WaterC)
	}
	return s
}
