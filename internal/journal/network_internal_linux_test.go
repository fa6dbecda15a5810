package journal

import (
	"path/filepath"
	"testing"
)

// The numbers are those of the kernel's include/uapi/linux/magic.h.
func TestSharesByNumber(t *testing.T) {
	for _, test := range []struct {
		name   string
		number int64
		want   string
	}{
		{"NFS", 0x6969, "NFS"},
		{"SMB", 0x517B, "SMB"},
		{"SMB2", 0xFE534D42, "SMB2"},
		{"SMB2 as a negative word", -0x01ACB2BE, "SMB2"},
		{"CIFS", 0xFF534D42, "CIFS"},
		{"CIFS as a negative word", -0x00ACB2BE, "CIFS"},
		{"9P", 0x01021997, "9P"},
		{"ext4", 0xEF53, ""},
		{"tmpfs", 0x01021994, ""},
		{"btrfs", 0x9123683E, ""},
		{"xfs", 0x58465342, ""},
		{"overlay", 0x794C7630, ""},
		{"nothing", 0, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			if got := shareByNumber(test.number); got != test.want {
				t.Errorf("got %q, want %q", got, test.want)
			}
		})
	}
}

func TestOnNetworkSaysWhatToDo(t *testing.T) {
	const want = "/srv/station.db is on a network share (NFS): let one computer at a time use it, or keep it on a disk of the workstation and back it up to the share"
	if say, on := onShare("/srv/station.db", shareByNumber(0x6969)); !on || say != want {
		t.Errorf("got %v, %q, want %q", on, say, want)
	}
	if say, on := onShare("/srv/station.db", shareByNumber(0xEF53)); on || say != "" {
		t.Errorf("a disk: got %v, %q", on, say)
	}
}

// Of a file that is not there yet the folder above it counts.
func TestOnNetworkOfAFileThatIsNotThere(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "not", "there", "yet.db")
	if got, want := shareAt(path), shareOf(dir); got != want {
		t.Errorf("got %q, want that of the folder above, %q", got, want)
	}
	if got, want := shareAt("/proc/self/none"), shareOf("/proc/self"); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
