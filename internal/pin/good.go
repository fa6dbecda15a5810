package pin

import (
	"errors"
	"fmt"
	"strings"
)

// A PIN has from Shortest to Longest digits.
const (
	Shortest = 4
	Longest  = 12
)

// Good says what is wrong with a PIN that somebody chooses, in one sentence
// that does not give it away; nil where nothing is. It takes 4 to 12 digits,
// but neither one digit over and over nor digits in a row, up or down, as in
// 1234, 9876 and 8901: those are tried first.
func Good(pin string) error {
	switch step := stepOf(pin); {
	case pin == "":
		return errors.New("no PIN was given: give 4 to 12 digits")
	case strings.ContainsFunc(pin, notDigit):
		return errors.New("the PIN has something other than digits in it: give 4 to 12 digits from 0 to 9")
	case len(pin) < Shortest || len(pin) > Longest:
		return fmt.Errorf("4 to 12 digits are allowed and the PIN has %d: give another", len(pin))
	case step == 0:
		return errors.New("the PIN is one digit over and over, which is tried first: give another")
	case step == 1 || step == 9:
		return errors.New("the PIN is digits in a row, up or down, which is tried first: give another")
	}
	return nil
}

func notDigit(r rune) bool { return r < '0' || r > '9' }

// stepOf is how far each digit lies above the one before, counted round from 9
// to 0; -1 where they differ in that.
func stepOf(pin string) int {
	step := -1
	for i := 1; i < len(pin); i++ {
		next := (int(pin[i]) - int(pin[i-1]) + 10) % 10
		if i > 1 && next != step {
			return -1
		}
		step = next
	}
	return step
}
