package report

import (
	"fmt"
	"io"
)

// sealDigits are as many digits of a seal number as no forger can bring about
// again: 64 bits.
const sealDigits = 16

// WriteSeal ends a report that goes on paper: the seal number of its log book
// when that had so many lines. Whoever has the paper can show later that none
// of them was changed since. The error is w's.
func WriteSeal(w io.Writer, seal string, lines uint64) error {
	var t text
	t.blank()
	t.say(fmt.Sprintf("Seal number %s of %d lines", seal, lines))
	t.say(fmt.Sprintf("bathside verify --against and that number, or its first %d digits, shows later whether these lines still stand.", sealDigits))
	if _, err := io.WriteString(w, t.String()); err != nil {
		return fmt.Errorf("write seal number: %w", err)
	}
	return nil
}
