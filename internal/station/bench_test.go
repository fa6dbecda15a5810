package station_test

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
	"golang.org/x/crypto/argon2"

	"bathside/internal/demo"
	"bathside/internal/station"
)

// BenchmarkRecord prints how much longer a recorded line takes than a bare
// bbolt, held open, takes to store the same bytes. The goal is 1.5.
func BenchmarkRecord(b *testing.B) {
	s := open(b, newFile(b))
	write(b, s, service()...)
	db, err := bolt.Open(filepath.Join(b.TempDir(), "bare.db"), 0o600, nil)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	var ours, bare time.Duration
	for b.Loop() {
		begun := time.Now()
		entries := write(b, s, note("packs still drip"))
		ours += time.Since(begun)
		raw, err := json.Marshal(entries[0])
		if err != nil {
			b.Fatal(err)
		}
		raw = append(raw, make([]byte, 73)...) // the hash of the line before
		begun = time.Now()
		putBare(b, db, entries[0].Seq, raw)
		bare += time.Since(begun)
	}
	b.ReportMetric(float64(ours)/float64(bare), "x-bare")
	b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "us/record")
}

// BenchmarkAuthorize prints how much longer a PIN that is checked and written
// takes than the bare argon2id at the same cost.
func BenchmarkAuthorize(b *testing.B) {
	defer station.AtRealCost()()
	s := open(b, pinned(b))
	var ours, bare time.Duration
	for b.Loop() {
		begun := time.Now()
		if _, err := s.Authorize(keyHolder, keyPIN); err != nil {
			b.Fatal(err)
		}
		between := time.Now()
		argon2.IDKey([]byte(keyPIN), []byte("sixteen is plain"), 2, 19*1024, 1, 32)
		ours += between.Sub(begun)
		bare += time.Since(between)
	}
	b.ReportMetric(float64(ours)/float64(bare), "x-bare")
	b.ReportMetric(float64(ours.Microseconds())/1000/float64(b.N), "ms/authorize")
}

func putBare(b *testing.B, db *bolt.DB, seq uint64, raw []byte) {
	err := db.Update(func(tx *bolt.Tx) error {
		entries, err := tx.CreateBucketIfNotExists([]byte("entries"))
		if err != nil {
			return err
		}
		return entries.Put(binary.BigEndian.AppendUint64(nil, seq), raw)
	})
	if err != nil {
		b.Fatal(err)
	}
}

// BenchmarkColdState prints what a program that starts waits for the state of
// a log book of ten years, 55,000 lines, in ms and as a multiple of what a bare
// bbolt takes to open the file. The goal is 15 ms, young or old as the open
// fill may be.
func BenchmarkColdState(b *testing.B) {
	for _, less := range []int{0, 15 * 20, 15 * 40} {
		b.Run(fmt.Sprint(55_000-less, " lines"), func(b *testing.B) {
			path := filepath.Join(b.TempDir(), "large")
			if err := demo.BuildLarge(path, 55_000-less, noon, shipped()); err != nil {
				b.Fatal(err)
			}
			var ours, bare time.Duration
			for b.Loop() {
				begun := time.Now()
				st := coldState(b, path)
				ours += time.Since(begun)
				begun = time.Now()
				openBare(b, path)
				bare += time.Since(begun)
				b.ReportMetric(float64(st), "lines-held")
			}
			b.ReportMetric(float64(ours.Microseconds())/1000/float64(b.N), "ms/cold")
			b.ReportMetric(float64(ours)/float64(bare), "x-bare-open")
		})
	}
}

// coldState gives how many lines the state holds as they are.
func coldState(b *testing.B, path string) int {
	s, err := station.Open(path, station.Options{})
	if err != nil {
		b.Fatal(err)
	}
	st := stateOf(b, s)
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return len(st.Baths[0].Entries)
}

func openBare(b *testing.B, path string) {
	db, err := bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true})
	if err != nil {
		b.Fatal(err)
	}
	if err := db.Close(); err != nil {
		b.Fatal(err)
	}
}
