package advise

import (
	"fmt"

	"bathside/internal/bath"
)

// disposal: where a drained bath would go is known before the drain is signed.
// It settles nothing: a bath that must go must go, if need be into drums.
func disposal(x *Snapshot, d *Decision) *finding {
	if x.contaminated() {
		return &finding{Reason{"disposal", "disposal is held: never to the sewer, and to no hauler before the authority has answered and who said so is named; the sludge and the cartridges too", 0.99}, "", nil}
	}
	if d.Choice != bath.ChoiceDrain && !x.deciding() {
		return nil
	}
	switch say, ok := x.SewerSay(); {
	case !ok && x.hauled():
		return &finding{Reason{"disposal", say + ": the hauler on file takes it, or it is held", 0.3}, "", nil}
	case !ok:
		return &finding{Reason{"disposal", say + ": ask before it is drained, or hold the liquid; do not dilute to pass", 0.3}, "", nil}
	case d.Choice == bath.ChoiceDrain:
		return &finding{Reason{"disposal", fmt.Sprintf("to the sewer by %s; the cup cooled first", say), 0.3}, "", nil}
	}
	return nil
}
