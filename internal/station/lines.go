package station

import (
	"io"

	"bathside/internal/bath"
	"bathside/internal/journal"
)

// Lines gives the last n entries up to and including line last (0: the end),
// oldest first, as they were written, crossed out or not.
func (s *Station) Lines(last uint64, n int) ([]bath.Entry, error) {
	var out []bath.Entry
	err := s.j.View(func(tx *journal.Tx) error {
		head := tx.Head().Seq
		if last == 0 || last > head {
			last = head
		}
		from := last - min(last, uint64(n))
		for stored, err := range tx.Since(from) {
			if err != nil {
				return err
			}
			if stored.Seq > last {
				break
			}
			e, err := decode(stored)
			if err != nil {
				return err
			}
			out = append(out, e)
		}
		return nil
	})
	return out, err
}

// Seal is the seal number of the log book: it changes with every line, and no
// other history has the same one.
func (s *Station) Seal() (string, error) {
	var seal string
	err := s.j.View(func(tx *journal.Tx) error {
		seal = tx.Head().Hash.String()
		return nil
	})
	return seal, err
}

// Export writes the log book as JSON Lines, byte for byte as it is stored.
func (s *Station) Export(w io.Writer) error { return s.j.Export(w) }

// Import makes a new station file at path from exported lines, and gives how
// many there were. The chain is checked, and every line must be readable.
func Import(path string, r io.Reader) (uint64, error) {
	head, err := journal.Import(path, r)
	return head.Seq, err
}

// Report is what Verify found.
type Report = journal.Report

// Verify checks a log book file from its pages to its chain. It works on
// damaged files and changes nothing; ErrDamaged where anything was found.
func Verify(path string) (Report, error) { return journal.Verify(path) }

// CheckPages runs the database's own page check, which may bring the process
// down on a damaged file: run it in a child.
func CheckPages(path string) error { return journal.CheckPages(path) }

// OnNetwork reports whether the log book at path lies on a network share, and
// gives the sentence that warns of it.
func OnNetwork(path string) (say string, on bool) { return journal.OnNetwork(path) }
