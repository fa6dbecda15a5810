package console

import (
	"fmt"
	"slices"

	"charm.land/bubbles/v2/key"

	"bathside/internal/advise"
)

// offers is all that can be asked for, by this screen first.
func (m *Model) offers() (all []offer) {
	for _, b := range append(m.screens[m.shown].bindings(), m.anywhere()...) {
		if slices.Contains(arrows, b.Help().Key) || b.Help() == keys.palette.Help() {
			continue
		}
		all = append(all, offerOf(b, m.whyNot))
	}
	all = append(all, m.standing()...)
	for _, o := range kindOffers() {
		if !slices.ContainsFunc(all, func(had offer) bool { return o.key != "" && had.key == o.key }) {
			if open, ok := o.do.(openForm); ok {
				o.why = m.x.WhyNot(open.kind)
			}
			all = append(all, o)
		}
	}
	all = append(all, m.guides.offers()...)
	return append(all, m.bathOffers()...)
}

// standing is how things stand, in a line each; enter says it again in full.
func (m *Model) standing() (all []offer) {
	for _, f := range m.x.Figures() {
		all = append(all, offer{say: f.Name + ": " + f.Value, right: "as it stands", words: f.ID + " " + f.Also, do: explainFigure{f.ID}})
	}
	return all
}

func (m *Model) bathOffers() (all []offer) {
	if len(m.state.Baths) < 2 {
		return nil
	}
	for _, b := range m.state.Baths {
		name := b.Tank.Name
		if name == "" {
			name = b.ID
		}
		all = append(all, offer{say: "Show the bath " + name, words: b.ID, do: showBath{b.ID}})
	}
	return all
}

// showBath asks for another bath.
type showBath struct{ id string }

// offers are the guides, practising them, and the cards.
func (s *guides) offers() (all []offer) {
	for _, g := range s.all {
		all = append(all, offer{say: "Guide: " + g.Name, right: fmt.Sprintf("%d steps", len(g.Steps)), words: g.For, do: openGuide{g.ID}})
	}
	for _, g := range s.all {
		all = append(all, offer{say: "Practise: " + g.Name, right: "nothing is logged", do: practise{g.ID}})
	}
	for _, c := range s.cards {
		all = append(all, offer{say: "Card: " + c.Name, right: "how it is washed", do: openCard{c.Name}})
	}
	return all
}

// openCard asks for the card of an item type.
type openCard struct{ name string }

func (m *Model) openCard(name string) {
	m.shown = keys.guides.Help().Key
	m.guides.walk = nil
	for i, c := range m.guides.cards {
		if c.Name == name {
			m.guides.at, m.guides.card, m.guides.from = len(m.guides.all)+i, &m.guides.cards[i], 0
		}
	}
}

// refuser is a screen that knows why a key of its own does nothing now.
type refuser interface{ whyNot(key.Binding) string }

// whyNot says why a key cannot be used now; "" where it can.
func (m *Model) whyNot(b key.Binding) string {
	if m.x == nil {
		return ""
	}
	for _, kk := range kindKeys {
		if kk.key.Help() == b.Help() {
			return m.x.WhyNot(kk.kind)
		}
	}
	switch b.Help() {
	case keys.undo.Help():
		_, why := m.lastOwn()
		return why
	case keys.find.Help():
		if _, ok := listOf(m.screens[m.shown]); !ok {
			return "no list is marked here"
		}
	}
	if r, ok := m.screens[m.shown].(refuser); ok {
		return r.whyNot(b)
	}
	return ""
}

// figures are those of the screen that is shown, then those of the bath.
func (m *Model) figures() []advise.Figure {
	var own []advise.Figure
	if f, ok := m.screens[m.shown].(interface{ figures() []advise.Figure }); ok {
		own = f.figures()
	}
	return append(own, m.x.Figures()...)
}

// figureHere is the figure that the screen is about first.
func (m *Model) figureHere() string {
	switch m.screens[m.shown].(type) {
	case *today:
		return []string{"state", "far", "temp"}[m.today.focus]
	case *readings:
		return "drop"
	case *decide:
		return "top-up"
	case *washing:
		return "minutes"
	}
	return ""
}
