package console

import (
	"slices"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// catchUp gathers what happened while nobody wrote it down: several lines, a
// time each, recorded together or not at all.
type catchUp struct {
	t      *theme
	x      *advise.Snapshot
	lines  []draft
	err    string
	saving bool
}

func newCatchUp(t *theme, x *advise.Snapshot) *catchUp { return &catchUp{t: t, x: x} }

func (s *catchUp) title() string {
	return "What happened since " + s.x.Date(s.x.State.Logged)
}

func (s *catchUp) bindings() []key.Binding {
	return []key.Binding{
		bind("enter", "record all of it", "enter"), bind("backspace", "take the last one off", "backspace"), bind("esc", "leave, nothing saved", "esc"),
	}
}

func (s *catchUp) update(msg tea.Msg) action {
	k, ok := msg.(tea.KeyPressMsg)
	if !ok || s.saving {
		return nil
	}
	s.err = ""
	switch {
	case key.Matches(k, keys.esc):
		return closeSheet{}
	case k.String() == "backspace":
		s.lines = s.lines[:max(0, len(s.lines)-1)]
	case key.Matches(k, keys.enter):
		if len(s.lines) == 0 {
			s.err = "Nothing is listed yet: press a key from the list."
			return nil
		}
		s.saving = true
		return submit{s.lines}
	case key.Matches(k, keys.record):
		return openKinds{}
	}
	for _, kk := range kindKeys {
		if key.Matches(k, *kk.key) {
			return openForm{kind: kk.kind}
		}
	}
	return nil
}

// add puts an entry into its place in time.
func (s *catchUp) add(d draft) {
	if d.At.IsZero() {
		d.At = s.x.Now.Truncate(time.Second)
	}
	s.lines = append(s.lines, d)
	slices.SortStableFunc(s.lines, func(a, b draft) int { return a.At.Compare(b.At) })
}

func (s *catchUp) refused(err error) { s.saving, s.err = false, sentence(err) }

func (s *catchUp) view(w, h int) ([]string, *tea.Cursor) {
	var lines []string
	for _, d := range s.lines {
		e := bath.Entry{Body: d.Body}
		lines = append(lines, " "+pad(s.x.Times.DayClock(s.x.Local(d.At)), s.x.Times.DayClockW()+2)+e.Say(s.x.Sys)+s.t.muted.Render(" · "+d.By))
	}
	if room := max(0, h-5); len(lines) > room {
		lines = lines[len(lines)-room:]
	}
	if len(s.lines) == 0 {
		lines = append(lines, " "+s.t.muted.Render("Nothing listed yet. Each line gets its own time and name."))
	}
	lines = append(lines, "", " Add: "+s.keyList(), " "+s.t.muted.Render("Enter records them all, in the order of their times, or none."))
	if s.err != "" {
		for _, l := range wrap(s.t.mark("✗ ", "X ")+s.err, w-2) {
			lines = append(lines, " "+s.t.bad.Render(l))
		}
	}
	return rows(lines, w, min(len(lines), h)), nil
}

func (s *catchUp) keyList() string {
	out := ""
	for _, kk := range kindKeys {
		out += s.t.key.Render(kk.key.Help().Key) + " " + string(kk.kind) + "  "
	}
	return out + s.t.key.Render("e") + " anything"
}
