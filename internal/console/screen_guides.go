package console

import (
	"fmt"
	"slices"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/guide"
)

// guides is screen 6: the list of guides and of item cards; then one card, or
// one step of a guide at a time.
type guides struct {
	t   *theme
	x   *advise.Snapshot
	l   layout
	now time.Time

	all   []guide.Guide
	cards []guide.Card
	at    int // in the list: guides, then cards

	card      *guide.Card      // that is looked at; nil: none
	from      int              // the first row of it that is shown
	walk      *walk            // the guide that is open; nil: the list
	walks     map[string]*walk // where each was left, by its id
	lines     []bath.Entry     // the newest of the log book
	rehearsed bool             // a guide is practised, on a copy
}

// walk is a guide that somebody is in.
type walk struct {
	guide.Guide
	at    int       // the step
	since time.Time // when it was come to
	asked bool      // the form of its entry was opened
	wash  uint64    // line of the wash that it logged; 0: none yet
}

func (w *walk) step() guide.Step { return w.Steps[w.at] }

type (
	// openGuide asks for a guide by its id, at the step where it was left.
	openGuide struct{ id string }
	// practise asks for a copy of the log book to walk a guide on.
	practise struct{ id string }
	// practised says that the guide was walked to its end on a copy.
	practised struct{ id string }
	// leavePractice throws the copy away.
	leavePractice struct{}
	// skipAhead puts the clock of a practice forward: nobody waits for nothing.
	skipAhead struct{ by time.Duration }
	// pass shows good news that goes by itself.
	pass struct{ text string }
)

func newGuides(all []guide.Guide, cat *catalog.Catalog) *guides {
	s := &guides{all: all, walks: map[string]*walk{}}
	if cat != nil {
		for _, item := range cat.Items {
			s.cards = append(s.cards, guide.CardOf(item))
		}
	}
	return s
}

func (s *guides) setTheme(t *theme) { s.t = t }
func (s *guides) setSize(l layout)  { s.l = l }

func (s *guides) setSnapshot(x *advise.Snapshot) { s.x, s.now = x, x.Now }

// tick moves the time that a wait is held against.
func (s *guides) tick(now time.Time) { s.now = now }

func (s *guides) n() int { return len(s.all) + len(s.cards) }

var guideKeys = struct{ open, do, leave key.Binding }{
	open:  bind("enter", "open it: where it was left", "enter"),
	do:    bind("enter", "do it: tick it, or open its form", "enter"),
	leave: bind("esc", "leave it: it stays at this step", "esc"),
}

func (s *guides) bindings() []key.Binding {
	switch {
	case s.walk != nil && s.rehearsed:
		return []key.Binding{keys.enter, keys.back, bind("esc", "leave the practice: nothing is recorded", "esc")}
	case s.walk != nil:
		return []key.Binding{guideKeys.do, keys.back, keys.onward, guideKeys.leave}
	case s.card != nil:
		return []key.Binding{bind("esc", "back to the list", "esc"), keys.up, keys.down}
	case s.at < len(s.all):
		return []key.Binding{guideKeys.open, keys.rehearse, keys.up, keys.down}
	}
	return []key.Binding{bind("enter", "show the card", "enter"), keys.up, keys.down}
}

func (s *guides) key(msg tea.KeyPressMsg) action {
	switch {
	case s.walk != nil:
		return s.keyWalk(msg)
	case s.card != nil:
		s.keyCard(msg)
		return nil
	case s.n() == 0:
		return nil
	}
	if at, ok := moved(msg, s.at, s.n(), s.l.body.Dy()-2); ok {
		s.at = at
		return nil
	}
	switch {
	case s.at >= len(s.all):
		if key.Matches(msg, keys.enter) {
			s.card, s.from = &s.cards[s.at-len(s.all)], 0
		}
	case key.Matches(msg, keys.enter):
		s.open(s.all[s.at].ID)
	case key.Matches(msg, keys.rehearse):
		return practise{s.all[s.at].ID}
	}
	return nil
}

func (s *guides) list() list {
	if s.walk != nil || s.card != nil {
		return list{}
	}
	l := list{at: s.at, mark: func(i int) { s.at = i }, y: 1, from: firstShown(s.at, s.n(), s.l.body.Dy()-1)}
	for _, g := range s.all {
		l.rows = append(l.rows, g.Name+": "+g.For)
	}
	for _, c := range s.cards {
		l.rows = append(l.rows, c.Name+": "+c.Minutes)
	}
	return l
}

