package advise

import (
	"fmt"

	"bathside/internal/bath"
)

// WhyNot says why an entry of a kind cannot be made now, as far as that does
// not hang on what is in it; "" where it can.
func (x *Snapshot) WhyNot(kind bath.Kind) string {
	run := x.Bath.Run
	running := run != nil && run.Ended == nil
	switch kind {
	case "fill":
		if x.Open {
			return fmt.Sprintf("bath %d is open: it is drained first", x.Life.Number)
		}
	case "start":
		if x.Bath.Tag != nil {
			return "the bath is red-tagged: a gear officer lifts it"
		}
	case "pause":
		if !running || run.Paused != nil {
			return "no wash is running"
		}
	case "resume":
		if run == nil || run.Paused == nil {
			return "no wash is paused"
		}
	case "abort":
		if !running {
			return "no wash is in the bath"
		}
	case "release":
		if x.Bath.Tag == nil {
			return "no red tag hangs on the bath"
		}
	case "drain", "decision":
		return x.whyNoFill()
	}
	if spec, ok := bath.SpecOf(kind); ok && spec.Scope == bath.OfFill {
		return x.whyNoFill()
	}
	return ""
}

func (x *Snapshot) whyNoFill() string {
	if x.Open {
		return ""
	}
	return "the bath is empty: log the fill first"
}
