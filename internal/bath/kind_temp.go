package bath

import "bathside/internal/units"

// Temp is a measured bath temperature.
type Temp struct {
	BathC units.Temperature  `json:"bath_c"`
	SetC  *units.Temperature `json:"set_c,omitzero"` // the heater's set point, where it was changed
	Heat  *bool              `json:"heat,omitzero"`  // is the heater on?
}

var tempSpec = &Spec{
	Kind: "temp", Title: "Record the bath temperature", Scope: OfFill, Role: Crew, held: true,
	New: func() Body { return new(Temp) },
	Fields: []Field{
		field("bath", "bath at", "118F", func(t *Temp) *units.Temperature { return &t.BathC }).help("measured, not the dial"),
		field("set", "set point", "122F", func(t *Temp) **units.Temperature { return &t.SetC }).optional("if it was changed: confirmed, not only dialled"),
		field("heat", "heater on", "yes", func(t *Temp) **bool { return &t.Heat }).optional("if you know"),
	},
}

func (t *Temp) spec() *Spec { return tempSpec }

func (t *Temp) check(v view, _ Entry) error {
	if err := checkLiquid("a bath", t.BathC, v.sys); err != nil {
		return err
	}
	if t.SetC == nil {
		return nil
	}
	if err := checkLiquid("a set point", *t.SetC, v.sys); err != nil {
		return err
	}
	if most := v.b.Tank.Max(); *t.SetC > most {
		set, may := v.sys.pair(*t.SetC, most)
		return refuse("too-hot", "a set point of %s is above the hottest allowed here, %s: set it lower, or a gear officer changes the tank", set, may)
	}
	return nil
}

func (t *Temp) say(sys units.System) string {
	s := "bath at " + sys.Text(t.BathC)
	if t.SetC != nil {
		s += ", set to " + sys.Text(*t.SetC)
	}
	if t.Heat != nil {
		s += ", heater " + map[bool]string{true: "on", false: "off"}[*t.Heat]
	}
	return s
}
