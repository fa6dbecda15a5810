package bath

import (
	"fmt"
	"slices"
	"time"

	"bathside/internal/units"
)

// Waste is what was kept back at a drain, a cleaning or a change of cartridge,
// until somebody said where it may go.
type Waste struct {
	Seq     uint64       `json:"seq"` // line that kept it
	At      time.Time    `json:"at"`
	Stream  string       `json:"stream"`
	VolumeL units.Volume `json:"volume_l,omitzero"`
	Stage   string       `json:"stage,omitzero"` // of a cartridge
	Foul    bool         `json:"foul,omitzero"`  // from a contaminated bath
	Sent    uint64       `json:"sent,omitzero"`  // line that sent it off; 0 while it is here
}

// Say names the waste: "64.0 gal of liquid", "filter cartridge 1".
func (w Waste) Say(sys units.System) string {
	switch w.Stream {
	case StreamLiquid:
		return sys.Text(w.VolumeL) + " of liquid"
	case StreamCartridge:
		return "filter cartridge " + w.Stage
	}
	return w.Stream
}

// Kept lists what is held back now, oldest first.
func (b *Bath) Kept() []Waste {
	return slices.DeleteFunc(slices.Clone(b.Waste), func(w Waste) bool { return w.Sent != 0 })
}

// keep holds back what a line kept.
func (b *Bath) keep(e Entry, route string, w Waste) {
	if route == RouteHold {
		w.Seq, w.At, w.Foul = e.Seq, e.At, b.foul(e, true)
		b.Waste = append(b.Waste, w)
	}
}

// spoil marks what was kept since the bath was contaminated, where that is only
// found out now.
func (b *Bath) spoil(since time.Time) {
	for i := range b.Waste {
		if w := &b.Waste[i]; !w.At.Before(since) {
			w.Foul = true
		}
	}
}

// keepsWaste refuses a correction by which what left already was never held.
func (b *Bath) keepsWaste(stands, fixed Entry) error {
	i := b.wasteAt(stands.Seq)
	if i < 0 || b.Waste[i].Sent == 0 || held(fixed.Body) {
		return nil
	}
	return refuse("rests", "line %d sent off what line %d kept, and rests on it: cross that one out first", b.Waste[i].Sent, stands.Seq)
}

// held reports whether what came out of the bath was kept back.
func held(b Body) bool {
	switch b := b.(type) {
	case *Drain:
		return b.Route == RouteHold
	case *Clean:
		return b.Sludge == RouteHold
	case *Media:
		return b.Route == RouteHold
	}
	return false
}

// forget lets go of what was sent off in a fill that is summed up.
func (b *Bath) forget() {
	b.Waste = slices.DeleteFunc(b.Waste, func(w Waste) bool {
		return w.Sent != 0 && !slices.ContainsFunc(b.Entries, func(e Entry) bool { return e.Seq == w.Sent })
	})
}

// wasteAt is the place of what line seq kept, or -1.
func (b *Bath) wasteAt(seq uint64) int {
	return slices.IndexFunc(b.Waste, func(w Waste) bool { return w.Seq == seq })
}

// foul reports whether the bath was contaminated when e happened, as far as is
// known. A fresh line belongs to the tag that hangs there, whatever its time.
func (b *Bath) foul(e Entry, fresh bool) bool {
	t := b.Tag
	hangs := t != nil && t.Kind == HoldContaminated
	foul := hangs && !e.At.Before(t.from(b))
	for _, x := range b.Entries {
		switch body := x.Body.(type) {
		case *Hold:
			foul = foul || body.Cause == HoldContaminated && !e.At.Before(body.since(b, x))
		case *Release:
			foul = foul && !x.Before(e)
		}
	}
	return foul || hangs && fresh
}

// since is when the contamination that h tells of came in, as far as is known.
func (h *Hold) since(b *Bath, e Entry) time.Time {
	if at := b.when(h.Wash); h.Wash != 0 && !at.IsZero() && at.Before(e.At) {
		return at
	}
	return e.At
}

// foulOutside lists what is against sending on a stream of a contaminated bath.
func foulOutside(stream, route, allowed string) (out []string) {
	switch {
	case route == RouteHold || route == "" || route == "none":
	case route == RouteSewer:
		out = append(out, fmt.Sprintf("the bath was red-tagged as contaminated: the %s never goes to the sewer", stream))
	case allowed == "":
		out = append(out, fmt.Sprintf("the bath was red-tagged as contaminated: the %s is held until the authority has answered, and nobody is named who did", stream))
	}
	return out
}