// copied is the step of the guide that is open.
func (s *guides) copied() string {
	if s.walk == nil {
		return ""
	}
	return s.walk.step().What
}

func (s *guides) keyCard(msg tea.KeyPressMsg) {
	if key.Matches(msg, keys.esc, keys.enter) {
		s.card = nil
		return
	}
	n := len(s.cardLines(s.l.w)) - (s.l.body.Dy() - 1) + 1 // places to scroll to
	if from, ok := moved(msg, s.from, max(1, n), s.l.body.Dy()-2); ok {
		s.from = from
	}
}

// open goes into a guide, where it was left.
func (s *guides) open(id string) {
	i := slices.IndexFunc(s.all, func(g guide.Guide) bool { return g.ID == id })
	if i < 0 {
		return
	}
	s.at, s.card = i, nil
	if s.walks[id] == nil {
		s.walks[id] = &walk{Guide: s.all[i], since: s.now}
	}
	s.walk = s.walks[id]
}

// rehearse goes into a guide from its first step, on a copy. What was left
// elsewhere stays as it was.
func (s *guides) rehearse(id string) {
	kept := s.walks[id]
	delete(s.walks, id)
	s.open(id)
	delete(s.walks, id)
	if kept != nil {
		s.walks[id] = kept
	}
	s.rehearsed = true
}

// stop ends a practice on screen.
func (s *guides) stop() { s.walk, s.rehearsed = nil, false }

func (s *guides) view() []string {
	w, h := s.l.w, s.l.body.Dy()
	switch {
	case s.x == nil:
		return rows(nil, w, h)
	case s.walk != nil:
		return rows(s.viewStep(w, h), w, h)
	case s.card != nil:
		return rows(s.viewCard(w, h), w, h)
	}
	return rows(s.viewList(w, h), w, h)
}

// viewList is guides, then cards, each under its title row.
func (s *guides) viewList(w, h int) []string {
	out := []string{s.t.title("Guides and cards", w, true)}
	if s.n() == 0 {
		return append(out, "  There are none here.")
	}
	first := firstShown(s.at, s.n(), h-1)
	for i := first; i < s.n() && len(out) < h; i++ {
		out = append(out, s.row(i, w))
	}
	return out
}

func (s *guides) row(i, w int) string {
	mark, name, say, right := "  ", "", "", "card "
	if i < len(s.all) {
		g := s.all[i]
		name, say, right = g.Name, g.For, fmt.Sprintf("%d steps ", len(g.Steps))
		if left := s.walks[g.ID]; left != nil {
			right = fmt.Sprintf("at step %d of %d ", left.at+1, len(g.Steps))
		}
	} else {
		c := s.cards[i-len(s.all)]
		name, say = c.Name, c.Minutes
	}
	const nameW, before = 19, 3 // mark and margin
	say = clauses(say, w-before-nameW-2-ansi.StringWidth(right)-1)
	if name = pad(name, nameW); i == s.at {
		mark, name = s.t.mark("▸ ", "> "), s.t.accent.Render(name)
	}
	return spread(" "+mark+name+"  "+s.t.muted.Render(say), " "+s.t.muted.Render(right), w)
}

// viewCard is the short card of an item type, from the row it was scrolled to.
func (s *guides) viewCard(w, h int) []string {
	lines := s.cardLines(w)
	from := min(s.from, max(0, len(lines)-(h-1)))
	return append([]string{s.t.title("Card: "+s.card.Name, w, true)}, lines[from:]...)
}

func (s *guides) cardLines(w int) (out []string) {
	c := s.card
	part := func(name string, lines ...string) {
		for i, l := range lines {
			for j, part := range wrap(l, w-14) {
				head := ""
				if i == 0 && j == 0 {
					head = name
				}
				out = append(out, "  "+s.t.accent.Render(pad(head, 10))+" "+part)
			}
		}
	}
	before := make([]string, len(c.Before))
	for i, b := range c.Before {
		before[i] = s.t.mark("▢ ", "[ ] ") + b.Say
	}
	part("before", before...)
	part("basket", c.Basket)
	part("minutes", c.Minutes+" ("+c.Source+")")
	part("hottest", c.Limit)
	part("after", c.After...)
	return out
}
