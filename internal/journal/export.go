package journal

import (
	"bytes"
	"fmt"
	"io"
)

// exportBatch entries are read in one transaction, which takes about a
// millisecond.
const exportBatch = 1000

// Export writes every entry as it is stored, one to a line. It writes up to
// the entry that is newest when it starts, and holds no transaction while it
// writes: whoever reads the lines may take his time.
func (j *Journal) Export(w io.Writer) error {
	var head Head
	err := j.View(func(tx *Tx) error {
		head = tx.Head()
		return nil
	})
	if err != nil {
		return err
	}
	var lines bytes.Buffer
	for seq := uint64(0); seq < head.Seq; {
		lines.Reset()
		last := min(seq+exportBatch, head.Seq)
		err := j.View(func(tx *Tx) error {
			return tx.copyLines(&lines, seq+1, last)
		})
		if err != nil {
			return err
		}
		if _, err := lines.WriteTo(w); err != nil {
			return fmt.Errorf("export journal %s: %w", j.path, err)
		}
		seq = last
	}
	return nil
}

func (t *Tx) copyLines(lines *bytes.Buffer, first, last uint64) error {
	for seq := first; seq <= last; seq++ {
		raw, err := t.Raw(seq)
		if err != nil {
			return err
		}
		lines.Write(raw)
		lines.WriteByte('\n')
	}
	return nil
}
