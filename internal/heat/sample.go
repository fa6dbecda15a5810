package heat

import (
	"slices"
	"time"

	"bathside/internal/units"
)

// Switch is what a log says of the heater; mostly it says nothing.
type Switch int

// The states of a heater.
const (
	Unsaid Switch = iota
	Off
	On
)

// Sample is a measured temperature of the bath, as a station logs it: to a
// whole degree, now and then.
type Sample struct {
	At     time.Time
	Bath   units.Temperature
	Heater Switch
}

// tidy is the log in order of time, one sample for a moment. Where the heater
// is not spoken of it is what it was before and after, if these agree.
func tidy(log []Sample) []Sample {
	log = slices.Clone(log)
	slices.SortStableFunc(log, func(a, b Sample) int { return a.At.Compare(b.At) })
	log = slices.CompactFunc(log, func(a, b Sample) bool { return a.At.Equal(b.At) })
	before := Unsaid
	for i, s := range log {
		if s.Heater == Unsaid && before == said(log[i:]) {
			log[i].Heater = before
		}
		if s.Heater != Unsaid {
			before = s.Heater
		}
	}
	return log
}

// said is the first state of the heater that log speaks of.
func said(log []Sample) Switch {
	for _, s := range log {
		if s.Heater != Unsaid {
			return s.Heater
		}
	}
	return Unsaid
}

// stretches cuts the log where the heater was not in that state all along, or
// where two neighbours do not follow.
func stretches(log []Sample, heater Switch, follows func(a, b Sample) bool) [][]Sample {
	var all [][]Sample
	start := 0
	for i := range log {
		next := i + 1
		if next < len(log) && log[i].Heater == heater && log[next].Heater == heater && follows(log[i], log[next]) {
			continue
		}
		if i > start {
			all = append(all, log[start:next])
		}
		start = next
	}
	return all
}
