package console

import (
	"fmt"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
)

// washing is screen 4: what is in the bath, the load that is put together for
// it with all that stands in its way, and the plan of a whole night. It starts
// nothing: the form of the start does.
type washing struct {
	t      *theme
	x      *advise.Snapshot
	l      layout
	now    time.Time
	making *making

	load    loadPanel
	gates   gatesPanel
	checks  checksPanel
	baskets basketsPanel
	plan    planPanel
	planned bool // the plan is shown
	focus   int
}

func newWashing(cat *catalog.Catalog) *washing {
	m := newMaking(cat)
	return &washing{
		making: m, load: loadPanel{making: m}, gates: gatesPanel{making: m}, checks: checksPanel{making: m},
		baskets: basketsPanel{making: m},
	}
}

// panels are the parts in the order of tab.
func (s *washing) panels() []panel {
	if s.planned {
		return []panel{&s.load, &s.plan}
	}
	return []panel{&s.load, &s.gates, &s.checks, &s.baskets}
}

func (s *washing) setTheme(t *theme) {
	s.t, s.load.t, s.gates.t, s.checks.t, s.baskets.t, s.plan.t = t, t, t, t, t, t
}

func (s *washing) setSnapshot(x *advise.Snapshot) {
	s.x, s.now = x, x.Now
	s.making.setSnapshot(x)
	s.plan.setSnapshot(x)
	s.gates.keep()
	s.checks.keep()
}

// tick moves the time that a timer is shown against.
func (s *washing) tick(now time.Time) { s.now = now }

// recorded takes out of the load what was started. Where more waits, the plan
// of it comes back.
func (s *washing) recorded(entries []bath.Entry) tea.Cmd {
	for _, e := range entries {
		if start, ok := e.Body.(*bath.Start); ok && s.making.cat != nil {
			waits := s.making.waits() > 0
			s.making.started(start.Items)
			if s.focus = 0; waits {
				s.togglePlan()
			}
		}
	}
	return s.refine()
}

// preset fills in a form that is opened from this screen.
func (s *washing) preset(kind bath.Kind) map[string]string {
	switch {
	case s.x == nil:
	case kind == "start" && s.planned:
		if first := s.plan.first(); first != nil {
			l, _ := s.x.Loading(advise.LoadAsk{Batches: first}) // what stands in its way is for the door
			return l.Preset(s.x.Sys)
		}
	case kind == "start" && !s.making.empty():
		return s.making.is.Preset(s.x.Sys)
	case kind == "wash":
		if a, over := s.x.Result(); over {
			return a.Preset
		}
	}
	return nil
}

func (s *washing) run() *bath.Run {
	if s.x == nil {
		return nil
	}
	return s.x.Bath.Run
}

func (s *washing) result() (advise.Action, bool) {
	if s.x == nil {
		return advise.Action{}, false
	}
	return s.x.Result()
}

func (s *washing) key(msg tea.KeyPressMsg) action {
	if s.x == nil || s.making.cat == nil {
		return nil
	}
	n := len(s.panels())
	switch a, over := s.result(); {
	case over && key.Matches(msg, washKeys.result):
		return openForm{kind: a.Kind, preset: a.Preset}
	case key.Matches(msg, keys.next):
		s.focus = (s.focus + 1) % n
	case key.Matches(msg, keys.prev):
		s.focus = (s.focus + n - 1) % n
	case key.Matches(msg, washKeys.plan):
		return s.togglePlan()
	case key.Matches(msg, washKeys.other):
		return openForm{kind: "intake"}
	case key.Matches(msg, washKeys.pause):
		return s.pause()
	case key.Matches(msg, washKeys.abort):
		return s.abort()
	default:
		return s.did(s.panels()[s.focus].key(msg))
	}
	return nil
}

// did sees to what one part asks of the others.
func (s *washing) did(a action) action {
	s.gates.keep()
	s.checks.keep()
	switch a.(type) {
	case loadChanged:
		if s.planned {
			return refinePlan{}
		}
		return nil
	case toChecks:
		s.focus = 2
		return nil
	case takeFirst:
		s.making.take(s.plan.first())
		s.togglePlan()
		s.focus = 2
		return nil
	case startIt:
		return openForm{kind: "start", preset: s.preset("start")}
	}
	return a
}

func (s *washing) togglePlan() action {
	if s.planned = !s.planned; s.planned {
		s.making.putBack()
	}
	s.load.night = s.planned
	s.focus = 0
	if s.planned && s.l.one {
		s.focus = 1
	}
	s.setSize(s.l)
	return refinePlan{}
}

func (s *washing) pause() action {
	switch r := s.run(); {
	case r == nil:
		return say{"No wash is in the bath: nothing to pause"}
	case r.Paused != nil:
		return openForm{kind: "resume"}
	}
	return openForm{kind: "pause"}
}

func (s *washing) abort() action {
	if s.run() == nil {
		return say{"No wash is in the bath: nothing to break off"}
	}
	return openForm{kind: "abort"}
}

// head is the top line: how the wash in the bath was started, under its timer
// in the strip, or how warm the bath is for the next load.
func (s *washing) head(w int) string {
	if run := s.run(); run != nil {
		hint := "z pause · x break off "
		switch _, over := s.result(); {
		case over:
			hint = "enter say how it came out "
		case run.Paused != nil:
			hint = "z go on · x break off "
		}
		started := fmt.Sprintf("Started %s by %s", s.x.Clock(run.At), run.By)
		with := fmt.Sprintf("%s at %s", s.x.Sys.Text(run.Time), s.x.Sys.Text(run.BathC))
		left := fit(w-len(hint)-2, fmt.Sprintf("%s: %s, %s soil", started, with, run.Soil), started, "Started "+s.x.Clock(run.At))
		return spread(" "+s.t.bold.Render(left), s.t.muted.Render(hint), w)
	}
	const nothing = "Nothing in the bath"
	warm := "not measured in this bath: t"
	if t := s.x.Temp; t != nil {
		warm = fmt.Sprintf("%s at %s", s.x.Sys.Temp(t.C), s.x.Clock(t.At))
		if !s.making.is.Measured {
			warm = fit(w-len(nothing)-4, warm+", more than 15 min ago: t", warm+", too old: t")
		}
	}
	return spread(" "+s.t.bold.Render(nothing), s.t.muted.Render(warm)+" ", w)
}

// list is that of the part with the keys, where it has one.
func (s *washing) list() list {
	l, _ := listOf(s.panels()[s.focus])
	return l
}

// figures are those of the load, for whoever asks where its minutes come from.
func (s *washing) figures() []advise.Figure {
	if s.x == nil || s.making.err != nil && s.making.empty() {
		return nil
	}
	return s.making.is.Figures(s.x)
}
