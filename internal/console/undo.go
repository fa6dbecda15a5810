package console

import (
	"fmt"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
)

// undoFor is how long a line can be taken back by one key. Later it is crossed
// out with a reason, from the log book.
const undoFor = 10 * time.Minute

// undo asks whether the last line of who is at the console is to be taken back.
func (m *Model) undo() {
	e, why := m.lastOwn()
	if why != "" {
		m.toast.stay("Not now: " + why + "; an older line is crossed out in the log book (7, then x)")
		return
	}
	m.push(&undoSheet{t: m.t, says: lineSay(e, m.x), line: e})
}

// lastOwn is the line that undo would take back, or why there is none.
func (m *Model) lastOwn() (e bath.Entry, why string) {
	who := m.whoNow()
	if member, err := m.state.Member(who); err == nil {
		who = member.Name
	}
	for i := len(m.log.lines) - 1; i >= 0; i-- {
		e := m.log.lines[i]
		if m.now.Sub(e.Logged) > undoFor {
			break
		}
		_, struck := m.state.Struck[e.Seq]
		if e.By != who || struck || !undoable(e) {
			continue
		}
		return e, ""
	}
	if who == "" {
		return bath.Entry{}, "nobody has written here yet"
	}
	return bath.Entry{}, fmt.Sprintf("%s has written nothing in the last 10 min", firstName(who))
}

// undoable leaves out what crosses out itself, and what is mended by recording
// it again.
func undoable(e bath.Entry) bool {
	switch e.Body.(type) {
	case *bath.Strike, *bath.PIN, *bath.Member, *bath.Tank, *bath.Setting, *bath.Gear:
		return false
	}
	return true
}

// undoSheet names the line and asks. Enter by itself takes nothing back.
type undoSheet struct {
	t      *theme
	says   string
	line   bath.Entry
	err    string
	saving bool
}

var undoYes = bind("y", "yes: take it back; it stays visible, crossed out", "y")

func (s *undoSheet) title() string { return "Take this line back?" }

func (s *undoSheet) bindings() []key.Binding {
	return []key.Binding{undoYes, bind("esc", "no, leave it as it is", "esc", "n", "enter")}
}

func (s *undoSheet) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	switch {
	case !ok || s.saving:
	case key.Matches(k, undoYes):
		s.saving, s.err = true, ""
		return submit{[]draft{{By: s.line.By, Body: &bath.Strike{Target: s.line.Seq, Why: "taken back at once"}}}}
	case k.String() == "enter", k.String() == "n", key.Matches(k, keys.esc):
		return closeSheet{}
	}
	return nil
}

func (s *undoSheet) refused(err error) { s.saving, s.err = false, sentence(err) }

func (s *undoSheet) view(w, h int) ([]string, *tea.Cursor) {
	lines := []string{pad(fmt.Sprintf(" %d  %s", s.line.Seq, s.says), w), ""}
	say, style := []string{"No is the default: y takes it back, any other way leaves it."}, s.t.muted
	switch {
	case s.saving:
		say = []string{"Saving…"}
	case s.err != "":
		say, style = wrap(s.t.mark("✗ ", "X ")+s.err, w-2), s.t.bad
	}
	for _, l := range say {
		lines = append(lines, " "+style.Render(l))
	}
	return lines[:min(h, len(lines))], tea.NewCursor(1, 0)
}
