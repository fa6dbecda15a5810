package journal_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"bathside/internal/journal"
)

// BenchmarkAppend prints how much longer an acknowledged entry takes than a
// bare bbolt, held open, takes to store the same bytes. The goal is 1.5.
func BenchmarkAppend(b *testing.B) {
	j, err := journal.Create(filepath.Join(b.TempDir(), "station.db"))
	if err != nil {
		b.Fatal(err)
	}
	db, err := bolt.Open(filepath.Join(b.TempDir(), "bare.db"), 0o600, nil)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	var ours, bare time.Duration
	for i := 0; b.Loop(); i++ {
		begun := time.Now()
		mustAppend(b, j, fmt.Sprint("id-", i))
		between := time.Now()
		putBare(b, db, uint64(i), bytes.Repeat([]byte("x"), 285))
		ours += between.Sub(begun)
		bare += time.Since(between)
	}
	b.ReportMetric(float64(ours)/float64(bare), "x-bare")
	b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "us/append")
}

func putBare(b *testing.B, db *bolt.DB, seq uint64, raw []byte) {
	err := db.Update(func(tx *bolt.Tx) error {
		entries, err := tx.CreateBucketIfNotExists([]byte("entries"))
		if err != nil {
			return err
		}
		return entries.Put([]byte(key(seq)), raw)
	})
	if err != nil {
		b.Fatal(err)
	}
}

// BenchmarkVerify prints how much longer Verify takes than SHA-256 of the same
// entries alone, which are in memory for that. It may be 4; reading pages with
// bounds of its own and checking the index of IDs brought it to about 2.1. A
// million entries take a while to write: -short leaves them out.
func BenchmarkVerify(b *testing.B) {
	for _, n := range []int{50_000, 1_000_000} {
		b.Run(fmt.Sprint(n, " entries"), func(b *testing.B) {
			if n > 50_000 && testing.Short() {
				b.Skip("a long one")
			}
			benchmarkVerify(b, n)
		})
	}
}

func benchmarkVerify(b *testing.B, n int) {
	j, err := journal.Create(filepath.Join(b.TempDir(), "station.db"))
	if err != nil {
		b.Fatal(err)
	}
	appendMany(b, j, n)
	var export bytes.Buffer
	if err := j.Export(&export); err != nil {
		b.Fatal(err)
	}
	lines := bytes.Split(bytes.TrimSpace(export.Bytes()), []byte("\n"))
	var ours, bare time.Duration
	for b.Loop() {
		begun := time.Now()
		report, err := journal.Verify(j.Path())
		if err != nil || report.Entries != n || len(lines) != n {
			b.Fatalf("%d of %d entries, %d lines: %v", report.Entries, n, len(lines), err)
		}
		between := time.Now()
		for _, line := range lines {
			sha256.Sum256(line)
		}
		ours += between.Sub(begun)
		bare += time.Since(between)
	}
	b.ReportMetric(float64(ours)/float64(bare), "x-sha256")
	b.ReportMetric(float64(ours.Milliseconds())/float64(b.N), "ms/verify")
}

// appendMany appends n entries whose IDs sort as they were made, as those of
// the program do.
func appendMany(b *testing.B, j *journal.Journal, n int) {
	b.Helper()
	const batch = 10_000
	for from := 0; from < n; from += batch {
		ids := make([]string, min(batch, n-from))
		for i := range ids {
			ids[i] = fmt.Sprintf("01J%023d", from+i) // as long as a ULID
		}
		mustAppend(b, j, ids...)
	}
}

// BenchmarkView is what a look at the newest entry costs: open, read, close.
func BenchmarkView(b *testing.B) {
	j, err := journal.Create(filepath.Join(b.TempDir(), "station.db"))
	if err != nil {
		b.Fatal(err)
	}
	mustAppend(b, j, numbered(50_000)...)
	for b.Loop() {
		err := j.View(func(tx *journal.Tx) error {
			_, err := tx.Get(tx.Head().Seq)
			return err
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}
