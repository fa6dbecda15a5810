package report

import (
	"fmt"
	"io"
)

// WriteSeal ends a report that goes on paper: the seal number of its log book
// when that had so many lines. Whoever has the paper can show later that none
// of them was changed since. The error is w's.
func WriteSeal(w io.Writer, seal string, lines uint64) error {
	var t text
	t.blank()
	t.say(fmt.Sprintf("Seal number %s of %d lines", seal, lines))
	t.say("bathside verify --against and that number, or its first 16 digits, shows later whether these lines still stand.")
	if _, err := io.WriteString(w, t.String()); err != nil {
		return fmt.Errorf("write seal number: %w", err)
	}
	return nil
}
