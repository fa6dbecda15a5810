package console

import (
	"math"
	"sync/atomic"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"bathside/internal/advise"
	"bathside/internal/load"
	"bathside/internal/units"
)

// planPanel shows how a night of gear goes into washes.
type planPanel struct {
	t    *theme
	x    *advise.Snapshot
	w, h int
	at   int // the first row that is shown

	is        *advise.Washes // nil: there is none yet
	err       error
	searching bool
	search    int          // the number of the last search
	left      *atomic.Bool // ends that search
}

type (
	// takeFirst asks for the first wash of the plan as the load.
	takeFirst struct{}
	// refinePlan asks for the plan of the load as it is now.
	refinePlan struct{}
	// plannedMsg is what a search came to.
	plannedMsg struct {
		search int
		is     advise.Washes
		err    error
	}
)

// searchTime is how long a better plan is looked for.
const searchTime = 2 * time.Second

func (p *planPanel) setSize(w, h int)               { p.w, p.h = w, h }
func (p *planPanel) setSnapshot(x *advise.Snapshot) { p.x = x }

func (p *planPanel) title() string {
	if p.searching {
		return "The plan, and a better one is looked for"
	}
	return "The plan"
}

func (p *planPanel) bindings() []key.Binding {
	return []key.Binding{washKeys.take, keys.up, keys.down}
}

func (p *planPanel) key(msg tea.KeyPressMsg) action {
	if at, ok := moved(msg, p.at, max(1, len(p.lines())-p.h+1), p.h); ok {
		p.at = at
	} else if key.Matches(msg, washKeys.take) && p.first() != nil {
		return takeFirst{}
	}
	return nil
}

// first is what the first wash of the plan takes; nil where there is none.
func (p *planPanel) first() (wash []load.Batch) {
	if p.is == nil || len(p.is.WashPlan.Washes) == 0 {
		return nil
	}
	counts := make([]int, len(p.is.Request.Batches))
	for _, b := range p.is.WashPlan.Washes[0].Baskets {
		for _, l := range b.Lines {
			counts[l.Batch] += l.N
		}
	}
	for i, b := range p.is.Request.Batches {
		if b.N = counts[i]; b.N > 0 {
			wash = append(wash, b)
		}
	}
	return wash
}

func (p *planPanel) view() []string {
	lines := p.lines()
	at := max(0, min(p.at, len(lines)-p.h))
	return rows(lines[at:], p.w, p.h)
}

// leave ends the search that runs.
func (p *planPanel) leave() {
	if p.left != nil {
		p.left.Store(true)
	}
	p.left, p.searching = nil, false
}

// refine has a plan at once, where that is quick, and gives what looks for a
// better one outside Update. What looked before is told to end.
func (s *washing) refine() tea.Cmd {
	p := &s.plan
	p.leave()
	p.is, p.err = nil, nil
	if !s.planned || s.x == nil || s.making.empty() {
		return nil
	}
	ask := advise.WashesAsk{Batches: s.making.batches(), Bath: units.Temperature(math.NaN())}
	ask.Care.Changeover = advise.UsualChangeover
	if advise.Pieces(ask.Batches) <= advise.MostAtOnce {
		p.atOnce(s.x, ask)
		if p.err != nil || p.is.Proved {
			return nil
		}
	}
	p.search++
	p.left, p.searching = new(atomic.Bool), true
	return lookFurther(s.x, ask, p.search, p.left)
}

// atOnce plans with hardly a search.
func (p *planPanel) atOnce(x *advise.Snapshot, ask advise.WashesAsk) {
	ask.Stop = func() bool { return true }
	w, err := x.PlanWashes(ask)
	p.is, p.err = &w, err
}

// lookFurther searches for a while, or until it is told to end.
func lookFurther(x *advise.Snapshot, ask advise.WashesAsk, search int, left *atomic.Bool) tea.Cmd {
	return func() tea.Msg {
		end := time.Now().Add(searchTime)
		ask.Stop = func() bool { return left.Load() || time.Now().After(end) }
		w, err := x.PlanWashes(ask)
		return plannedMsg{search, w, err}
	}
}

// found takes what a search came to, unless another one was begun since.
func (p *planPanel) found(msg plannedMsg) {
	if msg.search != p.search || p.left == nil {
		return
	}
	p.leave()
	p.is, p.err = &msg.is, msg.err
}
