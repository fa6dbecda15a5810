package journal

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
)

// rawTampers change the bytes of a file wherever they lie.
var rawTampers = []struct {
	name string
	do   func(*rand.Rand, []byte) []byte
}{
	{"bit flipped", func(r *rand.Rand, file []byte) []byte {
		file[r.IntN(len(file))] ^= 1 << r.IntN(8)
		return file
	}},
	{"byte changed", func(r *rand.Rand, file []byte) []byte {
		file[r.IntN(len(file))] ^= byte(1 + r.IntN(255))
		return file
	}},
	{"bytes of a page's beginning changed", func(r *rand.Rand, file []byte) []byte {
		at := r.IntN(len(file)/os.Getpagesize())*os.Getpagesize() + r.IntN(200)
		file[at] ^= byte(1 + r.IntN(255))
		return file
	}},
	{"noise", func(r *rand.Rand, file []byte) []byte {
		at := r.IntN(len(file))
		for i := at; i < min(at+1+r.IntN(64), len(file)); i++ {
			file[i] = byte(r.IntN(256))
		}
		return file
	}},
	{"sector emptied", func(r *rand.Rand, file []byte) []byte {
		at := r.IntN(len(file)/sector) * sector
		clear(file[at : at+sector])
		return file
	}},
	{"sector of elsewhere", func(r *rand.Rand, file []byte) []byte {
		from, to := r.IntN(len(file)/sector)*sector, r.IntN(len(file)/sector)*sector
		copy(file[to:to+sector], file[from:from+sector])
		return file
	}},
	{"page of elsewhere", func(r *rand.Rand, file []byte) []byte {
		size := os.Getpagesize()
		from, to := r.IntN(len(file)/size)*size, r.IntN(len(file)/size)*size
		copy(file[to:to+size], file[from:from+size])
		return file
	}},
	{"bytes taken out, the rest moved up", func(r *rand.Rand, file []byte) []byte {
		at, n := r.IntN(len(file)), 1+r.IntN(16)
		copy(file[at:], file[min(at+n, len(file)):])
		return file
	}},
	{"end cut off", func(r *rand.Rand, file []byte) []byte { return file[:r.IntN(len(file))] }},
}

// Whatever is done to the bytes of a file, verify finds it, or it changed
// nothing that counts. What counts is decided by reading, not by where the
// byte lies: every key and value of every table is what it was for whoever
// opens the file, and bbolt's own check finds its list of free pages sound, so
// that the next line overwrites nothing. That leaves what is in free pages,
// behind the last key of a page, in the older header page and in counters of
// bbolt's that nothing of ours reads.
//
// One value nothing vouches for: the ID that a file is given when it is made.
// No line rests on it.
func TestTamperedBytes(t *testing.T) {
	t.Parallel()
	const each = 660
	v := newVictim(t)
	whole, err := os.ReadFile(v.path)
	if err != nil {
		t.Fatal(err)
	}
	if err := v.db.Close(); err != nil {
		t.Fatal(err)
	}
	hs, err := readHeaders(bytes.NewReader(whole), int64(len(whole)))
	if err != nil {
		t.Fatal(err)
	}
	whole = whole[:hs.newest.highWater*hs.newest.pageSize] // behind it there is only room to grow
	says := contentOf(t, whole)
	id := v.was["meta"]["id"]
	s := &step{scratch: filepath.Join(t.TempDir(), "scratch.db")}
	r := rand.New(rand.NewPCG(7, 0))
	tried, found, free, otherID := 0, 0, 0, 0
	for _, way := range rawTampers {
		for i := range each {
			s.left = way.do(r, bytes.Clone(whole))
			if bytes.Equal(s.left, whole) { // a page copied to itself
				continue
			}
			tried++
			report, err := inspect(bytes.NewReader(s.left), int64(len(s.left)))
			if err != nil || len(report.Findings) > 0 {
				found++
				continue
			}
			s.store(t)
			got, err := soundContent(s.scratch)
			if errors.Is(err, ErrDamaged) {
				found++
				continue
			}
			if err != nil {
				t.Fatalf("%s, %d: verify finds nothing, and the file does not open: %v", way.name, i, err)
			}
			if got == says {
				free++
				continue
			}
			if contentOf(t, bytes.ReplaceAll(s.left, idOf(t, s.scratch), id)) == says {
				otherID++
				continue
			}
			first := 0
			for s.left[first] == whole[first] {
				first++
			}
			t.Fatalf("%s, %d: another content from byte %d on, and verify finds nothing", way.name, i, first)
		}
	}
	if tried < 4900 {
		t.Errorf("tried %d, want 4,900", tried)
	}
	t.Logf("%d changes by bytes, %d ways: %d found, %d changed nothing that counts, %d only the file's own ID; none unseen", tried, len(rawTampers), found, free, otherID)
}

func idOf(t *testing.T, path string) []byte {
	t.Helper()
	j, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return []byte(j.ID())
}
