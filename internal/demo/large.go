package demo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/station"
)

// BuildLarge makes a station file of n lines at path, for benchmarks and for
// tests of long log books: 55,000 are ten years of a busy station. It ends on
// the day before now, and its last line is recorded by the station itself, so
// that the file has its checkpoint as one in use has. The same arguments give
// the same lines.
//
// Lines come in as an export does, a second or two for the ten years: the
// station would check and fold each on its own, which takes many times that.
// They keep the rules all the same, which a test of this package sees to.
func BuildLarge(path string, n int, now time.Time, cat *catalog.Catalog) error {
	entries, err := LargeEntries(n, now, cat)
	if err != nil {
		return fmt.Errorf("make a large station: %w", err)
	}
	last := len(entries) - 1
	lines, err := export(entries[:last])
	if err == nil {
		_, err = station.Import(path, lines)
	}
	if err == nil {
		err = recordLast(path, entries[last], cat)
	}
	if err != nil {
		return fmt.Errorf("make a large station: %w", err)
	}
	return nil
}

func recordLast(path string, e bath.Entry, cat *catalog.Catalog) error {
	s, err := station.Open(path, station.Options{Catalog: cat, Now: func() time.Time { return e.Logged }})
	if err != nil {
		return err
	}
	_, err = s.Record(station.Draft{ID: e.ID, At: e.At, By: e.By, Bath: e.Bath, Body: e.Body})
	return errors.Join(err, s.Close())
}

// exported is a line as an export has it: each holds the hash of the bytes of
// the line before.
type exported struct {
	Prev   string    `json:"prev"`
	Seq    uint64    `json:"seq"`
	ID     string    `json:"id"`
	At     time.Time `json:"at"`
	Logged time.Time `json:"logged"`
	By     string    `json:"by"`
	Bath   string    `json:"bath,omitzero"`
	Kind   bath.Kind `json:"kind"`
	Body   bath.Body `json:"body"`
}

// export writes entries as an export does.
func export(entries []bath.Entry) (*bytes.Buffer, error) {
	lines := new(bytes.Buffer)
	var prev [sha256.Size]byte
	for _, e := range entries {
		line, err := json.Marshal(exported{hex.EncodeToString(prev[:]), e.Seq, e.ID, e.At, e.Logged, e.By, e.Bath, e.Kind(), e.Body})
		if err != nil {
			return nil, err
		}
		prev = sha256.Sum256(line)
		lines.Write(line)
		lines.WriteByte('\n')
	}
	return lines, nil
}
