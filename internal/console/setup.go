package console

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/roster"
	"bathside/internal/station"
	"bathside/internal/units"
)

// setup is the first start: from nothing to a station with a tank, in one
// form. Every value can be changed later.
type setup struct {
	t      *theme
	cat    *catalog.Catalog
	fields fields
	err    string
	saving bool
}

// create asks for a new station with its first entries, and a first PIN of
// its officer unless that is "".
type create struct {
	drafts []station.Draft
	pin    station.PIN
}

func (s *setup) title() string { return "Set up this station" }

func (s *setup) bindings() []key.Binding {
	return []key.Binding{
		bind("enter", "next, and save at the end", "enter"), bind("shift+tab", "back", "shift+tab"), bind("ctrl+c", "leave", "ctrl+c"),
	}
}

func (s *setup) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	s.err = ""
	if k, ok := msg.(tea.KeyPressMsg); ok && key.Matches(k, keys.enter) {
		if err := s.try(); err != nil {
			s.err = sentence(err)
			return nil
		}
		if s.goesOn() {
			s.fields.focus(s.fields.at + 1)
			return nil
		}
		return s.save()
	}
	s.fields.update(msg)
	return nil
}

// try says what is wrong with the row that has the keys, before the next one.
func (s *setup) try() error {
	switch name := s.fields.rows[s.fields.at].name; name {
	case "tank", "mark", "heater", "set", "ratio":
		if _, row, err := s.tank(); row == name {
			return err
		}
	case "shift":
		if shift := s.get(name); shift != "" {
			_, err := roster.Parse(shift)
			return err
		}
	}
	return s.missing(s.fields.rows[s.fields.at].name)
}

// missing asks for what must be given and is not.
func (s *setup) missing(name string) error {
	ask := map[string]string{
		"station": "what is the station called? The top line shows it",
		"officer": "who is the gear officer? Give a name; others are added later",
		"tank":    "how much does the tank hold to the mark? Give it like 70gal or 265L",
	}[name]
	if ask == "" || s.get(name) != "" {
		return nil
	}
	return &bath.Refusal{ID: "missing", Say: ask}
}

// goesOn reports whether enter leads to the next row: up to a PIN, and from
// one to the same again.
func (s *setup) goesOn() bool {
	switch at := s.fields.rows[s.fields.at]; at.name {
	case rowAgain:
		return false
	case "pin":
		return at.value() != ""
	}
	return true
}

func (s *setup) save() action {
	drafts, err := s.drafts()
	pin := station.PIN(s.get("pin"))
	if err == nil && (pin != "" || s.get(rowAgain) != "") {
		if err = sameTwice(pin, station.PIN(s.get(rowAgain))); err != nil {
			s.fields.focusOn("pin")
		}
	}
	if err != nil {
		s.err = sentence(err)
		return nil
	}
	s.saving = true
	return create{drafts, pin}
}

func (s *setup) refused(err error) { s.saving, s.err = false, sentence(err) }

func (s *setup) system() units.System {
	sys, _ := units.ParseSystem(s.get("units"))
	return sys
}

func (s *setup) get(name string) string { return s.fields.row(name).value() }

// drafts are the first entries of the station.
func (s *setup) drafts() ([]station.Draft, error) {
	tank, row, err := s.tank()
	if err != nil {
		s.fields.focusOn(row)
		return nil, err
	}
	for _, name := range []string{"station", "officer", "tank"} {
		if err := s.missing(name); err != nil {
			s.fields.focusOn(name)
			return nil, err
		}
	}
	hot := s.get("hot") == "kept-hot"
	who := s.get("officer")
	site := &bath.Setting{
		Station: s.get("station"), Units: s.get("units"), Parts: s.get("parts"), KeptHot: &hot, Shift: s.get("shift"), Zone: s.get("zone"),
	}
	return []station.Draft{
		{By: who, Body: &bath.Member{Name: who, Role: bath.Officer}},
		{By: who, Body: site},
		{By: who, Bath: "main", Body: tank},
	}, nil
}

