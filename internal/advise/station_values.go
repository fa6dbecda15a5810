package advise

import "bathside/internal/bath"

// fieldGroup is some fields of a kind that are looked at together.
type fieldGroup struct {
	id, name string
	fields   []string
}

// The values of a tank and of the settings, in groups that somebody may look
// for. Each field is in one of them.
var (
	tankGroups = []fieldGroup{
		{"tank", "Tank", []string{"name", "volume", "mark", "low", "heater", "set", "max", "surface", "freeboard", "lid", "insulated", "sewer"}},
		{"soap", "Soap", []string{"product", "ratio", "strongest", "family", "builder", "container-size", "container"}},
	}
	settingGroups = []fieldGroup{
		{"site", "Station and shifts", []string{"station", "shift", "zone", "units", "clock", "dates", "kept-hot", "hot-by", "station-mode", "mouse"}},
		{"limits", "Limits", []string{"limit", "parts", "per-10c", "filter-run", "cartridge", "most-days", "most-loads", "most-topups"}},
		{"costs", "Costs and work", []string{"soap-price", "refill-price", "hour-price", "refill-time", "topup-time"}},
	}
)

func (x *Snapshot) tankParts() []Part {
	parts := x.groups("tank", x.Bath.ID, &x.Bath.Tank, tankGroups)
	parts[0].Add = &Value{Label: "set up another tank", Kind: "tank", Field: "tank", Preset: map[string]string{"tank": "", "volume": ""}}
	if len(x.State.Baths) > 1 {
		for i := range parts {
			parts[i].Name += ", bath " + x.Bath.ID
		}
	}
	return parts
}

func (x *Snapshot) settingParts() []Part {
	return x.groups("setting", "", &x.State.Site, settingGroups)
}

func (x *Snapshot) groups(kind bath.Kind, about string, b bath.Body, groups []fieldGroup) (parts []Part) {
	spec, _ := bath.SpecOf(kind)
	for _, g := range groups {
		p := Part{ID: g.id, Name: g.name}
		for _, name := range g.fields {
			if f, ok := spec.Field(name); ok {
				p.Values = append(p.Values, x.fieldValue(kind, about, f, b))
			}
		}
		parts = append(parts, p)
	}
	return parts
}
