package bath

import (
	"bathside/internal/catalog"
	"bathside/internal/units"
)

// LoadOf is so many of an item type, with the limits that the catalog of the
// day has for it.
func LoadOf(item catalog.Item, n int) Load {
	hottest := item.Limit.Hottest()
	return Load{
		Item: item.ID, Count: n, Name: item.Name, LimitC: &hottest, Limit: item.Limit.Printed, Source: item.Limit.Source,
		Longest: units.Minutes(item.Minutes.Longest),
		Floats:  item.Floats, MassKg: item.Mass, DisplacesL: item.Displaces,
	}
}

// MassOf is what loads weigh together.
func MassOf(loads []Load) (kg units.Mass) {
	for _, l := range loads {
		kg += units.Mass(l.Count) * l.MassKg
	}
	return kg
}

// Pushed is the volume of water that loads push up together.
func Pushed(loads []Load) (up units.Volume) {
	for _, l := range loads {
		up += units.Volume(l.Count) * l.DisplacesL
	}
	return up
}

// MostMass is the most that a load may weigh in the bath of a fill: half of
// what the water does (a general purpose manual).
func (l Life) MostMass() units.Mass {
	return units.Mass(l.Fill.Is.VolumeL) / 2 // a litre of water is about a kilogram
}

// Peak is the hottest that the bath of a fill gets in a wash of so long, from
// a temperature: where the heater takes it, unless that is logged as off.
func (l Life) Peak(t Tank, from units.Temperature, long units.Span) units.Temperature {
	if l.HeaterOff() {
		return from
	}
	level, _, _ := l.Level(t)
	return Peak(from, l.Set(t), t.Heater(), level, long)
}
