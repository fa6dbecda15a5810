package console

import (
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// decide is screen 3: what should be done about the bath, what a top-up and a
// refill would bring, and why. A gear officer signs here.
type decide struct {
	t    *theme
	x    *advise.Snapshot
	l    layout
	d    advise.Decision
	err  error // there is nothing to decide
	dose dosePanel

	basis  basis
	chosen string // what enter signs; "" for what is advised
	from   int    // the first line of the reasons that is shown

	drawn []string // cache, until something it depends on changes
}

// basis is what the officer's choice and dose were set on: when it changes,
// both go back to what is advised.
type basis struct {
	bath                    string
	fill, reading, decision uint64
}

func basisOf(x *advise.Snapshot) basis {
	b := basis{bath: x.Bath.ID, fill: x.Life.Fill.Seq}
	if x.PH.Last != nil {
		b.reading = x.PH.Last.Seq
	}
	if d, _, ok := x.Decided(); ok {
		b.decision = d.Seq
	}
	return b
}

func (s *decide) setTheme(t *theme) { s.t, s.dose.t, s.drawn = t, t, nil }

func (s *decide) setSize(l layout) { s.l, s.from, s.drawn = l, 0, nil }

func (s *decide) setSnapshot(x *advise.Snapshot) {
	s.x, s.drawn = x, nil
	s.d, s.err = x.Decide()
	if b := basisOf(x); b != s.basis {
		s.basis, s.chosen, s.from, s.dose.moved = b, "", 0, false
	}
	s.dose.set(x, s.d.TopUp)
	if !slices.Contains(s.choices(), s.chosen) {
		s.chosen = ""
	}
}

// choices are what can be signed; a top-up only where its figures are shown.
func (s *decide) choices() []string {
	if s.d.TopUp == nil {
		return []string{bath.ChoiceDrain, bath.ChoiceKeep}
	}
	return []string{bath.ChoiceTopUp, bath.ChoiceDrain, bath.ChoiceKeep}
}

// choice is what enter signs.
func (s *decide) choice() string {
	if s.chosen == "" {
		return s.d.Choice
	}
	return s.chosen
}

var decideKeys = struct{ sign, choose, less, more, none, full key.Binding }{
	sign:   bind("enter", "sign: the choice in brackets, by a gear officer", "enter"),
	choose: bind("tab", "choose: top up, drain or keep", "tab"),
	less:   bind("left", "less soap", "left"),
	more:   bind("right", "more soap", "right"),
	none:   bind("home", "no soap", "home"),
	full:   bind("end", "as much as the first dose", "end"),
}

func (s *decide) bindings() []key.Binding {
	if s.err != nil {
		return nil
	}
	b := []key.Binding{
		decideKeys.sign, decideKeys.choose,
		bind("up", "reasons before", "up"), bind("down", "more reasons", "down"),
	}
	if s.d.TopUp != nil {
		b = append(b, decideKeys.less, decideKeys.more, decideKeys.none, decideKeys.full)
	}
	return b
}

func (s *decide) key(msg tea.KeyPressMsg) action {
	if s.x == nil || s.err != nil {
		return nil
	}
	s.drawn = nil
	switch {
	case key.Matches(msg, keys.enter):
		return s.sign()
	case key.Matches(msg, keys.next):
		s.choose(1)
	case key.Matches(msg, keys.prev):
		s.choose(-1)
	case key.Matches(msg, keys.up):
		s.scroll(-1)
	case key.Matches(msg, keys.down):
		s.scroll(1)
	default:
		s.dose.key(msg)
	}
	return nil
}

func (s *decide) choose(by int) {
	all := s.choices()
	s.chosen = all[(slices.Index(all, s.choice())+by+len(all))%len(all)]
}

func (s *decide) scroll(by int) {
	s.from = max(0, min(s.from+by, s.lastFrom()))
}

// sign opens the form with what is in brackets. The dose goes in as it is
// shown, so that nothing is signed that was not on the screen.
func (s *decide) sign() action {
	preset := map[string]string{"choice": s.choice()}
	if s.choice() == bath.ChoiceTopUp {
		preset["dose"] = s.x.Sys.Volume(s.dose.doseL)
	}
	return openForm{kind: "decision", preset: preset}
}