// tank is the tank as far as it is typed; on an error, row names what is
// wrong.
func (s *setup) tank() (tank *bath.Tank, row string, err error) {
	spec, _ := bath.SpecOf("tank")
	tank = new(bath.Tank)
	for _, ask := range [][2]string{{"volume", "tank"}, {"mark", "mark"}, {"heater", "heater"}, {"set", "set"}, {"ratio", "ratio"}} {
		f, _ := spec.Field(ask[0])
		if err := f.Set(tank, s.system().Scan, s.get(ask[1])); err != nil {
			return nil, ask[1], err
		}
	}
	if s.cat == nil {
		return tank, "", nil
	}
	if d, err := s.cat.Detergent(s.get("product")); err == nil {
		tank.Product, tank.Strongest, tank.Container, tank.ContainerL = d.Name, d.Strongest, d.Container, d.Size
		tank.Family, tank.BuilderPct = d.Family, d.Builder
		if tank.Ratio == 0 {
			tank.Ratio = d.Ratio
		}
	}
	return tank, "", nil
}

// note is why the row that has the keys is asked; where the ratio is, also what
// it comes to.
func (s *setup) note() string {
	name := s.fields.rows[s.fields.at].name
	say := []string{setupWhy[name]}
	if empty := IfEmpty[name]; empty != "" {
		say = append(say, "If left empty, "+empty+".")
	}
	if name == "ratio" || name == "parts" {
		say = append(say, s.doseSay())
	}
	return strings.TrimSpace(strings.Join(say, " "))
}

// doseSay shows both readings of the ratio, for the tank as typed.
func (s *setup) doseSay() string {
	tank, _, err := s.tank()
	if err != nil || tank.VolumeL <= 0 || tank.Ratio <= 0 {
		return ""
	}
	sys := s.system()
	whole, water := bath.Charge(tank.VolumeL, tank.Ratio, false), bath.Charge(tank.VolumeL, tank.Ratio, true)
	return fmt.Sprintf("At %g to 1 that is %s of the whole bath (volume/%g), or %s in its water (volume/%g).",
		tank.Ratio, sys.Pour(whole), tank.Ratio, sys.Pour(water), tank.Ratio+1)
}

func (s *setup) view(w, h int) ([]string, *tea.Cursor) {
	foot := wrap(s.note(), w-3)
	if s.err != "" {
		foot = wrap(s.t.mark("✗ ", "X ")+s.err, w-3)
	}
	foot = rows(foot, w-3, 3) // of one height, so that the rows above it stand still
	lines, cursor := s.fields.view(w, min(len(s.fields.rows), max(1, h-len(foot)-1)))
	lines = append(lines, "")
	for _, l := range foot {
		style := s.t.muted
		if s.err != "" {
			style = s.t.bad
		}
		lines = append(lines, " "+style.Render(strings.TrimRight(l, " ")))
	}
	return lines[:min(len(lines), h)], cursor
}

// create makes the station outside Update.
func (m *Model) create(a create) tea.Cmd {
	create := m.o.Create
	return func() tea.Msg {
		st, err := create(a.drafts...)
		if by := a.drafts[0].By; err == nil && a.pin != "" {
			return openedMsg{st, nil, st.SetPIN(by, a.pin, station.Signature{By: by})}
		}
		return openedMsg{station: st, err: err}
	}
}

func (m *Model) opened(msg openedMsg) tea.Cmd {
	if msg.err != nil {
		m.refused(msg.err)
		return nil
	}
	m.station = msg.station
	m.pop()
	m.toast.pass("The station is set up. Next says what to do.", m.now)
	if msg.pinErr != nil {
		m.toast.stay("The station is set up without a PIN: " + m.explain(msg.pinErr))
	}
	return tea.Batch(m.load(), m.watchOn())
}
