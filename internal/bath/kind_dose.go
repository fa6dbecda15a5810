package bath

import "bathside/internal/units"

// Dose is detergent added: the first dose of a fill, or a top-up.
type Dose struct {
	VolumeL units.Volume `json:"volume_l"`
	Product string       `json:"product,omitzero"` // the tank's, where left out
	Lot     string       `json:"lot,omitzero"`
}

var doseSpec = &Spec{
	Kind: "dose", Title: "Soap added", Scope: OfFill, Role: Crew, held: true,
	New: func() Body { return new(Dose) },
	Fields: []Field{
		field("volume", "volume", "2gal", func(d *Dose) *units.Volume { return &d.VolumeL }).help("pour slowly, cap and seal off first; count the empties"),
		field("lot", "lot", "L2231", func(d *Dose) *string { return &d.Lot }).optional("from the container"),
		field("product", "product", "alkaline liquid", func(d *Dose) *string { return &d.Product }).optional("the same as before, if left out"),
	},
}

func (d *Dose) spec() *Spec { return doseSpec }

func (d *Dose) check(v view, _ Entry) error {
	t := v.b.Tank
	if d.VolumeL <= 0 {
		return refuse("missing", "how much soap went in? Give the volume, like 2gal")
	}
	if d.Product != "" && t.Product != "" && d.Product != t.Product {
		return refuse("product", "this bath runs on %s, not %q: never mix products; a gear officer changes the product after a drain", t.Product, short(d.Product))
	}
	return checkStrength(v, d.VolumeL)
}

// checkStrength refuses more soap than the label allows in this fill.
func checkStrength(v view, soap units.Volume) error {
	t := v.b.Tank
	most := Charge(v.life.Fill.Is.VolumeL, t.Strongest, v.s.Site.InWater())
	// Strength decides what is too strong, not the sum of the doses.
	if room := max(0, most-v.life.Strength()); most > 0 && soap > room*1.005 {
		return refuse("too-strong", "%s is beyond the strongest ratio of this product, %g to 1: at most %s more may go in; check the unit, or drain and refill",
			v.sys.vol(soap), t.Strongest, v.sys.vol(room))
	}
	if most == 0 && soap > v.life.Fill.Is.VolumeL/2 {
		return refuse("too-strong", "%s of soap in %s of water is not believable: check the unit", v.sys.vol(soap), v.sys.vol(v.life.Fill.Is.VolumeL))
	}
	return nil
}

func (d *Dose) say(sys units.System) string {
	return sys.Text(d.VolumeL) + " of soap" + suffix(", ", d.Product) + suffix(", lot ", d.Lot)
}
