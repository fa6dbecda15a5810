package bath

import (
	"reflect"
	"strings"
	"time"
)

// Origin is the line that a value of the station's set-up stands by.
type Origin struct {
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
}

// SetBy is who gave a field of the set-up the value that it has. It is false
// where nobody did and the usual value stands. about names what the field is
// of, where there may be several: a bath's id, a member's name, a basket as
// BasketKey has it; "" for a setting.
func (s *State) SetBy(k Kind, about, field string) (Origin, bool) {
	o, ok := s.Origins[originKey(k, about, field)]
	return o, ok
}

// BasketKey names a basket for SetBy: another bath may have one of that name.
func BasketKey(bath, name string) string { return bath + "/" + name }

func originKey(k Kind, about, field string) string {
	return strings.ToLower(string(k) + " " + about + ": " + field)
}

// noteOrigin keeps whose word each value is that e gives the set-up. Such an
// entry carries only what changes, so every field that it has is a new word.
func (s *State) noteOrigin(e Entry) {
	b, ok := e.Body.(interface{ about(Entry) string })
	if !ok {
		return
	}
	about := b.about(e)
	for _, f := range e.Body.spec().Fields {
		if !reflect.ValueOf(f.at(e.Body)).Elem().IsZero() {
			s.Origins[originKey(e.Kind(), about, f.Name)] = Origin{e.Seq, e.At, e.By}
		}
	}
}

func (s *Setting) about(Entry) string  { return "" }
func (t *Tank) about(e Entry) string   { return e.Bath }
func (m *Member) about(Entry) string   { return m.Name }
func (b *Basket) about(e Entry) string { return BasketKey(e.Bath, b.Name) }

// Usual is a body of the kind with the values that hold until somebody gives
// others; a field without such a value is not set in it. Never change it.
func (s *Spec) Usual() Body {
	if s.usual == nil {
		return s.New()
	}
	return s.usual
}
