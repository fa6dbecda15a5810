package journal

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// importBatch entries are committed at a time, which bounds the memory.
const importBatch = 5000

var errNoLines = errors.New("there is nothing to import")

// Import makes a new journal at path from the lines that Export wrote, byte
// for byte. Each line must follow from the one before; an error names the
// line, is ErrDamaged if the line is not what was exported, and leaves no file
// behind. Like Create it returns ErrExists rather than replace a file.
//
// Nothing in the lines vouches for the last of them. Whoever knows the head of
// the journal they came from should compare it with the one returned.
func Import(path string, r io.Reader) (Head, error) {
	var head Head
	err := publish(path, func(tx *Tx) (err error) {
		head, err = tx.readLines(r)
		return err
	})
	if err != nil {
		return Head{}, fmt.Errorf("import journal %s: %w", path, classify(err, forCreating))
	}
	return head, nil
}

func (t *Tx) readLines(r io.Reader) (Head, error) {
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxEntry+2)
	n := 0
	for lines.Scan() {
		n++
		if len(bytes.TrimSpace(lines.Bytes())) == 0 {
			continue
		}
		if err := t.readLine(lines.Bytes()); err != nil {
			return Head{}, fmt.Errorf("line %d: %w", n, err)
		}
	}
	if err := lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return Head{}, fmt.Errorf("line %d: %w: longer than any entry", n+1, ErrDamaged)
	} else if err != nil {
		return Head{}, fmt.Errorf("line %d: %w", n+1, err)
	}
	if t.head.Seq == 0 {
		return Head{}, errNoLines
	}
	return t.head, nil
}

func (t *Tx) readLine(line []byte) error {
	if _, err := t.appendRaw(line); err != nil {
		return err
	}
	if t.head.Seq%importBatch != 0 {
		return nil
	}
	if err := t.h.commit(); err != nil {
		return err
	}
	return t.h.begin()
}
