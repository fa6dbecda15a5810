package guide

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// order is how the guides stand in a list: as a bath lives. A file that is not
// in it comes after them, by its name.
var order = []string{"set-up", "weekly-reading", "load-and-run", "filter", "drain-and-refill", "calibrate-meter"}

// Form says what is wrong with an entry of a kind that is preset so; nil if it
// can be typed. The packages that know entries have one.
type Form func(kind string, preset map[string]string) error

// Load reads every guides/*.toml of fsys. Steps are held against form, unless
// it is nil. Every mistake is found in one go: the error is then a
// [catalog.Mistakes], by file and line.
func Load(fsys fs.FS, form Form) ([]Guide, error) {
	files, err := fs.Glob(fsys, "guides/*.toml")
	if err != nil {
		return nil, fmt.Errorf("read guides: %w", err)
	}
	var all []Guide
	var mistakes catalog.Mistakes
	for _, file := range files {
		text, err := fs.ReadFile(fsys, file)
		if err != nil {
			return nil, fmt.Errorf("read guides: %w", err)
		}
		g, wrong := read(file, text, form)
		all, mistakes = append(all, g), append(mistakes, wrong...)
	}
	if len(mistakes) > 0 {
		return nil, fmt.Errorf("read guides: %w", mistakes)
	}
	slices.SortStableFunc(all, func(a, b Guide) int { return rank(a.ID) - rank(b.ID) })
	return all, nil
}

func rank(id string) int {
	if i := slices.Index(order, id); i >= 0 {
		return i
	}
	return len(order)
}

// written is a guide as it stands in its file.
type written struct {
	Name string        `toml:"name"`
	For  string        `toml:"for"`
	Step []writtenStep `toml:"step"`
}

type writtenStep struct {
	What    string            `toml:"what"`
	Why     string            `toml:"why"`
	Caution string            `toml:"caution"`
	Do      string            `toml:"do"`
	Preset  map[string]string `toml:"preset"`
	Repeat  bool              `toml:"repeat"`
	Check   string            `toml:"check"`
	Wait    string            `toml:"wait"`
}

// read makes a guide of one file, and says what is wrong with it.
func read(file string, text []byte, form Form) (Guide, catalog.Mistakes) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	r := &reader{file: file, lines: linesOf(text), form: form}
	var w written
	dec := toml.NewDecoder(bytes.NewReader(text)).DisallowUnknownFields()
	if err := dec.Decode(&w); err != nil {
		r.decoding(err)
		return Guide{}, r.mistakes
	}
	g := Guide{ID: idOf(file), Name: w.Name, For: w.For}
	r.words(r.lines.top, "name", w.Name, 30, true)
	r.words(r.lines.top, "for", w.For, 70, true)
	if len(w.Step) == 0 {
		r.wrong(1, "there is no [[step]]: write at least one")
	}
	for i, s := range w.Step {
		g.Steps = append(g.Steps, r.step(i, s))
	}
	return g, r.mistakes
}

func idOf(file string) string {
	return strings.TrimSuffix(file[strings.LastIndex(file, "/")+1:], ".toml")
}

// waitWash is the word for a wait that the wash in the bath measures.
const waitWash = "wash"

// step checks one step. The lengths are such as a window of 60 by 16 holds.
func (r *reader) step(i int, w writtenStep) Step {
	at := r.lines.step(i)
	r.words(at, "what", w.What, 90, true)
	r.words(at, "why", w.Why, 150, true)
	r.words(at, "caution", w.Caution, 150, false)
	r.words(at, "check", w.Check, 100, false)
	s := Step{What: w.What, Why: w.Why, Caution: w.Caution, Do: w.Do, Preset: w.Preset, Repeat: w.Repeat, Check: w.Check}
	switch {
	case w.Wait == waitWash:
		s.UntilWashed = true
	case w.Wait != "":
		s.Wait = r.span(at, w.Wait)
	}
	if ways := count(w.Do != "", w.Check != "", w.Wait != ""); ways != 1 {
		r.wrong(at.head, "step %d has %d of do, check and wait: write the one that lets it pass", i+1, ways)
	}
	r.entry(at, w)
	return s
}

func (r *reader) span(at where, text string) units.Span {
	t, err := units.Parse[units.Span](text)
	if err != nil || t <= 0 {
		r.wrong(at.line("wait"), `"wait" is %q: write how long, such as "15 min", or %q for the timer of the wash`, text, waitWash)
	}
	return t
}

// entry checks that what the step records can be typed.
func (r *reader) entry(at where, w writtenStep) {
	switch {
	case w.Do == "" && len(w.Preset) > 0:
		r.wrong(at.line("preset"), `"preset" fills in an entry, and the step has none: write its kind as "do"`)
	case w.Do == "" && w.Repeat:
		r.wrong(at.line("repeat"), `"repeat" asks for an entry again, and the step has none: write its kind as "do"`)
	case w.Do != "" && r.form != nil:
		if err := r.form(w.Do, w.Preset); err != nil {
			field := "do"
			if len(w.Preset) > 0 {
				field = "preset"
			}
			r.wrong(at.line(field), "%s: %v", w.Do, err)
		}
	}
}

func count(all ...bool) (n int) {
	for _, b := range all {
		if b {
			n++
		}
	}
	return n
}

// decoding puts the parser's complaints in our form.
func (r *reader) decoding(err error) {
	var strict *toml.StrictMissingError
	var bad *toml.DecodeError
	switch {
	case errors.As(err, &strict):
		for _, e := range strict.Errors {
			line, _ := e.Position()
			r.wrong(line, "%q is not known here: a guide has name, for and [[step]]; a step has what, why, caution, do, preset, repeat, check, wait", strings.Join(e.Key(), "."))
		}
	case errors.As(err, &bad):
		line, _ := bad.Position()
		r.wrong(line, "this is not TOML as a guide has it: %s", strings.TrimPrefix(bad.Error(), "toml: "))
	default:
		r.wrong(1, "%v", err)
	}
}
