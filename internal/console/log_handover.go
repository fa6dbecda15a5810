package console

import (
	"io"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// WriteHandover writes the sheet of the shift change in so many columns; since
// are the entries to tell, oldest first.
type WriteHandover func(w io.Writer, columns int, x *advise.Snapshot, since []bath.Entry) error

// handoverView is the sheet of the shift change, in the place of the log
// book's lines: what happened in this shift, what is due, what is running.
type handoverView struct {
	write WriteHandover // nil: there is none
	shown bool
	text  []string
	from  int // the first line that is shown
}

var (
	logHandover = bind("v", "handover: this shift, what is due, what is running", "v")
	logLines    = bind("v", "lines: back to the log book", "v")
	logNote     = bind("enter", "note: to the next shift", "enter")
)

// tell writes the sheet anew, as wide as the screen.
func (p *handoverView) tell(x *advise.Snapshot, lines []bath.Entry, w int) {
	if !p.shown || x == nil {
		return
	}
	var b strings.Builder
	if err := p.write(&b, w-4, x, x.ThisShift(lines)); err != nil {
		b.WriteString(sentence(err))
	}
	p.text = strings.Split(strings.TrimSpace(b.String()), "\n")
}

func (p *handoverView) bindings() []key.Binding {
	return []key.Binding{logNote, logLines, keys.up, keys.down}
}

// key scrolls; enter asks for the note. h is how many lines are seen.
func (p *handoverView) key(msg tea.KeyPressMsg, h int) action {
	if from, ok := moved(msg, p.from, p.places(h), h-1); ok {
		p.from = from
	} else if key.Matches(msg, logNote) {
		return openForm{kind: "handover"}
	}
	return nil
}

// places is how many first lines there are to scroll to.
func (p *handoverView) places(h int) int { return max(1, len(p.text)-h+1) }

func (p *handoverView) view(t *theme, w, h int) []string {
	out := []string{t.title("Handover", w, true)}
	from := min(p.from, p.places(h-1)-1)
	for _, l := range p.text[from:] {
		if l != "" && l[0] != ' ' { // the head, and the name of a part
			l = t.bold.Render(l)
		}
		out = append(out, "  "+l)
	}
	return rows(out, w, h)
}
