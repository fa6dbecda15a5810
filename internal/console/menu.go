package console

import (
	"slices"
	"strings"
	"unicode"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// offer is one thing that can be done, as a list of them shows it.
type offer struct {
	key   string // that does it from anywhere; "" for none
	say   string
	right string // who may, or where it belongs
	words string // other words that somebody may type for it
	why   string // why it cannot be done now; "" where it can
	do    action
}

// menu is a list of offers; enter takes one. Help, the list of kinds and the
// palette are made of it.
type menu struct {
	t   *theme
	all []offer
	at  int
}

// cannot says why an offer is not taken.
type cannot struct{ why string }

func (m *menu) list() list {
	rows := make([]string, len(m.all))
	for i, o := range m.all {
		rows[i] = o.say + " " + o.words
	}
	return list{rows: rows, at: m.at, mark: func(i int) { m.at = i }}
}

// key moves the mark, or takes what is marked.
func (m *menu) key(k tea.KeyPressMsg) action {
	if len(m.all) == 0 {
		return nil
	}
	if at, ok := moved(k, m.at, len(m.all), 10); ok {
		m.at = at
		return nil
	}
	if !key.Matches(k, keys.enter) {
		return nil
	}
	if o := m.all[m.at]; o.why != "" {
		return cannot{o.why}
	}
	return m.all[m.at].do
}

func (m *menu) view(w, h int) ([]string, *tea.Cursor) {
	keyW := 3
	for _, o := range m.all {
		keyW = max(keyW, min(10, len(o.key)+1))
	}
	var lines []string
	first := firstShown(m.at, len(m.all), h)
	for i := first; i < len(m.all) && len(lines) < h; i++ {
		lines = append(lines, m.row(i, keyW, w))
	}
	return lines, tea.NewCursor(1, max(0, m.at-first))
}

func (m *menu) row(i, keyW, w int) string {
	o := m.all[i]
	mark, style, shown := "  ", m.t.text, m.t.key.Render(pad(o.key, keyW))
	text := o.say
	if o.why != "" {
		style, shown = m.t.muted, m.t.muted.Render(pad(o.key, keyW))
		text += m.t.mark(" – ", " - ") + "not now: " + o.why
	}
	if i == m.at {
		mark, style = m.t.mark("▸ ", "> "), m.t.accent
	}
	right := ""
	if o.right != "" {
		right = m.t.muted.Render(o.right + " ")
	}
	return spread(" "+mark+shown+style.Render(fit(w-keyW-4-len([]rune(o.right)), text)), right, w)
}

// fitting are the offers that have every word of what is typed, those that fit
// best first.
func fitting(all []offer, typed string) (out []offer) {
	words := strings.Fields(strings.ToLower(typed))
	score := map[int][]offer{}
	best := 0
	for _, o := range all {
		if n, ok := fits(strings.ToLower(o.say+" "+o.words), words); ok {
			score[n] = append(score[n], o)
			best = max(best, n)
		}
	}
	for n := best; n >= 0; n-- {
		out = append(out, score[n]...)
	}
	return out
}

// fits is how well a text has every one of the words: as a word of its own, at
// the beginning of one, or inside.
func fits(text string, words []string) (score int, ok bool) {
	own := strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for _, w := range words {
		switch {
		case slices.Contains(own, w):
			score += 3
		case slices.ContainsFunc(own, func(o string) bool { return strings.HasPrefix(o, w) }):
			score += 2
		case strings.Contains(text, w):
			score++
		default:
			return 0, false
		}
	}
	return score, true
}
