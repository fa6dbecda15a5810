package bath

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"bathside/internal/plain"
	"bathside/internal/units"
)

// Field is one thing that a kind of entry carries: how it is asked for and
// where the answer goes. Forms and command lines are made from Fields.
type Field struct {
	Name     string   // flag and key: "sample"
	Label    string   // on a form: "sample at"
	Help     string   // one short sentence
	Example  string   // what an answer looks like: "124F"
	Words    []string // the only words allowed, where it is a choice
	Optional bool
	List     bool // may be given several times
	YesNo    bool // a plain yes or no, no if left out

	// at points at the value inside a body: *units.Volume, *units.PH, *string,
	// *bool, *int, **bool, **units.Volume, *[]Load and the like, or a scanner
	// of its own.
	at func(Body) any
}

// field describes the value that at points to in a body of kind B.
func field[B Body, V any](name, label, example string, at func(B) *V) Field {
	_, yesNo := any(new(V)).(*bool)
	list := isList(any(new(V)))
	return Field{
		Name: name, Label: label, Example: example, Optional: yesNo, YesNo: yesNo, List: list,
		at: func(b Body) any { return at(b.(B)) },
	}
}

func isList(p any) bool {
	switch p.(type) {
	case *[]Load, *Points, *Tags:
		return true
	}
	return false
}

func (f Field) help(s string) Field        { f.Help = s; return f }
func (f Field) words(w ...string) Field    { f.Words = w; return f }
func (f Field) optional(help string) Field { f.Optional, f.Help = true, help; return f }

// Scanner reads text into a pointer to a quantity. units.Scan wants units;
// a System's Scan takes a bare number in the unit that the station shows.
type Scanner func(dst any, text string) error

// Set reads text into the field of b. The error is one sentence.
func (f Field) Set(b Body, scan Scanner, text string) error {
	text = strings.TrimSpace(text)
	if text == "" {
		if f.Optional {
			return nil
		}
		return f.missing()
	}
	if err := f.set(f.at(b), scan, text); err != nil {
		return &Refusal{ID: "input", Say: fmt.Sprintf("%s: %s", f.Label, err)}
	}
	return nil
}

// missing says what is wanted: one of the words, or an example.
func (f Field) missing() error {
	if len(f.Words) > 0 {
		return refuse("missing", "%s is missing: give one of %s", f.Label, strings.Join(f.Words, ", "))
	}
	return refuse("missing", "%s is missing: give it like %s", f.Label, f.Example)
}

// selfScanner is a value that reads what is typed by itself; it prints with
// String.
type selfScanner interface{ set(text string) error }

func (f Field) set(dst any, scan Scanner, text string) error {
	switch p := dst.(type) {
	case selfScanner:
		return p.set(text)
	case *string:
		return f.setWord(p, text)
	case *bool:
		return setBool(p, text)
	case *[]Load:
		return addLoad(p, text)
	case *uint64:
		n, err := strconv.ParseUint(strings.TrimPrefix(text, "#"), 10, 64)
		if err != nil {
			return fmt.Errorf("%q is not an entry number: it is a whole number like %s", short(text), f.Example)
		}
		*p = n
		return nil
	}
	v := reflect.ValueOf(dst).Elem()
	if v.Kind() == reflect.Pointer { // an optional value: nil means unknown
		fresh := reflect.New(v.Type().Elem())
		if err := f.set(fresh.Interface(), scan, text); err != nil {
			return err
		}
		v.Set(fresh)
		return nil
	}
	return scan(dst, text)
}

func (f Field) setWord(p *string, text string) error {
	if len(f.Words) == 0 {
		*p = clean(text)
		return tooLong(*p)
	}
	w := strings.ToLower(text)
	if !slices.Contains(f.Words, w) {
		return fmt.Errorf("%q is not one of %s", short(text), strings.Join(f.Words, ", "))
	}
	*p = w
	return nil
}

