package bath

import "reflect"

// Scrub takes out of an entry's texts, wherever they stand in its body, what
// could harm a terminal or hide. Every entry goes through it on its way from a
// draft or the journal, so that no State and no line holds such text. An entry
// of a newer Bathside is left as it came: it is not shown.
func (e *Entry) Scrub() {
	e.By, e.Bath = clean(e.By), clean(e.Bath)
	if _, ok := e.Body.(*Unknown); !ok {
		scrub(reflect.ValueOf(e.Body))
	}
}

// scrub goes through everything that v holds.
func scrub(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		if s := clean(v.String()); s != v.String() {
			v.SetString(s)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			scrub(v.Elem())
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() == reflect.Uint8 {
			return // an entry within an entry is scrubbed when it is read
		}
		for i := range v.Len() {
			scrub(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() { // else it is another package's own
				scrub(f)
			}
		}
	}
}
