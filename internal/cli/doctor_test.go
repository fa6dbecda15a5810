package cli

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestDoctorOnDisks(t *testing.T) {
	path := newStationFile(t)
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	const gb = 1e9
	least := leastFree + 2*uint64(info.Size())
	tests := []struct {
		name string
		disk diskState
		want []string // states and beginnings
	}{
		{"roomy", diskState{free: 2 * gb, known: true}, []string{"fine The disk has 2.0 GB free."}},
		{"just enough", diskState{free: least, known: true}, []string{"fine The disk has " + sizeSay(least) + " free."}},
		{"a byte less", diskState{free: least - 1, known: true}, []string{"mend The disk has " + sizeSay(least-1) + " free, and should have"}},
		{"full", diskState{known: true}, []string{"mend The disk has 0 kB free, and should have"}},
		{"on a share", diskState{free: 2 * gb, network: "NFS", known: true}, []string{"fine The disk has", "mend The station file is on a network share (NFS), where locks may not hold"}},
		{"not to be told", diskState{}, []string{"fine How full the disk is cannot be told"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := &checkup{app: new(app), real: path, info: info, diskOf: func(string) diskState { return tt.disk }}
			x.disk()
			var got []string
			for i, f := range x.findings {
				said := f.State + " " + f.Say
				if i < len(tt.want) && strings.HasPrefix(said, tt.want[i]) {
					said = tt.want[i]
				}
				if got = append(got, said); f.State == stateMend && f.Do == "" {
					t.Errorf("%q says nothing of what to do", f.Say)
				}
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// The disk of a test is one of this machine, with some room.
func TestDiskOfThisMachine(t *testing.T) {
	d := diskOf(t.TempDir())
	if d.known && d.free == 0 {
		t.Errorf("got %+v", d)
	}
	if none := diskOf("/nowhere/at/all"); none.known {
		t.Errorf("of a folder that is not there: got %+v", none)
	}
}

func TestSizeSay(t *testing.T) {
	for n, want := range map[uint64]string{0: "0 kB", 1: "1 kB", 1000: "1 kB", 999_999: "1000 kB", 1_000_000: "1.0 MB", 33_000_000: "33.0 MB", 1_500_000_000: "1.5 GB"} {
		if got := sizeSay(n); got != want {
			t.Errorf("%d: got %s, want %s", n, got, want)
		}
	}
}
