package console

import (
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	"charm.land/bubbles/v2/textinput"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"bathside/internal/plain"
)

// fields is a column of things to fill in; one has the keys. Forms, set-up and
// crossing out are made of it.
type fields struct {
	t    *theme
	rows []*row
	at   int
}

// row is one thing to fill in: typed text, or a choice of words.
type row struct {
	name, label, help string
	words             []string          // a choice, if not empty
	shown             map[string]string // how a word is shown, where that is not the word
	keys              map[string]string // a key that chooses a word at once
	optional          bool
	secret            bool                // typed text is shown as dots
	open              bool                // a choice that shows all its words always
	echo              func(string) string // how a typed value is read
	input             textinput.Model
}

func newRow(name, label, help string, words ...string) *row {
	in := textinput.New()
	in.Prompt = ""
	in.CharLimit = 200
	in.SetVirtualCursor(false)
	in.SetStyles(textinput.Styles{})
	return &row{name: name, label: label, help: help, words: words, input: in}
}

// secretRow is a row for a PIN.
func secretRow(t *theme, name, label, help string) *row {
	r := newRow(name, label, help)
	r.secret = true
	r.input.CharLimit = 12
	r.input.EchoMode, r.input.EchoCharacter = textinput.EchoPassword, []rune(t.mark("•", "*"))[0]
	return r
}

func (r *row) value() string { return strings.TrimSpace(r.input.Value()) }

func (r *row) set(v string) *row {
	r.input.SetValue(v)
	r.input.CursorEnd()
	return r
}

var (
	fieldNext = bind("tab", "next field", "tab", "down")
	fieldPrev = bind("shift+tab", "field before", "shift+tab", "up")
)

func (f *fields) focus(i int) {
	f.rows[f.at].input.Blur()
	f.at = (i + len(f.rows)) % len(f.rows)
	f.rows[f.at].input.Focus()
}

func (f *fields) focusOn(name string) {
	if i := slices.IndexFunc(f.rows, func(r *row) bool { return r.name == name }); i >= 0 {
		f.focus(i)
	}
}

func (f *fields) row(name string) *row {
	i := slices.IndexFunc(f.rows, func(r *row) bool { return r.name == name })
	if i < 0 {
		return nil
	}
	return f.rows[i]
}

// update lets the focused row have a key or a paste; chose reports that one
// key was an answer by itself.
func (f *fields) update(msg tea.Msg) (chose bool) {
	r := f.rows[f.at]
	k, isKey := msg.(tea.KeyPressMsg)
	switch {
	case isKey && key.Matches(k, fieldNext):
		f.focus(f.at + 1)
	case isKey && key.Matches(k, fieldPrev):
		f.focus(f.at - 1)
	case len(r.words) > 0:
		return isKey && r.choose(k)
	case r.secret && isKey && strings.Trim(k.Text, "0123456789") != "":
	default:
		r.input, _ = r.input.Update(msg)
		r.keepClean()
	}
	return false
}

// keepClean leaves out of what was typed or pasted what cannot be shown: what
// stands on the screen is what will be kept.
func (r *row) keepClean() {
	typed := r.input.Value()
	clean := plain.Line(typed)
	if clean == typed {
		return
	}
	before := string([]rune(typed)[:r.input.Position()])
	r.input.SetValue(clean)
	r.input.SetCursor(len([]rune(plain.Line(before))))
}

// choose moves a choice by the arrows, or by a key of its own.
func (r *row) choose(k tea.KeyPressMsg) bool {
	i := slices.Index(r.words, r.value())
	switch k.String() {
	case "left":
		r.set(r.words[max(0, i-1)])
	case "right", "space":
		r.set(r.words[(i+1)%len(r.words)])
	default:
		word, own := r.keys[strings.ToLower(k.String())]
		if own {
			r.set(word)
			return true
		}
		for _, w := range r.words {
			if k.String() != "" && strings.HasPrefix(strings.ToLower(w), strings.ToLower(k.String())) {
				r.set(w)
				return false
			}
		}
	}
	return false
}

// scans reports, once for each tag, that a list of tags wants the next one: a
// scanner ends each by enter.
func (r *row) scans() bool {
	if r.name != "tags" || r.value() == "" || strings.HasSuffix(r.value(), ",") {
		return false
	}
	r.set(r.value() + ", ")
	return true
}

