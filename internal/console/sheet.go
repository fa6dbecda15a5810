package console

import (
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// sheet lies over the foot of the screen and has the keys while it is there.
// It answers with an action: closeSheet, or what the crew asked for.
type sheet interface {
	title() string
	update(msg tea.Msg) action
	// view draws the sheet below its title row, h rows at the most, and gives
	// the place of the cursor in them.
	view(w, h int) ([]string, *tea.Cursor)
	bindings() []key.Binding
}

type (
	// closeSheet takes the top sheet away.
	closeSheet struct{}
	// submit asks for entries to be recorded; the sheet stays until they are.
	submit struct{ drafts []draft }
	// collected hands an entry to the sheet below instead.
	collected struct{ draft draft }
)

// cover lays a sheet over the rows of a screen, above the footer.
func (t *theme) cover(base []string, s sheet, w int) ([]string, *tea.Cursor) {
	h := len(base) - stripH - footerH
	lines, cursor := s.view(w, h-1)
	lines = append([]string{t.title(s.title(), w, true)}, lines...)
	top := len(base) - footerH - len(lines)
	out := append([]string{}, base[:top]...)
	for _, l := range lines {
		out = append(out, pad(l, w))
	}
	if cursor != nil {
		cursor.Y += top + 1
	}
	return append(out, base[len(base)-footerH:]...), cursor
}

// footer is the keys that matter now; "? help" comes first and is cut last. A
// key that does nothing now stands in brackets: pressed, it says why.
func (t *theme) footer(bindings []key.Binding, right string, w int, whyNot func(key.Binding) string) string {
	const gap = "   "
	room := w - ansi.StringWidth(right) - 2
	var b strings.Builder
	used := 1
	b.WriteString(" ")
	for _, k := range bindings {
		h := k.Help()
		short, _, _ := strings.Cut(h.Desc, ":")
		if used+ansi.StringWidth(h.Key+" "+short+gap) > room {
			short, _, _ = strings.Cut(short, ",")
		}
		text := t.key.Render(h.Key) + " " + t.muted.Render(short)
		if whyNot != nil && whyNot(k) != "" {
			text = t.muted.Render("(" + h.Key + " " + short + ")")
		}
		n := ansi.StringWidth(text + gap)
		if used+n > room {
			break
		}
		b.WriteString(text + gap)
		used += n
	}
	return spread(b.String(), t.muted.Render(right)+" ", w)
}
