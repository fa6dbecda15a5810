package console

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
)

// nextPanel lists what to do, each line with its reason.
type nextPanel struct {
	t    *theme
	x    *advise.Snapshot
	at   int
	w, h int
}

func (p *nextPanel) setSnapshot(x *advise.Snapshot) {
	p.x = x
	p.at = min(p.at, max(0, len(x.Next)-1))
}

func (p *nextPanel) setSize(w, h int) { p.w, p.h = w, h }
func (p *nextPanel) title() string    { return "Next" }

func (p *nextPanel) bindings() []key.Binding {
	return []key.Binding{keys.enter, keys.explain, keys.up, keys.down}
}

func (p *nextPanel) key(msg tea.KeyPressMsg) action {
	if p.x == nil || len(p.x.Next) == 0 {
		return nil
	}
	switch {
	case key.Matches(msg, keys.up):
		p.at = max(0, p.at-1)
	case key.Matches(msg, keys.down):
		p.at = min(len(p.x.Next)-1, p.at+1)
	case key.Matches(msg, keys.home):
		p.at = 0
	case key.Matches(msg, keys.end):
		p.at = len(p.x.Next) - 1
	case key.Matches(msg, keys.enter):
		return p.do(p.x.Next[p.at])
	case key.Matches(msg, keys.explain):
		return explain{p.x.Next[p.at]}
	case key.Matches(msg, keys.guide):
		return guideFor(p.x.Next[p.at])
	}
	return nil
}

func (p *nextPanel) list() list {
	l := list{at: p.at, mark: func(i int) { p.at = i }}
	for _, a := range p.x.Next {
		l.rows = append(l.rows, a.Say+": "+a.Why)
	}
	return l
}

// guideFor opens the guide through an action.
func guideFor(a advise.Action) action {
	if id := a.Guide(); id != "" {
		return openGuide{id}
	}
	return say{"No guide leads through that: 6 lists them"}
}

func (p *nextPanel) do(a advise.Action) action {
	if a.Kind == "" {
		return say{a.Say + ": " + a.Why + "."}
	}
	return openForm{kind: a.Kind, preset: a.Preset}
}

// view draws two rows an action: what, and why. Where there is not room for
// all, the marked one stays in sight.
func (p *nextPanel) view() []string {
	if p.x == nil {
		return rows(nil, p.w, p.h)
	}
	if len(p.x.Next) == 0 {
		return rows([]string{"", "  Nothing to do now."}, p.w, p.h)
	}
	var lines []string
	first := firstShown(p.at, len(p.x.Next), max(1, p.h/2))
	for i := first; i < len(p.x.Next) && len(lines) < p.h; i++ {
		lines = append(lines, p.lines(i)...)
	}
	if last := first + p.h/2; last < len(p.x.Next) && p.h > 2 {
		lines = append(lines[:p.h-1], p.t.muted.Render(fmt.Sprintf("         %d more below", len(p.x.Next)-last+p.h%2)))
	}
	return rows(lines, p.w, p.h)
}

func (p *nextPanel) lines(i int) []string {
	a := p.x.Next[i]
	urgency := pad(a.Urgency.String(), 6)
	mark := "  "
	what := a.Say
	switch {
	case a.Urgency == advise.Now:
		urgency = p.t.bad.Render(urgency)
	case a.Urgency == advise.Today:
		urgency = p.t.watch.Render(urgency)
	default:
		urgency = p.t.muted.Render(urgency)
	}
	if i == p.at {
		mark = p.t.mark("▸ ", "> ")
		what = p.t.accent.Render(what)
	}
	hint := ""
	if k := keyFor(a.Kind); k != "" && a.Preset == nil {
		hint = p.t.key.Render(k) + " "
	}
	out := []string{spread(mark+urgency+" "+what, " "+hint, p.w)}
	for _, l := range p.why(i) {
		out = append(out, pad("         "+p.t.muted.Render(l), p.w))
	}
	return out
}

// why is the reason of an action: whole for the marked one where there is
// room, else one line.
func (p *nextPanel) why(i int) []string {
	a := p.x.Next[i]
	whole := wrap(a.Why, p.w-10)
	if i == p.at && 2*len(p.x.Next)+len(whole)-1 <= p.h {
		return whole
	}
	return []string{clauses(a.Why, p.w-9)}
}

// firstShown is the first row of a list to draw so that at stays in sight.
func firstShown(at, n, shown int) int {
	if n <= shown || at < shown/2 {
		return 0
	}
	return min(at-shown/2, n-shown)
}
