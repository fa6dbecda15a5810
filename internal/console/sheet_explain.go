package console

import (
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/plain"
)

// explainSheet says whole why something is to be done, and where the figures in
// it come from.
type explainSheet struct {
	t *theme
	a advise.Action
}

type (
	// explain asks for it.
	explain struct{ a advise.Action }
	// explainFigure asks where a figure comes from; "" is the first of all.
	explainFigure struct{ id string }
)

func (s *explainSheet) title() string { return "Why: " + s.a.Say }

func (s *explainSheet) bindings() []key.Binding {
	return []key.Binding{keys.esc, bind("i", "all figures: where each comes from", "i")}
}

func (s *explainSheet) copied() string { return s.a.Say + ": " + s.a.Why }

func (s *explainSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok:
		return nil
	case key.Matches(k, keys.explain):
		return explainFigure{}
	}
	return closeSheet{}
}

func (s *explainSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines := indented(capital(s.a.Why)+".", w-1)
	for _, from := range s.a.From {
		lines = append(lines, s.t.bullet(capital(from)+".", w)...)
	}
	return lines[:min(len(lines), h)], tea.NewCursor(1, 0)
}

// bullet is a sentence behind a dot, in as many rows as it takes.
func (t *theme) bullet(text string, w int) (out []string) {
	for i, l := range wrap(text, w-5) {
		lead := "   "
		if i == 0 {
			lead = " · "
		}
		out = append(out, lead+t.muted.Render(l))
	}
	return out
}

// figuresSheet lists every figure that can be asked about; the marked one says
// how it was reckoned, from what, how far it may be out, and by whose word.
type figuresSheet struct {
	t   *theme
	all []advise.Figure
	at  int
}

func newFigures(t *theme, all []advise.Figure, id string) *figuresSheet {
	at := slices.IndexFunc(all, func(f advise.Figure) bool { return f.ID == id })
	return &figuresSheet{t: t, all: all, at: max(0, at)}
}

func (s *figuresSheet) title() string { return "Where the figures come from" }

func (s *figuresSheet) bindings() []key.Binding {
	return []key.Binding{keys.esc, keys.up, keys.down, keys.find, keys.copy}
}

func (s *figuresSheet) list() list {
	rows := make([]string, len(s.all))
	for i, f := range s.all {
		rows[i] = f.Name + ": " + f.Value
	}
	return list{rows: rows, at: s.at, mark: func(i int) { s.at = i }}
}

func (s *figuresSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok:
	case key.Matches(k, keys.esc, keys.enter, keys.explain):
		return closeSheet{}
	default:
		if at, ok := moved(k, s.at, len(s.all), 8); ok {
			s.at = at
		}
	}
	return nil
}

// view gives the marked figure the room that it takes, and the others a row
// each about it.
func (s *figuresSheet) view(w, h int) ([]string, *tea.Cursor) {
	whole := s.whole(s.all[s.at], w)
	whole = whole[:min(len(whole), h)]
	room := max(1, h-len(whole)+1)
	first := firstShown(s.at, len(s.all), room)
	var lines []string
	cursor := 0
	for i := first; i < len(s.all) && len(lines) < h; i++ {
		if i != s.at {
			lines = append(lines, "   "+fit(w-4, plain.Line(s.all[i].Name+": "+s.all[i].Value)))
			continue
		}
		cursor = len(lines)
		lines = append(lines, whole...)
	}
	return lines[:min(len(lines), h)], tea.NewCursor(1, min(cursor, h-1))
}

// whole is the marked figure with all that is to be said of it.
func (s *figuresSheet) whole(f advise.Figure, w int) []string {
	var lines []string
	for i, l := range wrap(plain.Line(f.Name+": "+f.Value), w-4) {
		lead := "   "
		if i == 0 {
			lead = " " + s.t.mark("▸ ", "> ")
		}
		lines = append(lines, lead+s.t.accent.Render(l))
	}
	part := func(name, text string) {
		if text == "" {
			return
		}
		for i, l := range wrap(plain.Line(text), w-16) {
			head := ""
			if i == 0 {
				head = name
			}
			lines = append(lines, "   "+s.t.muted.Render(pad(head, 11))+l)
		}
	}
	part("how", capital(f.How)+".")
	part("from", strings.Join(f.From, "; "))
	part("may be out", f.Unsure)
	part("by", f.Source)
	return lines
}
