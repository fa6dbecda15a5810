package console

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// draw is exactly the window, in letters that the terminal has.
func (m *Model) draw() (string, *tea.Cursor) {
	if m.l.w <= 0 || m.l.h <= 0 {
		return "", nil
	}
	drawn, cursor := m.rows()
	if cursor != nil {
		cursor.X = min(m.t.column(drawn[cursor.Y], cursor.X), m.l.w-1)
	}
	for i, row := range drawn {
		drawn[i] = m.t.letters(row, m.l.w)
	}
	return strings.Join(drawn, "\n"), cursor
}

// rows joins strip, screen, sheets and footer.
func (m *Model) rows() ([]string, *tea.Cursor) {
	if m.l.tiny {
		return rows(wrap(m.tinySay(), m.l.w), m.l.w, m.l.h), nil
	}
	base := m.t.strip(m.x, m.now, m.banner(), m.l.w)
	base = append(base, rows(m.body(), m.l.w, m.l.body.Dy())...)
	base = append(base, m.foot())
	var cursor *tea.Cursor
	for _, s := range m.inSight() {
		base, cursor = m.t.cover(base, s, m.l.w)
	}
	if cursor == nil {
		cursor = m.rowCursor(base)
	}
	return base, cursor
}

// inSight is the sheet on top, over the one that it looks through.
func (m *Model) inSight() []sheet {
	n := len(m.sheets)
	if f, ok := m.top().(*findSheet); ok && n > 1 && any(m.sheets[n-2]) == f.in {
		return m.sheets[n-2:]
	}
	return m.sheets[max(0, n-1):]
}

// rowCursor puts the cursor on the marked row of what has the keys, where no
// form has it: a screen reader and a braille display read the row with the
// cursor.
func (m *Model) rowCursor(rows []string) *tea.Cursor {
	title, sign := m.t.ruleFocus+m.t.mark("▸", ">"), m.t.mark("▸ ", "> ")
	left := -1
	for y := stripH; y < len(rows)-footerH; y++ {
		if at, ok := cellOf(rows[y], title); ok {
			left = at
		} else if at, ok := cellAfter(rows[y], sign, left); ok && left >= 0 && at <= left+markIn {
			return tea.NewCursor(at, y)
		}
	}
	return nil
}

// markIn is how far right of its panel's edge the mark of a row may stand.
const markIn = 4

// cellOf is the cell where part begins in a row.
func cellOf(row, part string) (int, bool) {
	before, _, ok := strings.Cut(row, part)
	return ansi.StringWidth(before), ok
}

// cellAfter is the first such cell from the cell left on.
func cellAfter(row, part string, left int) (int, bool) {
	from := 0
	for {
		i := strings.Index(row[from:], part)
		if i < 0 {
			return 0, false
		}
		if at := ansi.StringWidth(row[:from+i]); at >= left {
			return at, true
		}
		from += i + len(part)
	}
}

func (m *Model) body() []string {
	if m.x == nil {
		return nil
	}
	return m.screens[m.shown].view()
}

// tinySay is all that a window too small for a screen holds.
func (m *Model) tinySay() string {
	s := fmt.Sprintf("This window is %d x %d; Bathside needs %d x %d.", m.l.w, m.l.h, smallW, smallH)
	if m.practice != nil {
		s = "PRACTICE. " + s
	}
	if m.x != nil {
		if tag := m.x.TagSay(); tag != "" {
			return tag + ". " + s
		}
	}
	return s
}

// foot is the last row: what was just said, or the keys that matter now, and
// where there is room the way to the other screens.
func (m *Model) foot() string {
	if s := m.top(); s != nil && !m.toast.bad {
		return m.t.footer(withoutArrows(s.bindings()), "", m.l.w, nil)
	}
	elsewhere := m.elsewhere()
	if said := m.toast.view(m.t); said != "" {
		if ansi.StringWidth(said)+2+ansi.StringWidth(elsewhere)+1 > m.l.w {
			return pad(said, m.l.w)
		}
		return spread(said, m.t.muted.Render(elsewhere)+" ", m.l.w)
	}
	if m.x == nil {
		return m.t.footer([]key.Binding{keys.quit}, "", m.l.w, nil)
	}
	list := append([]key.Binding{keys.help}, m.screens[m.shown].bindings()...)
	list = withoutArrows(list)
	list = append(list, keys.reading, keys.wash, keys.temp, keys.filter, keys.dose, keys.water, keys.record, keys.catch, keys.palette)
	list = list[:min(len(list), footKeys)]
	return m.t.footer(list, elsewhere, m.l.w, m.whyNot)
}

// elsewhere is the right end of the last row: the screens, and the way out.
func (m *Model) elsewhere() string {
	switch {
	case m.x == nil || m.top() != nil:
		return ""
	case m.l.w < fullW:
		return fit(m.l.w/2, m.screenKeys(false)+"   q quit", m.screenKeys(false))
	}
	return fit(m.l.w*2/3, m.screenKeys(true)+"   q quit", m.screenKeys(true), m.screenKeys(false)+"   q quit")
}

func withoutArrows(list []key.Binding) []key.Binding {
	return slices.DeleteFunc(list, func(b key.Binding) bool { return slices.Contains(arrows, b.Help().Key) })
}

// footKeys is how many keys a footer has at the most, help among them: few
// matter now, and each that changes with the focus costs a slow line 50 bytes.
const footKeys = 4

// arrows go without saying in a footer; help has them.
var arrows = []string{"up", "down", "left", "right", "home", "end"}

// screenKeys lists the screens, the one that is shown by name and in brackets;
// the others by name too where that is asked for.
func (m *Model) screenKeys(named bool) string {
	var parts []string
	for _, k := range m.screensHere() {
		name, _, _ := strings.Cut(k.Help().Desc, ":")
		s := k.Help().Key
		if s == m.shown {
			s = "[" + s + " " + name + "]"
		} else if named {
			s += " " + name
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " ")
}
