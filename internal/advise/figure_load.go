package advise

import "fmt"

// Figures are those of a load, for whoever asks where its minutes come from.
func (l Loading) Figures(x *Snapshot) []Figure {
	if len(l.Start.Items) == 0 {
		return nil
	}
	out := []Figure{l.minutesFigure(x), l.heatFigure(x), {
		ID: "mass", Name: "The load weighs", Value: x.Sys.Text(l.Mass), Also: "mass weight heavy",
		How:    "the sum of its items; at most half of what the water weighs, or the bath cools and the sound is swallowed",
		From:   []string{"most for this bath: " + x.Sys.Text(l.MostMass)},
		Source: "a general purpose manual; the items' own masses stand in the catalog",
	}, {
		ID: "pushed", Name: "It pushes the water up by", Value: x.Sys.Volume(l.Up), Also: "overflow displacement freeboard",
		How:  "the volume of what sinks, and all of what floats under a lid",
		From: []string{"room above the mark: " + x.roomSay(l)},
	}}
	return out
}

func (x *Snapshot) roomSay(l Loading) string {
	if l.Room == 0 {
		return notKnown + ", the tank's freeboard is not set"
	}
	return x.Sys.Volume(l.Room)
}

func (l Loading) minutesFigure(x *Snapshot) Figure {
	return Figure{
		ID: "minutes", Name: "Minutes of the load", Value: fmt.Sprintf("%g min, %g at most", l.Minutes, l.Longest), Also: "time how long timer",
		How: fmt.Sprintf("the longest that anything in it wants at the set point, times %g for each 10 °C that the bath is cooler, never beyond the shortest longest time of anything in it",
			x.State.Site.Lengthen()),
		From: []string{fmt.Sprintf("wanted %g min; no longer than %g min for %s", l.Wanted, l.Longest, l.Shortest)}, Source: "times of the item types: see the cards; the factor is from memory, unless the station set it",
	}
}

func (l Loading) heatFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "heat", Name: "Hottest allowed for the load", Value: "no limit is known for it", Also: "limit temperature hot",
		How: "the lowest limit of anything in it, against the higher of what was measured and where the heater takes it during the wash",
	}
	if l.LimitOf != "" {
		f.Value = fmt.Sprintf("%s, for %s", l.Limit.Printed, l.LimitOf)
		f.Source = l.Limit.Source
	}
	f.From = []string{"the bath will be at " + x.Sys.Temp(l.Hottest)}
	return f
}
