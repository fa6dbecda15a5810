package cli

import (
	"fmt"
	"path/filepath"
)

// leastFree is how much room a disk should have beside what two copies of the
// station file take (our judgement, no source).
const leastFree = 64 << 20

// diskState is what the system says of the disk that a file is on.
type diskState struct {
	free    uint64 // bytes for this account
	network string // kind of network share, "" for a disk of this machine
	known   bool
}

// disk looks at the room left, and whether the disk is one of this machine.
func (x *checkup) disk() {
	d := x.diskOf(filepath.Dir(x.real))
	if !d.known {
		x.fine("disk", "How full the disk is cannot be told on this system.")
		return
	}
	if need := leastFree + 2*uint64(x.info.Size()); d.free < need {
		x.mend("disk", "make room; a full disk takes no lines", "The disk has %s free, and should have %s.", sizeSay(d.free), sizeSay(need))
	} else {
		x.fine("disk", "The disk has %s free.", sizeSay(d.free))
	}
	if d.network != "" {
		x.mend("network", "move the station file to a disk of this machine, and back it up to the share: bathside backup FOLDER",
			"The station file is on a network share (%s), where locks may not hold: two programs that write at once could damage it.", d.network)
	}
}

// sizeSay is a number of bytes as people say it.
func sizeSay(n uint64) string {
	switch {
	case n >= 1e9:
		return fmt.Sprintf("%.1f GB", float64(n)/1e9)
	case n >= 1e6:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%d kB", (n+999)/1000)
}
