package station

import "bathside/internal/journal"

// Match is how a backup or an export stands to a log book.
type Match = journal.Match

// MatchFile compares the log book at path, line by line, with the backup or
// the export in another file. ErrNotOurs where that is neither; ErrDamaged
// where it is a backup that does not hold.
func MatchFile(path, other string) (Match, error) {
	j, err := journal.Open(path)
	if err != nil {
		return Match{}, err
	}
	return j.MatchFile(other)
}

// SealDigits reads a seal number as people write it down, and false where it
// is none: at least 8 hexadecimal digits, with spaces or dashes between.
func SealDigits(text string) (string, bool) { return journal.SealDigits(text) }

// MatchSeal gives the lines of the log book at path whose seal number begins
// with those digits, 0 for that before the first line, and how many lines
// there are.
func MatchSeal(path, digits string) (found []uint64, here uint64, err error) {
	j, err := journal.Open(path)
	if err != nil {
		return nil, 0, err
	}
	return j.MatchSeal(digits)
}

// SealOf is the seal number that the log book had when that line was its
// newest.
func (s *Station) SealOf(line uint64) (string, error) {
	var seal journal.Hash
	err := s.j.View(func(tx *journal.Tx) (err error) {
		seal, err = tx.Hash(line)
		return err
	})
	return seal.String(), err
}
