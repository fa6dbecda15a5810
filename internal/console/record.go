package console

import (
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// What commands report. All of them come from outside Update: the clock, the
// disk, another process.
type (
	clockMsg  time.Time
	loadedMsg struct {
		from  *station.Station
		state *bath.State
		pins  map[string]bool // nil: not known
		err   error
	}
	linesMsg struct {
		from  *station.Station
		lines []bath.Entry
		err   error
	}
	changedMsg  struct{}
	recordedMsg struct {
		station.Result
		drafts []draft
	}
	openedMsg struct {
		station *station.Station
		err     error
		pinErr  error // the station is there, its first PIN is not
	}
)

func (m *Model) tick() tea.Cmd {
	return tea.Every(time.Second, func(time.Time) tea.Msg { return clockMsg(m.o.Now()) })
}

// clock moves time on. Only a new minute can change what the screen says.
func (m *Model) clock(now time.Time) tea.Cmd {
	minute := now.Truncate(time.Minute).After(m.now)
	m.now = now
	m.toast.tick(now)
	m.lockAgain()
	m.guides.tick(now)
	m.washing.tick(now)
	if s, ok := m.top().(ticker); ok {
		s.tick(now)
	}
	if m.timeIsUp(now) {
		m.assess()
		m.toast.appear("Time is up: ultrasound off, gear out, say how it came out")
		return tea.Batch(m.tick(), tea.Raw("\a"))
	}
	if minute {
		m.assess()
	}
	return m.tick()
}

// timeIsUp is true once, when the timer of the wash in the bath runs out.
func (m *Model) timeIsUp(now time.Time) bool {
	if m.x == nil || m.x.Bath.Run == nil || m.x.Bath.Run.Ended != nil {
		return false
	}
	r := *m.x.Bath.Run
	if r.Left(now) > 0 || m.rung == r.Seq {
		return false
	}
	m.rung = r.Seq
	return true
}

// linesShown is how much of the log book the console holds.
const linesShown = 400

// load reads how the bath stands; what is known then asks for the lines. Most
// screens can be drawn without them.
func (m *Model) load() tea.Cmd { return loadFrom(m.station) }

func loadFrom(st *station.Station) tea.Cmd {
	return func() tea.Msg {
		state, err := st.State()
		if err != nil {
			return loadedMsg{from: st, err: err}
		}
		pins, pinErr := st.PINs()
		if pinErr != nil {
			pins = nil // nothing is said of them; the rest stands
		}
		return loadedMsg{st, state, pins, err}
	}
}

// Ahead is a station that is being read already.
type Ahead struct{ load tea.Cmd }

// ReadAhead begins to read st, while whoever is about to run a console on it
// gets the rest ready.
func ReadAhead(st *station.Station) *Ahead {
	load := sync.OnceValue(loadFrom(st))
	go load()
	return &Ahead{load}
}

// first is the first load: the one that was begun, where one was.
func (m *Model) first() tea.Cmd {
	if m.o.Ahead == nil {
		return m.load()
	}
	return m.o.Ahead.load
}

func (m *Model) loaded(msg loadedMsg) tea.Cmd {
	if msg.from != m.station { // a practice began or ended meanwhile
		return nil
	}
	if msg.err != nil {
		m.toast.stay(m.explain(msg.err))
		return nil
	}
	m.state, m.now = msg.state, m.o.Now()
	m.site.pins = msg.pins
	m.assess()
	return tea.Batch(m.loadLines(), m.washing.refine())
}

func (m *Model) loadLines() tea.Cmd {
	st := m.station
	return func() tea.Msg {
		lines, err := st.Lines(0, linesShown)
		return linesMsg{st, lines, err}
	}
}

func (m *Model) linesLoaded(msg linesMsg) {
	switch {
	case msg.from != m.station: // a practice began or ended meanwhile
	case msg.err != nil:
		m.toast.stay(m.explain(msg.err))
	default:
		m.log.setLines(msg.lines)
		m.guides.lines = msg.lines
	}
}

func (m *Model) watchOn() tea.Cmd {
	m.watch = m.station.Watch(m.o.Context)
	return m.waitForChange()
}

func (m *Model) waitForChange() tea.Cmd {
	ch := m.watch
	return func() tea.Msg {
		if _, ok := <-ch; !ok {
			return nil
		}
		return changedMsg{}
	}
}

// submit queues the entries at once; the command only waits for the disk.
func (m *Model) submit(drafts []draft) tea.Cmd {
	m.pending++
	drafts = m.inSession(drafts)
	ack := m.station.Submit(drafts...)
	return func() tea.Msg { return recordedMsg{<-ack, drafts} }
}

func (m *Model) recorded(msg recordedMsg) tea.Cmd {
	m.pending--
	if msg.Err != nil {
		m.denied(msg)
		return m.replay()
	}
	_, undone := m.top().(*undoSheet)
	m.popSaved()
	m.keepSession(msg)
	m.remember(msg.Entries[0].By)
	m.toast.pass(m.savedSay(msg.Entries, undone), m.now)
	after := m.do(m.guides.recorded(msg.Entries))
	replan := m.washing.recorded(msg.Entries)
	cmd := m.load()
	if m.quitting && m.pending == 0 {
		return tea.Quit
	}
	return tea.Batch(cmd, after, replan, m.replay())
}

// refused gives the sheet back with what went wrong.
func (m *Model) refused(err error) {
	m.quitting = false
	s, ok := m.top().(interface{ refused(error) })
	if !ok {
		m.toast.stay(m.explain(err))
		return
	}
	said := &bath.Refusal{Say: m.explain(err)}
	if refusal := new(bath.Refusal); errors.As(err, &refusal) {
		said.ID = refusal.ID
	}
	s.refused(said)
}

// replay lets the keys through that were typed while the disk was asked.
func (m *Model) replay() tea.Cmd {
	held := m.held
	m.held = nil
	var cmds []tea.Cmd
	for _, k := range held {
		cmds = append(cmds, m.key(k))
	}
	return tea.Batch(cmds...)
}

// explain tells an error in a sentence; what is nobody's typing is traced.
func (m *Model) explain(err error) string {
	m.traceError(err)
	path := ""
	if m.station != nil {
		path = m.station.Path()
	}
	return station.Explain(err, path)
}

func (m *Model) savedSay(entries []bath.Entry, undone bool) string {
	e := entries[len(entries)-1]
	switch {
	case m.practice != nil:
		return "Practice only: it is in the copy, not in the log book"
	case len(entries) > 1:
		return fmt.Sprintf("Saved: lines %d to %d", entries[0].Seq, e.Seq)
	}
	k, ok := e.Body.(*bath.Strike)
	switch {
	case ok && undone:
		return fmt.Sprintf("Taken back: line %d stays visible, crossed out by line %d", k.Target, e.Seq)
	case ok:
		return fmt.Sprintf("Crossed out: line %d, by line %d", k.Target, e.Seq)
	}
	return fmt.Sprintf("Saved: line %d · u takes it back", e.Seq)
}

// leave is quit, asked for twice while the timer of a wash goes.
func (m *Model) leave() tea.Cmd {
	if !m.leaving && m.washOn() {
		m.leaving = true
		m.toast.stay("q again leaves: a wash is on, and nothing would ring")
		return nil
	}
	return m.quit(false)
}

// washOn reports whether the timer of a wash goes that would ring here.
func (m *Model) washOn() bool {
	return slices.ContainsFunc(m.state.Baths, func(b *bath.Bath) bool {
		return b.Run != nil && b.Run.Ended == nil && b.Run.Paused == nil && b.Run.Left(m.now) > 0
	})
}

// quit leaves when everything queued is written; at once when asked again.
func (m *Model) quit(atOnce bool) tea.Cmd {
	if atOnce || m.pending == 0 {
		return tea.Quit
	}
	m.quitting = true
	m.toast.stay("Saving; the console closes when it is written")
	return nil
}
