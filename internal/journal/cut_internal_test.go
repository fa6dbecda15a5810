package journal

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

// bbolt writes the pages of a transaction, has them synced, writes the header
// page and has that synced (go.etcd.io/bbolt v1.5.0, tx.go, Commit, write and
// writeMeta); it writes no page that the header before points to. What power
// may leave of it is tried here: any prefix of the writes, also with the last
// one torn, and any part of the pages while they are not synced. A disk that
// writes sectors of 512 bytes whole is taken for granted (common practice, no
// source); what happens where it does not, see TestTornHeader.
const sector = 512

func TestCutAfterEveryWrite(t *testing.T) {
	t.Parallel()
	transactions, cuts, torn := 0, 0, 0
	steps(t, 1, 20, 26, func(r *rand.Rand, s *step) {
		transactions++
		if len(s.after) > len(s.before) {
			s.grow()
			s.want(t, s.saysBefore)
			cuts++
		}
		all := r.IntN(8) == 0
		for _, w := range s.pages {
			for at := sector; at < len(w.data); at += sector {
				if !all && r.IntN(8) > 0 {
					continue
				}
				s.write(w.offset, w.data[:at])
				s.want(t, s.saysBefore)
				torn++
			}
			s.write(w.offset, w.data)
			s.want(t, s.saysBefore)
			cuts++
		}
		s.reopen(t, s.saysBefore) // all is there but the header
		s.write(s.header.offset, s.header.data[:sector])
		s.want(t, s.saysAfter)
		s.write(s.header.offset, s.header.data)
		s.reopen(t, s.saysAfter)
		cuts, torn = cuts+1, torn+1
	})
	if transactions < 500 {
		t.Errorf("tried %d transactions, want 500", transactions)
	}
	t.Logf("%d transactions cut after each of their writes: %d cuts, and %d within a write; each as before or as after", transactions, cuts, torn)
}

func TestUnsyncedPagesDropped(t *testing.T) {
	t.Parallel()
	subsets, dropped, kept := 0, 0, 0
	steps(t, 2, 20, 13, func(r *rand.Rand, s *step) {
		s.grow()
		whole := bytes.Clone(s.left)
		for range 20 {
			s.left = bytes.Clone(whole)
			size := []int{sector, 1 << 30}[r.IntN(2)] // sectors by themselves, or whole writes
			for _, w := range s.pages {
				for at := 0; at < len(w.data); at += size {
					if r.IntN(2) == 0 {
						dropped++
						continue
					}
					kept++
					s.write(w.offset+int64(at), w.data[at:min(at+size, len(w.data))])
				}
			}
			s.want(t, s.saysBefore)
			subsets++
		}
		s.reopen(t, s.saysBefore)
	})
	if subsets < 5000 {
		t.Errorf("tried %d subsets, want 5,000", subsets)
	}
	t.Logf("%d random subsets of unsynced pages: %d parts dropped, %d kept; each as before", subsets, dropped, kept)
}

// A header page that is torn within a sector fails its checksum. The state
// before is read, and nothing is written on: it cannot be told from a header
// that went bad after its transaction was acknowledged.
func TestTornHeader(t *testing.T) {
	t.Parallel()
	asBefore, asAfter := 0, 0
	steps(t, 3, 2, 3, func(_ *rand.Rand, s *step) {
		s.grow()
		for _, w := range s.pages {
			s.write(w.offset, w.data)
		}
		for at := range headerSize + 1 {
			s.write(s.header.offset, s.header.data[:at])
			s.store(t)
			got, err := content(s.scratch)
			if err != nil {
				t.Fatal(err)
			}
			report, err := Verify(s.scratch)
			switch {
			case got == s.saysAfter && err == nil && at > pageHeaderSize:
				asAfter++
				continue
			case got != s.saysBefore:
				t.Fatalf("torn after %d bytes: neither as before nor as after", at)
			}
			asBefore++
			if err == nil { // not a byte of the checksummed ones is written yet
				continue
			}
			if !errors.Is(err, ErrDamaged) || !strings.Contains(report.Findings[0], "header") {
				t.Fatalf("torn after %d bytes: verify: %v, %q", at, err, report.Findings)
			}
			if err := appendOne(s.scratch); !errors.Is(err, ErrDamaged) {
				t.Fatalf("torn after %d bytes: written on: %v", at, err)
			}
		}
	})
	if asBefore == 0 || asAfter == 0 {
		t.Error("the header was never torn, or never whole: the test is void")
	}
	t.Logf("header torn after each of its bytes: %d as before, %d as after", asBefore, asAfter)
}

func appendOne(path string) error {
	return new(disk).update(path, func(tx *Tx) error {
		_, err := tx.Append(Entry{ID: "on", Kind: "reading"})
		return err
	})
}

func (s *step) write(offset int64, data []byte) { copy(s.left[offset:], data) }

// grow makes the file longer, which bbolt does and syncs before it writes.
func (s *step) grow() {
	s.left = append(s.left, make([]byte, len(s.after)-len(s.left))...)
}

// want reads what is left, and wants this content and nothing to find.
func (s *step) want(t *testing.T, says uint64) {
	t.Helper()
	if report, err := inspect(bytes.NewReader(s.left), int64(len(s.left))); err != nil || len(report.Findings) > 0 {
		t.Fatalf("verify: %v: %q", err, report.Findings)
	}
	if got := contentOf(t, s.left); got != says {
		t.Fatalf("another content: as before %v, as after %v", got == s.saysBefore, got == s.saysAfter)
	}
}

// reopen is want on a disk, with bbolt.
func (s *step) reopen(t *testing.T, says uint64) {
	t.Helper()
	s.want(t, says)
	s.store(t)
	got, err := soundContent(s.scratch)
	if err != nil {
		t.Fatal(err)
	}
	if got != says {
		t.Fatalf("opened with another content: as before %v, as after %v", got == s.saysBefore, got == s.saysAfter)
	}
}

// store writes over the file of the time before: some file systems flush one
// that is cut to nothing first, and this is done a thousand times.
func (s *step) store(t *testing.T) {
	t.Helper()
	f, err := os.OpenFile(s.scratch, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.WriteAt(s.left, 0)
	if err := errors.Join(err, f.Truncate(int64(len(s.left))), f.Close()); err != nil {
		t.Fatal(err)
	}
}
