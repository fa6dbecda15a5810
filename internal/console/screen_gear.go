package console

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
)

// gear is screen 5: what was washed and is not back in service, each with its
// next step; below it the tagged pieces, where they are and their dates. A
// station that tags nothing has the first list alone.
type gear struct {
	t   *theme
	x   *advise.Snapshot
	l   layout
	cat *catalog.Catalog

	batches []bath.Batch // the newest wash first
	pieces  []advise.GearLine
	tagged  bool   // the pieces have the keys, not the batches
	at      [2]int // the marked row of either list
}

func newGear(cat *catalog.Catalog) *gear { return &gear{cat: cat} }

func (s *gear) setTheme(t *theme) { s.t = t }
func (s *gear) setSize(l layout)  { s.l = l }

func (s *gear) setSnapshot(x *advise.Snapshot) {
	s.x = x
	s.batches = slices.Clone(x.Bath.Batches)
	slices.Reverse(s.batches)
	s.pieces = x.Gear()
	s.at[0] = max(0, min(s.at[0], len(s.batches)-1))
	s.at[1] = max(0, min(s.at[1], len(s.pieces)-1))
	s.tagged = s.tagged && len(s.pieces) > 0
}

var (
	gearStep     = bind("enter", "the next step: log it", "enter")
	gearPiece    = bind("enter", "what is next for the piece", "enter")
	gearRegister = bind("a", "add: register a tag, or change the marked one", "a")
	gearTag      = bind("o", "out of use: hang a red tag on the marked thing", "o")
)

func (s *gear) bindings() []key.Binding {
	if len(s.pieces) == 0 {
		return []key.Binding{gearStep, keys.up, keys.down, gearTag, gearRegister}
	}
	enter := gearStep
	if s.tagged {
		enter = gearPiece
	}
	return []key.Binding{enter, keys.up, keys.down, keys.next, gearTag, gearRegister, keys.find}
}

func (s *gear) key(msg tea.KeyPressMsg) action {
	if s.x == nil {
		return nil
	}
	which, n := s.focused()
	if at, ok := moved(msg, s.at[which], n, s.l.body.Dy()/2); ok {
		s.at[which] = max(0, at)
		return nil
	}
	switch {
	case key.Matches(msg, keys.next), key.Matches(msg, keys.prev):
		s.tagged = !s.tagged && len(s.pieces) > 0
	case key.Matches(msg, gearRegister):
		return s.register()
	case key.Matches(msg, gearTag):
		return s.hold()
	case key.Matches(msg, keys.enter):
		return s.enter()
	}
	return nil
}

// focused is which of the two lists has the keys, and how long it is.
func (s *gear) focused() (which, n int) {
	if s.tagged {
		return 1, len(s.pieces)
	}
	return 0, len(s.batches)
}

func (s *gear) batch() (bath.Batch, bool) {
	if s.tagged || len(s.batches) == 0 {
		return bath.Batch{}, false
	}
	return s.batches[s.at[0]], true
}

func (s *gear) piece() (advise.GearLine, bool) {
	if !s.tagged || len(s.pieces) == 0 {
		return advise.GearLine{}, false
	}
	return s.pieces[s.at[1]], true
}

// enter opens the form of what comes next for the marked thing.
func (s *gear) enter() action {
	if b, ok := s.batch(); ok {
		return stepForm(b)
	}
	p, ok := s.piece()
	if !ok {
		return nil
	}
	if p.Hold != nil {
		return openForm{kind: "gear-release", preset: map[string]string{"tag": p.Tag}}
	}
	for _, b := range s.batches {
		if slices.Contains(b.Tags, p.Tag) {
			return stepForm(b)
		}
	}
	return openForm{kind: "inspect", preset: map[string]string{"tags": p.Tag}}
}

func stepForm(b bath.Batch) action {
	preset := advise.CarePreset(b)
	switch _, more := b.Next(); {
	case b.Hold != nil:
		return openForm{kind: "gear-release", preset: map[string]string{"wash": preset["wash"]}}
	case more:
		return openForm{kind: "care", preset: preset}
	}
	return openForm{kind: "ready", preset: preset}
}

func (s *gear) register() action {
	if p, ok := s.piece(); ok {
		return openForm{kind: "gear", preset: map[string]string{"tag": p.Tag}}
	}
	return openForm{kind: "gear"}
}

func (s *gear) hold() action {
	if b, ok := s.batch(); ok {
		return openForm{kind: "gear-hold", preset: map[string]string{"wash": fmt.Sprint(b.Wash)}}
	}
	if p, ok := s.piece(); ok {
		return openForm{kind: "gear-hold", preset: map[string]string{"tag": p.Tag}}
	}
	return nil
}

// list is the tags first where there are any, so that a scanner finds them
// from either list.
func (s *gear) list() list {
	if s.x == nil {
		return list{}
	}
	l := list{at: s.at[0], mark: func(i int) { s.tagged, s.at[0] = false, i }}
	if s.tagged || len(s.batches) == 0 {
		l = list{at: s.at[1], mark: func(i int) { s.tagged, s.at[1] = len(s.pieces) > 0, i }}
		for _, p := range s.pieces {
			l.rows = append(l.rows, strings.Join([]string{p.Tag, s.itemName(p.Item), p.Where}, "  "))
		}
		return l
	}
	for _, b := range s.batches {
		l.rows = append(l.rows, strings.Join([]string{b.Say(), b.Where(), fmt.Sprintf("line %d", b.Wash)}, "  "))
	}
	return l
}

// seek goes to a tag, whichever list was looked through; one that is not there
// is to be registered.
func (s *gear) seek(tag string) action {
	i := slices.IndexFunc(s.pieces, func(p advise.GearLine) bool { return strings.EqualFold(p.Tag, tag) })
	if i < 0 {
		return openForm{kind: "gear", preset: map[string]string{"tag": tag}}
	}
	s.tagged, s.at[1] = true, i
	return nil
}

// sinceSay is how long ago something was: "12 min", "3 h", "2 days".
func sinceSay(d time.Duration) string {
	switch {
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(max(0, d).Minutes()))
	case d < 48*time.Hour:
		return fmt.Sprintf("%d h", int(d.Hours()))
	}
	return fmt.Sprintf("%d days", int(d.Hours()/24))
}
