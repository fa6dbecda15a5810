package console

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/catalog"
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

func newSetup(t *theme, o Options) *setup {
	s := &setup{t: t, cat: o.Catalog, fields: fields{t: t}}
	var products []string
	if o.Catalog != nil {
		for _, d := range o.Catalog.Detergents {
			products = append(products, d.ID)
		}
	}
	first := ""
	if len(products) > 0 {
		first = products[0]
	}
	s.fields.rows = []*row{
		newRow("station", "station", "as the top line shows it"),
		newRow("officer", "gear officer", "you: the first member; others are added later").set(o.User),
		newRow("units", "units", "gallons and °F, or litres and °C", "us", "si").set("us"),
		newRow("tank", "tank holds", "to the mark, like 70gal or 265L"),
		newRow("mark", "the mark", "where it is, in your own words"),
		newRow("heater", "heater", "from its plate, like 6kW"),
		newRow("product", "soap", "what goes in", products...).set(first),
		newRow("ratio", "ratio", "parts to 1; the label's, if left empty"),
		newRow("parts", "parts are", "R to 1: of the whole bath, or of its water", bath.PartsOfTotal, bath.PartsInWater).set(bath.PartsOfTotal),
		newRow("set", "set point", "122 °F (50 °C), if left empty"),
		newRow("hot", "bath is", "kept hot day and night, or heated for washing", "heated", "kept-hot").set("heated"),
		newRow("shift", "shifts", "24/48@07:00, 48/96@08:00, kelly@07:00, drill:tue@19:00, or empty"),
		newRow("zone", "time zone", "like America/Denver").set(o.Zone),
		secretRow(t, "pin", "first PIN", "your own, by tab; or empty: nobody is asked for one"),
		secretRow(t, rowAgain, "PIN again", "the same digits"),
	}
	for _, r := range s.fields.rows {
		r.optional = r.name != "station" && r.name != "officer" && r.name != "tank"
	}
	s.fields.focus(0)
	return s
}

func (s *setup) title() string { return "Set up this station" }

func (s *setup) bindings() []key.Binding {
	return []key.Binding{
		bind("enter", "next, and save at the end", "enter"), bind("tab", "next field", "tab"), bind("ctrl+c", "leave", "ctrl+c"),
	}
}

func (s *setup) update(msg tea.Msg) action {
	if s.saving {
		return nil
	}
	s.err = ""
	if k, ok := msg.(tea.KeyPressMsg); ok && key.Matches(k, keys.enter) {
		if s.goesOn() {
			s.fields.focus(s.fields.at + 1)
			return nil
		}
		return s.save()
	}
	s.fields.update(msg)
	return nil
}

// goesOn reports whether enter leads to the next row: up to the time zone, and
// from a PIN to the same again.
func (s *setup) goesOn() bool {
	switch at := s.fields.rows[s.fields.at]; at.name {
	case "zone", rowAgain:
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
	hot := s.get("hot") == "kept-hot"
	who := s.get("officer")
	if who == "" {
		s.fields.focusOn("officer")
		return nil, &bath.Refusal{ID: "missing", Say: "who is the gear officer? Give a name; others are added later"}
	}
	site := &bath.Setting{
		Station: s.get("station"), Units: s.get("units"), Parts: s.get("parts"), KeptHot: &hot, Shift: s.get("shift"), Zone: s.get("zone"),
	}
	if site.Station == "" {
		s.fields.focusOn("station")
		return nil, &bath.Refusal{ID: "missing", Say: "what is the station called? The top line shows it"}
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

// note shows both readings of the ratio once, for the tank as typed.
func (s *setup) note() string {
	tank, _, err := s.tank()
	if err != nil || tank.VolumeL <= 0 || tank.Ratio <= 0 {
		return ""
	}
	sys := s.system()
	whole, water := bath.Charge(tank.VolumeL, tank.Ratio, false), bath.Charge(tank.VolumeL, tank.Ratio, true)
	return fmt.Sprintf("A first dose at %g to 1: %s of the whole (volume/%g), or %s in its water (volume/%g).",
		tank.Ratio, sys.Pour(whole), tank.Ratio, sys.Pour(water), tank.Ratio+1)
}

func (s *setup) view(w, h int) ([]string, *tea.Cursor) {
	foot := wrap(s.note(), w-3)
	if s.err != "" {
		foot = wrap(s.t.mark("✗ ", "X ")+s.err, w-3)
	}
	foot = foot[:min(len(foot), 3)]
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
