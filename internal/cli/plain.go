package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"bathside/internal/advise"
	"bathside/internal/station"
)

// Plain talk, for who works by ear or by hand on a terminal that cannot move
// its cursor. Its rules:
//   - A line out, a line in. Nothing is drawn over, nothing is told by colour.
//   - A question ends in a colon. Its answer without typing stands in brackets.
//   - A choice is a number, or the word itself.
//   - A dot alone leaves what is being asked, and saves nothing of it.
//   - A wrong answer gets its sentence and the same question; what was typed
//     before it stays.
//   - The end of the input, or ctrl+c, leaves; what was saved is kept.
//
// Lines are not broken: a terminal does that, and a reader reads them whole.

// errLeft says that somebody left by a dot.
var errLeft = errors.New("left by a dot")

// talk is one sitting of plain talk.
type talk struct {
	*app
	ctx context.Context
	st  *station.Station
	x   *advise.Snapshot

	last    string // who saved last, remembered until the shift ends
	until   time.Time
	session station.Session // whose PIN was taken for a wash
	walks   map[string]*plainWalk
}

// newTalk begins with how the bath stands now.
func (a *app) newTalk(ctx context.Context, st *station.Station) (*talk, error) {
	t := &talk{app: a, ctx: ctx, st: st, walks: map[string]*plainWalk{}}
	return t, t.look()
}

// talks reports whether somebody sits before the program who asked for plain
// talk.
func (a *app) talks() bool {
	return a.flags.plain && !a.flags.json && !a.streams && isTerminal(a.In) && isTerminal(a.Out)
}

// look takes in what others have written meanwhile.
func (t *talk) look() (err error) {
	t.x, err = t.snapshot(t.st)
	return err
}

// stop ends a sentence that does not end by itself.
func stop(s string) string {
	if strings.HasSuffix(s, "?") || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}

func (t *talk) say(format string, args ...any) { fmt.Fprintf(t.text(), format+"\n", args...) }

// wrong says what is wrong, as a sentence.
func (t *talk) wrong(err error) {
	say := station.Explain(err, t.dataPath())
	t.say("%s", stop(strings.ToUpper(say[:min(1, len(say))])+say[min(1, len(say)):]))
}

// ask gives the line that is typed after a question; otherwise is that for an
// empty one.
func (t *talk) ask(question, otherwise string) (string, error) {
	if otherwise != "" {
		question += " [" + otherwise + "]"
	}
	fmt.Fprint(t.text(), question, ": ")
	line, err := readLine(t.In)
	switch {
	case err != nil:
		t.say("")
		return "", err
	case line == ".":
		return "", errLeft
	case line == "":
		return otherwise, nil
	}
	return line, nil
}

// readLine reads a byte at a time, so that nothing typed ahead is taken from
// whoever reads next: a PIN is read by other means. The error is io.EOF at the
// end of the input.
func readLine(in io.Reader) (string, error) {
	const longest = 4096
	var line []byte
	for b := make([]byte, 1); len(line) < longest; {
		n, err := in.Read(b)
		switch {
		case n == 0 && err != nil:
			return "", io.EOF // a terminal that hung up is an end too
		case n == 0:
			continue
		case b[0] == '\n':
			return strings.TrimSpace(string(line)), nil
		}
		line = append(line, b[0])
	}
	return strings.TrimSpace(string(line)), nil
}

// option is one of several to choose from. Its number is its place, unless it
// has one of its own; keys are what chooses it besides.
type option struct {
	say    string
	keys   []string
	number string
}

// choose lists the options and asks for one, as pickOne does.
func (t *talk) choose(question, otherwise string, options []option) (int, error) {
	for i, n := range numbered(options) {
		t.say("%2s %s", n, options[i].say)
	}
	return t.pickOne(question, otherwise, options)
}

// pickOne asks for one of the options until it gets one, and gives its place;
// -1 for an empty line where otherwise is "".
func (t *talk) pickOne(question, otherwise string, options []option) (int, error) {
	for {
		typed, err := t.ask(question, otherwise)
		if err != nil {
			return 0, err
		}
		if typed == "" {
			return -1, nil
		}
		if i := pick(typed, options); i >= 0 {
			return i, nil
		}
		t.say("%s is not one of them: type the number before one, like 1.", quote(typed))
	}
}

// pick is the option that is meant: by its own word first, for words may be
// figures too; -1 where none is. A word that fits several, such as a first name,
// means none of them.
func pick(typed string, options []option) int {
	meant := -1
	for i, o := range options {
		if !slices.ContainsFunc(o.keys, func(k string) bool { return strings.EqualFold(k, typed) }) {
			continue
		}
		if meant >= 0 {
			return -1
		}
		meant = i
	}
	if meant >= 0 {
		return meant
	}
	return slices.Index(numbered(options), typed)
}

func numbered(options []option) (numbers []string) {
	for i, o := range options {
		numbers = append(numbers, cmp.Or(o.number, strconv.Itoa(i+1)))
	}
	return numbers
}
