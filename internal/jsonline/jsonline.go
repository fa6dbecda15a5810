// Package jsonline holds what a line of JSON from outside must keep before
// anybody reads values out of it: one object that can be read in one way only,
// and no deeper than anything of ours. The standard decoder takes the last of
// two values with one name and says nothing.
//
// It knows no entry and no limit on size: its callers read lines of a bounded
// length.
package jsonline

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
)

// MaxDepth is how deep objects and lists may lie in each other. Entries need
// six.
const MaxDepth = 32

// Check refuses a text that is not exactly one JSON object, that has a name
// twice in one object, or that is nested deeper than MaxDepth. Names that
// differ in their case only are the same, since the decoder takes them so.
func Check(text []byte) error {
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	w := walk{dec: dec}
	tok, err := dec.Token()
	if err != nil {
		return syntax(err)
	}
	if tok != json.Delim('{') {
		return errors.New("it is not a JSON object, which begins with {")
	}
	if err := w.object(1); err != nil {
		return err
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return errors.New("there is more than one value")
	}
	return nil
}

// walk goes through the tokens of a text.
type walk struct{ dec *json.Decoder }

func (w *walk) object(depth int) error {
	seen := map[string]bool{}
	for w.dec.More() {
		tok, err := w.dec.Token()
		if err != nil {
			return syntax(err)
		}
		name, ok := tok.(string)
		if !ok {
			return errors.New("a name in quotes is missing")
		}
		key := strings.Map(least, name)
		if seen[key] {
			return fmt.Errorf("%s stands in it twice, and which one counts cannot be told: leave one out", quote(name))
		}
		seen[key] = true
		if err := w.value(depth); err != nil {
			return err
		}
	}
	return w.end()
}

func (w *walk) list(depth int) error {
	for w.dec.More() {
		if err := w.value(depth); err != nil {
			return err
		}
	}
	return w.end()
}

func (w *walk) value(depth int) error {
	tok, err := w.dec.Token()
	if err != nil {
		return syntax(err)
	}
	delim, nested := tok.(json.Delim)
	switch {
	case !nested:
		return nil
	case depth == MaxDepth:
		return fmt.Errorf("it is nested more than %d deep, which no entry is: write it flat", MaxDepth)
	case delim == '{':
		return w.object(depth + 1)
	}
	return w.list(depth + 1)
}

// end takes the bracket that closes an object or a list.
func (w *walk) end() error {
	if _, err := w.dec.Token(); err != nil {
		return syntax(err)
	}
	return nil
}

// syntax says that the text is no JSON, in one way wherever that shows.
func syntax(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("it is cut off")
	}
	return fmt.Errorf("it is not JSON: %s", strings.TrimPrefix(err.Error(), "json: "))
}

// least is the letter that stands for r and whatever differs from it in case
// only, as the decoder has it.
func least(r rune) rune {
	for next := unicode.SimpleFold(r); ; next = unicode.SimpleFold(next) {
		if next <= r {
			return next
		}
		r = next
	}
}

// quote makes a name safe to print, and short.
func quote(s string) string {
	const longest = 40
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	return strconv.QuoteToGraphic(s)
}
