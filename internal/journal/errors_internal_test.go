package journal

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
	"testing"

	berrors "go.etcd.io/bbolt/errors"
)

func TestClassify(t *testing.T) {
	path := func(errno syscall.Errno) error { return &fs.PathError{Op: "write", Path: "x", Err: errno} }
	other := errors.New("something else")
	tests := []struct {
		name string
		err  error
		mode mode
		want error
	}{
		{"no file", path(syscall.ENOENT), forReading, ErrNotExist},
		{"name taken by a link", &os.LinkError{Op: "link", Err: syscall.EEXIST}, forCreating, ErrExists},
		{"no room", path(syscall.ENOSPC), forWriting, ErrFull},
		{"quota", path(syscall.EDQUOT), forWriting, ErrFull},
		{"read-only disk", path(syscall.EROFS), forWriting, ErrReadOnly},
		{"no permission to write", path(syscall.EACCES), forWriting, ErrReadOnly},
		{"no permission to create", path(syscall.EPERM), forCreating, ErrReadOnly},
		{"no permission to read", path(syscall.EACCES), forReading, ErrUnreadable},
		{"no permission to check", path(syscall.EACCES), forChecking, ErrUnreadable},
		{"larger than a file may be", path(syscall.EFBIG), forWriting, ErrFull},
		{"disk that fails", path(syscall.EIO), forReading, ErrDisk},
		{"share that went away", path(syscall.ESTALE), forReading, ErrDisk},
		{"below a file", path(syscall.ENOTDIR), forCreating, ErrNoPlace},
		{"links in a circle", path(syscall.ELOOP), forReading, ErrNoPlace},
		{"endless name", path(syscall.ENAMETOOLONG), forReading, ErrNoPlace},
		{"lock held", berrors.ErrTimeout, forWriting, ErrInUse},
		{"ours already", ErrNewer, forWriting, ErrNewer},
		{"unknown", other, forWriting, other},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := classify(test.err, test.mode)
			if !errors.Is(got, test.want) || !errors.Is(got, test.err) {
				t.Errorf("got %v, want %v, with the cause", got, test.want)
			}
			if test.mode == forReading && errors.Is(got, ErrReadOnly) {
				t.Errorf("got %v for reading", got)
			}
		})
	}
}

// FIPS 180-4, the example of NIST's "SHA256.pdf": the message "abc".
func TestHashIsSHA256(t *testing.T) {
	const want = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	h := sum([]byte("abc"))
	if h.String() != want || h.Short() != want[:8] {
		t.Errorf("got %s, short %s, want %s", h, h.Short(), want)
	}
	var back Hash
	if err := back.UnmarshalText([]byte(want)); err != nil || back != h {
		t.Errorf("read back: got %s, %v", back, err)
	}
	for _, bad := range []string{"", want[1:], "zz" + want[2:]} {
		if err := back.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q was accepted", bad)
		}
	}
}