// labelW is how wide the labels of a column stand.
func (f *fields) labelW() int {
	w := 8
	for _, r := range f.rows {
		w = max(w, ansi.StringWidth(r.label))
	}
	return min(w, 20)
}

// room is how wide what stands beside the labels may be.
func (f *fields) room(w int) int { return max(1, w-f.labelW()-6) }

// unsaid is the help of the focused row where the row itself has no room for
// it: beside a choice, or to its end.
func (f *fields) unsaid(w int) string {
	r := f.rows[f.at]
	said := f.draw(r, true, f.room(w))
	if strings.Contains(ansi.Strip(said), r.help) {
		return ""
	}
	return r.help
}

// view draws at most h rows, the focused one among them, and gives the place
// of the text cursor.
func (f *fields) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	var cursor *tea.Cursor
	label := f.labelW()
	first := firstShown(f.at, len(f.rows), h)
	for i := first; i < len(f.rows) && len(lines) < h; i++ {
		r := f.rows[i]
		mark := "  "
		name := pad(r.label, label)
		if i == f.at {
			mark, name = f.t.mark("▸ ", "> "), f.t.accent.Render(name)
		}
		left := " " + mark + name + "  "
		room := f.room(w)
		if i == f.at && len(r.words) == 0 {
			r.input.SetWidth(max(1, room-1))
			if c := r.input.Cursor(); c != nil {
				cursor = tea.NewCursor(ansi.StringWidth(left)+c.X, len(lines))
			}
		} else if i == f.at {
			cursor = tea.NewCursor(1, len(lines))
		}
		lines = append(lines, pad(left+f.draw(r, i == f.at, room), w))
	}
	return lines, cursor
}

func (f *fields) draw(r *row, focused bool, room int) string {
	if len(r.words) > 0 {
		return f.drawChoice(r, focused, room)
	}
	v := ansi.Truncate(r.read(), room, "…")
	if focused {
		// without the spaces after it: what an answer looks like is wanted most where one is typed
		v = ansi.Truncate(r.input.View(), min(room, ansi.StringWidth(r.input.Value())+1), "")
	}
	gap := max(12, ansi.StringWidth(v)+2)
	if r.help != "" && gap+8 < room {
		return pad(v, gap) + f.t.muted.Render(ansi.Truncate(r.help, room-gap, "…"))
	}
	return v
}

// drawChoice shows all the words where they fit and the row is focused, else
// the chosen one.
func (f *fields) drawChoice(r *row, focused bool, room int) string {
	now := r.value()
	if !focused && !(r.open && now == "") {
		return pad(r.show(now), 12) + f.t.muted.Render(ansi.Truncate(r.help, max(0, room-14), "…"))
	}
	if all := f.drawWords(r, r.words); ansi.StringWidth(all) <= room {
		return all
	}
	if keyed := r.keyed(); len(keyed) > 0 {
		return ansi.Truncate(f.drawWords(r, keyed), room, "…")
	}
	return f.t.accent.Render("["+r.show(now)+"]") + f.t.muted.Render("  left or right for more")
}

// drawWords lists words with their keys, the chosen one in brackets.
func (f *fields) drawWords(r *row, words []string) string {
	var parts []string
	for _, w := range words {
		s := r.show(w)
		if k := r.keyOf(w); k != "" {
			s = k + " " + s
		}
		if w == r.value() {
			parts = append(parts, f.t.accent.Render("["+s+"]"))
		} else {
			parts = append(parts, " "+s+" ")
		}
	}
	return strings.Join(parts, " ")
}

// keyed is the words that have a key of their own, after the chosen one where
// that has none.
func (r *row) keyed() []string {
	var out []string
	for _, w := range r.words {
		if r.keyOf(w) != "" || w == r.value() && w != "" {
			out = append(out, w)
		}
	}
	return out
}

// read is what was typed, as the console reads it: 995 is 9.95.
func (r *row) read() string {
	v := plain.Line(r.input.Value())
	if r.secret {
		return strings.Repeat(string(r.input.EchoCharacter), len([]rune(v)))
	}
	if r.echo != nil && v != "" {
		if s := r.echo(v); s != "" {
			return s
		}
	}
	return v
}

func (r *row) show(w string) string {
	if s, ok := r.shown[w]; ok {
		return s
	}
	if w == "" {
		return "–"
	}
	return w
}

func (r *row) keyOf(word string) string {
	for k, w := range r.keys {
		if w == word {
			return strings.ToUpper(k)
		}
	}
	return ""
}
