package console

import (
	"image"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/catalog"
)

// screen is one of the numbered screens: what lies between strip and footer.
type screen interface {
	setTheme(*theme)
	setSize(layout)
	setSnapshot(*advise.Snapshot)
	key(tea.KeyPressMsg) action
	view() []string
	bindings() []key.Binding
}

// panel is a part of Today.
type panel interface {
	setSize(w, h int)
	setSnapshot(*advise.Snapshot)
	key(tea.KeyPressMsg) action
	view() []string
	title() string
	bindings() []key.Binding
}

// today is screen 1: next actions first, then the trend, then the cycle
// picker.
type today struct {
	t     *theme
	l     layout
	next  nextPanel
	trend trendPanel
	cycle cyclePanel
	focus int
}

func newToday(cat *catalog.Catalog) *today {
	return &today{cycle: cyclePanel{cat: cat, soil: 1}}
}

func (s *today) panels() []panel { return []panel{&s.next, &s.trend, &s.cycle} }

func (s *today) setTheme(t *theme) {
	s.t, s.next.t, s.cycle.t = t, t, t
	s.trend.setTheme(t)
}

func (s *today) setSize(l layout) {
	s.l = l
	s.cycle.folded = l.folded
	for i, r := range []image.Rectangle{l.next, l.trend, l.cycle} {
		s.panels()[i].setSize(r.Dx(), max(0, r.Dy()-1))
	}
}

func (s *today) setSnapshot(x *advise.Snapshot) {
	for _, p := range s.panels() {
		p.setSnapshot(x)
	}
}

func (s *today) key(msg tea.KeyPressMsg) action {
	switch {
	case key.Matches(msg, keys.next):
		s.focus = (s.focus + 1) % 3
	case key.Matches(msg, keys.prev):
		s.focus = (s.focus + 2) % 3
	default:
		return s.panels()[s.focus].key(msg)
	}
	return nil
}

func (s *today) bindings() []key.Binding {
	b := append(s.panels()[s.focus].bindings(), keys.next)
	if s.focus == 0 { // last, so that moving the focus leaves the footer's beginning as it is
		b = append(b, keys.guide)
	}
	return b
}

func (s *today) view() []string {
	if s.l.one {
		return s.block(s.focus, s.l.body.Dx())
	}
	var top []string
	if s.l.next.Dy() > 0 {
		top = beside(2, s.block(0, s.l.next.Dx()), s.block(1, s.l.trend.Dx()))
	}
	return append(top, s.block(2, s.l.cycle.Dx())...)
}

// block is a panel under its title row.
func (s *today) block(i, w int) []string {
	p := s.panels()[i]
	return append([]string{s.t.title(p.title(), w, i == s.focus)}, p.view()...)
}

// list is that of the panel with the keys, where it has one.
func (s *today) list() list {
	l, _ := listOf(s.panels()[s.focus])
	if l.y > 0 && !s.l.one {
		l.y += s.rect(s.focus).Min.Y - stripH
	}
	return l
}

func (s *today) rect(i int) image.Rectangle {
	return []image.Rectangle{s.l.next, s.l.trend, s.l.cycle}[i]
}

// click gives the keys to the panel under the pointer.
func (s *today) click(x, y int) {
	for i := range s.panels() {
		if !s.l.one && image.Pt(x, y+stripH).In(s.rect(i)) {
			s.focus = i
		}
	}
}