func setBool(p *bool, text string) error {
	switch strings.ToLower(text) {
	case "y", "yes", "true", "on", "1":
		*p = true
	case "n", "no", "false", "off", "0":
		*p = false
	default:
		return fmt.Errorf("%q is neither yes nor no", short(text))
	}
	return nil
}

// check refuses what Set would not have put there.
func (f Field) check(b Body) error {
	v := reflect.ValueOf(f.at(b)).Elem()
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil
		}
		v = v.Elem()
	}
	switch v.Kind() {
	case reflect.String:
		return f.checkWord(v.String())
	case reflect.Slice:
		if v.Len() > MostInList {
			return refuse("input", "%s: %d are too many for one line: at most %d; write the rest in another line", f.Label, v.Len(), MostInList)
		}
	case reflect.Float64:
		if f.amount(v) && !(v.Float() >= 0) { // NaN is none either
			return refuse("input", "%s of %g is not possible: it is 0 or more; give it like %s", f.Label, v.Float(), f.Example)
		}
	}
	return nil
}

// amount reports whether the value cannot be below nothing.
func (f Field) amount(v reflect.Value) bool {
	switch v.Interface().(type) {
	case units.Temperature, units.PH, units.Potential:
		return false // these may be below nothing, or their own checks say more
	}
	return true
}

func (f Field) checkWord(word string) error {
	switch {
	case word == "" && (f.Optional || len(f.Words) == 0):
		return nil // what must not be empty says so itself
	case word == "":
		return f.missing()
	case len(f.Words) > 0 && !slices.Contains(f.Words, word):
		return refuse("input", "%s: %q is not one of %s", f.Label, short(clean(word)), strings.Join(f.Words, ", "))
	case clean(word) != word:
		return refuse("input", "%s: %q holds signs that cannot be shown: write it again without them", f.Label, short(clean(word)))
	}
	if err := tooLong(word); err != nil {
		return refuse("input", "%s: %s", f.Label, err)
	}
	return nil
}

// What one field holds at the most. Both are far beyond what anybody writes
// down at a bath, and keep one line from filling the screen or the file.
const (
	MostText   = 500 // letters of a text
	MostInList = 200 // things in a list
)

// tooLong refuses a text that nobody would read.
func tooLong(s string) error {
	if len(s) <= MostText { // bytes are no fewer than letters
		return nil
	}
	if n := utf8.RuneCountInString(s); n > MostText {
		return fmt.Errorf("%d letters are too many: at most %d; say the rest in a line of its own", n, MostText)
	}
	return nil
}

// Get prints the field of b as it would be typed; "" where it is not set.
func (f Field) Get(b Body, sys units.System) string {
	v := reflect.ValueOf(f.at(b)).Elem()
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return ""
		}
		v = v.Elem()
	} else if v.IsZero() {
		return ""
	}
	switch x := v.Interface().(type) {
	case string:
		return x
	case bool:
		return yesNo(x)
	case []Load:
		return loadList(x)
	case fmt.Stringer:
		return x.String()
	case uint64:
		return strconv.FormatUint(x, 10)
	case float64:
		return strconv.FormatFloat(x, 'g', -1, 64)
	case int:
		return strconv.Itoa(x)
	default:
		return sys.Text(x)
	}
}

// merge copies every field that src has set into dst; both are of one kind.
func merge(s *Spec, dst, src Body) {
	for _, f := range s.Fields {
		from := reflect.ValueOf(f.at(src)).Elem()
		if !from.IsZero() {
			reflect.ValueOf(f.at(dst)).Elem().Set(from)
		}
	}
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// clean is what an entry keeps of a text: what of it can be shown, without
// spaces around it.
func clean(s string) string { return strings.TrimSpace(plain.Line(s)) }

// short cuts what somebody typed so that a refusal stays one line.
func short(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// day prints a time as the log book does.
func (s *State) day(t time.Time) string { return s.Times().DayClock(t) }
