package journal

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// Every write of a transaction fails in turn, with nothing, a part or all of
// it on the disk. What was there before is there after, the cause can be told,
// and the next transaction works.
func TestEveryWriteFails(t *testing.T) {
	t.Parallel()
	ways := []struct {
		name string
		part func(whole int) int // how much of the write reaches the disk all the same
		err  error
		want error
	}{
		{"full", func(int) int { return 0 }, syscall.ENOSPC, ErrFull},
		{"full in the middle", func(whole int) int { return whole / 2 }, syscall.ENOSPC, ErrFull},
		{"failed", func(int) int { return 0 }, syscall.EIO, ErrDisk},
		{"failed at the end", func(whole int) int { return whole }, syscall.EIO, ErrDisk},
	}
	tried, unsure := 0, 0
	path := filepath.Join(t.TempDir(), "station.db")
	if _, err := Create(path); err != nil {
		t.Fatal(err)
	}
	for i := range uint64(12) {
		before, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		saysBefore := contentOf(t, before)
		var whole disk
		if err := whole.update(path, changeOf(i)); err != nil {
			t.Fatal(err)
		}
		after, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		s := &step{before: before, saysBefore: saysBefore, saysAfter: contentOf(t, after), scratch: path}
		for _, way := range ways {
			for n := range whole.writes {
				s.left = before
				s.store(t)
				d := disk{breaks: func(at int, w diskWrite) (int, error) {
					if at != n {
						return 0, nil
					}
					return way.part(len(w.data)), way.err
				}}
				err := d.update(path, changeOf(i))
				if got := classify(err, forWriting); !errors.Is(got, way.want) || !errors.Is(got, way.err) {
					t.Fatalf("%s at write %d: got %v, want %v", way.name, n, got, way.want)
				}
				tried++
				s.mustStand(t, errors.Is(err, ErrUnsure))
				if errors.Is(err, ErrUnsure) {
					unsure++
					if n != len(whole.writes)-1 {
						t.Fatalf("%s at write %d of %d: not sure, but the header was not written", way.name, n, len(whole.writes))
					}
				}
			}
		}
		s.left = after
		s.store(t)
	}
	if unsure == 0 {
		t.Error("no failure at the last step: the test is void")
	}
	t.Logf("%d writes failed: each told, the content as before, and the next line stored; of %d it was said that it is not known whether they were stored", tried, unsure)
}

func changeOf(i uint64) func(*Tx) error {
	return func(tx *Tx) error { return change(rand.New(rand.NewPCG(4, i)), tx) }
}

// mustStand wants the content as before, or as after where that cannot be
// known, and then stores one line more.
func (s *step) mustStand(t *testing.T, unsure bool) {
	t.Helper()
	got, err := content(s.scratch)
	if err != nil {
		t.Fatal(err)
	}
	if got != s.saysBefore && (!unsure || got != s.saysAfter) {
		t.Fatalf("content as before %v, as after %v, unsure %v", got == s.saysBefore, got == s.saysAfter, unsure)
	}
	if err := appendOne(s.scratch); err != nil {
		t.Fatalf("the next line: %v", err)
	}
	if report, err := Verify(s.scratch); err != nil {
		t.Fatalf("verify: %v, %q", err, report.Findings)
	}
}

// bbolt keeps of the cause of a failed growth only the text.
func TestGrowthErrorHasItsCause(t *testing.T) {
	for text, want := range map[string]error{
		"file resize error: truncate /srv/station.db: " + syscall.EFBIG.Error():  ErrFull,
		"file resize error: truncate /srv/station.db: " + syscall.ENOSPC.Error(): ErrFull,
		"file sync error: sync /srv/station.db: " + syscall.EIO.Error():          ErrDisk,
	} {
		if got := classify(growthError(errors.New(text)), forWriting); !errors.Is(got, want) {
			t.Errorf("%s: got %v, want %v", text, got, want)
		}
	}
	other := errors.New("odd")
	if got := growthError(other); got != other {
		t.Errorf("got %v, want it as it is", got)
	}
}
