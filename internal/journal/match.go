package journal

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
)

// Match is how another record of a journal, a backup or an export, stands to
// the journal.
type Match struct {
	Here  uint64 // entries of the journal
	There uint64 // entries of the other record
	Same  uint64 // how many of the first are the same, byte for byte

	// Broken is the first entry there whose seal does not follow from the one
	// before; 0 for none. Nothing vouches for the last one of an export.
	Broken uint64
}

// Whole reports whether all of the other record is the beginning of the
// journal.
func (m Match) Whole() bool { return m.Same == m.There }

// MatchFile compares the journal with the journal or the export in another
// file. It returns ErrNotOurs if that is neither, and ErrDamaged with what
// Verify finds if it is a journal that does not hold.
func (j *Journal) MatchFile(path string) (Match, error) {
	other, err := Open(path)
	if errors.Is(err, ErrNotOurs) {
		return j.matchExport(path)
	}
	if err != nil {
		return Match{}, err
	}
	if _, err := Verify(path); err != nil {
		return Match{}, err
	}
	lines, w := io.Pipe()
	go func() { w.CloseWithError(other.Export(w)) }()
	m, err := j.MatchLines(lines)
	return m, errors.Join(err, lines.Close()) // which ends the export, if it has not
}

func (j *Journal) matchExport(path string) (Match, error) {
	f, err := os.Open(path)
	if err != nil {
		return Match{}, fmt.Errorf("read lines of %s: %w", path, classify(err, forReading))
	}
	defer f.Close()
	m, err := j.MatchLines(f)
	if err != nil {
		return m, fmt.Errorf("read lines of %s: %w", path, err)
	}
	return m, nil
}

// MatchLines compares the journal with the lines that Export wrote. It returns
// ErrNotOurs if the first of them is no JSON.
func (j *Journal) MatchLines(r io.Reader) (Match, error) {
	here, err := j.head()
	if err != nil {
		return Match{}, err
	}
	m := Match{Here: here.Seq}
	own := ownLines{j: j, head: here.Seq}
	var last Hash
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxEntry+2)
	for lines.Scan() {
		line := lines.Bytes()
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if m.There == 0 && line[0] != '{' {
			return m, ErrNotOurs
		}
		m.There++
		if m.Broken == 0 && !follows(line, m.There, last) {
			m.Broken = m.There
		}
		last = sum(line)
		if m.Same < m.There-1 || m.There > m.Here { // they parted before, or this one ends
			continue
		}
		raw, err := own.line(m.There)
		if err != nil {
			return m, err
		}
		if bytes.Equal(raw, line) {
			m.Same++
		}
	}
	if err := lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return m, ErrNotOurs
	} else if err != nil {
		return m, err
	}
	return m, nil
}

// follows reports whether a line is laid out as entry seq after one of that
// hash.
func follows(line []byte, seq uint64, last Hash) bool {
	o, ok := parseOpening(line)
	return ok && o.seq == seq && string(o.prev) == last.String()
}

func (j *Journal) head() (head Head, err error) {
	err = j.View(func(tx *Tx) error {
		head = tx.Head()
		return nil
	})
	return head, err
}

// ownLines reads the journal in order, a batch to a transaction as Export does.
type ownLines struct {
	j     *Journal
	head  uint64
	first uint64
	batch [][]byte
}

func (o *ownLines) line(seq uint64) ([]byte, error) {
	if o.first == 0 || seq >= o.first+uint64(len(o.batch)) {
		o.first, o.batch = seq, o.batch[:0]
		err := o.j.View(func(tx *Tx) error {
			for next := seq; next <= min(seq+exportBatch-1, o.head); next++ {
				raw, err := tx.Raw(next)
				if err != nil {
					return err
				}
				o.batch = append(o.batch, raw)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return o.batch[seq-o.first], nil
}

// LeastSeal is how many digits of a seal MatchSeal wants: Short has as many.
const LeastSeal = 8

// SealDigits reads a seal as people write it down: hexadecimal digits, capital
// or not, with spaces or dashes between. It returns false for anything else,
// for fewer than LeastSeal digits and for more than a hash has.
func SealDigits(text string) (digits string, ok bool) {
	digits = strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(text))
	if len(digits) < LeastSeal || len(digits) > hex.EncodedLen(len(Hash{})) {
		return "", false
	}
	for _, c := range digits {
		if !strings.ContainsRune("0123456789abcdef", c) {
			return "", false
		}
	}
	return digits, true
}

// MatchSeal returns the entries whose hash begins with those digits, 0 for an
// empty journal's, and how many entries there are. More than one can only be
// found by few digits.
func (j *Journal) MatchSeal(digits string) (found []uint64, here uint64, err error) {
	head, err := j.head()
	if err != nil {
		return nil, 0, err
	}
	own := ownLines{j: j, head: head.Seq}
	if strings.HasPrefix(Hash{}.String(), digits) {
		found = append(found, 0)
	}
	for seq := uint64(1); seq <= head.Seq; seq++ {
		raw, err := own.line(seq)
		if err != nil {
			return nil, 0, err
		}
		if strings.HasPrefix(sum(raw).String(), digits) {
			found = append(found, seq)
		}
	}
	return found, head.Seq, nil
}
