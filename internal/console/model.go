package console

import (
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
)

// Model is the console. Its Update routes and does nothing else.
type Model struct {
	o       Options
	station *station.Station // nil until set-up is done

	profile colorprofile.Profile
	dark    bool
	t       *theme
	l       layout

	state *bath.State
	x     *advise.Snapshot
	bath  string // id of the bath that is shown
	now   time.Time

	touched time.Time // when a key was pressed last
	pointer *bool     // the mouse, where f6 said so; nil: as the station has it
	officer bool      // station mode: a gear officer has opened the other screens

	screens map[string]screen
	shown   string // key of the screen
	today   *today
	log     *logBook
	guides  *guides
	washing *washing
	gear    *gear
	site    *stationScreen
	sheets  []sheet

	toast    toast
	rung     uint64 // the start whose time was called
	who      remembered
	session  station.Session   // whose PIN was taken for a wash
	pending  int               // records that the disk has not answered yet
	held     []tea.KeyPressMsg // typed while the top sheet was saving
	quitting bool
	leaving  bool // the key before this one asked to leave while a wash is on

	clockAhead *aheadClock
	practice   *practice // nil: what is done goes into the log book
	copying    bool      // a copy to practise on is being made
	watch      <-chan struct{}
}

// New makes a console; Run is how it is usually started.
func New(o Options) *Model {
	o = o.withDefaults()
	ahead := &aheadClock{real: o.Now}
	o.Now = ahead.now
	m := &Model{o: o, station: o.Station, profile: o.Profile, dark: true, now: o.Now(), bath: o.Bath, shown: "1"}
	m.toast.now = o.Now
	m.today = newToday(o.Catalog)
	m.log = &logBook{handover: handoverView{write: o.Handover}}
	m.clockAhead, m.guides = ahead, newGuides(o.Guides, o.Catalog)
	m.washing, m.gear = newWashing(o.Catalog), newGear(o.Catalog)
	m.site = newStationScreen()
	m.screens = map[string]screen{"1": m.today, "2": newReadings(), "3": new(decide), "4": m.washing, "5": m.gear, "6": m.guides, "7": m.log, "8": m.site}
	m.setTheme()
	if m.station == nil {
		m.sheets = []sheet{newSetup(m.t, o)}
	}
	return m
}

// Init starts the clock, the first load and the watch on the log book.
func (m *Model) Init() tea.Cmd {
	cmds := []tea.Cmd{m.tick(), tea.RequestBackgroundColor}
	if m.station != nil {
		cmds = append(cmds, m.first(), m.watchOn())
	}
	return tea.Batch(cmds...)
}

// Update routes a message.
func (m *Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.resize(msg.Width, msg.Height)
	case tea.ColorProfileMsg:
		m.setProfile(msg.Profile)
	case tea.BackgroundColorMsg:
		m.dark = msg.IsDark()
		m.setTheme()
	case clockMsg:
		return m, m.clock(time.Time(msg))
	case loadedMsg:
		return m, m.loaded(msg)
	case linesMsg:
		m.linesLoaded(msg)
	case changedMsg:
		return m, tea.Batch(m.load(), m.waitForChange())
	case recordedMsg:
		return m, m.recorded(msg)
	case practisingMsg:
		return m, m.practising(msg)
	case leftPracticeMsg:
		m.leftPractice(msg)
	case openedMsg:
		return m, m.opened(msg)
	case pinSetMsg:
		return m, m.pinSet(msg)
	case plannedMsg:
		m.washing.plan.found(msg)
	case tea.KeyPressMsg:
		return m, m.key(msg)
	case foundMsg:
		m.found(msg)
	case olderMsg:
		m.older(msg)
	case tea.MouseClickMsg:
		return m, m.click(msg)
	case tea.MouseWheelMsg:
		return m, m.wheel(msg)
	case tea.ResumeMsg:
		if m.station != nil {
			return m, m.load()
		}
	case unlockedMsg:
		m.unlocked(msg)
	case tea.PasteMsg:
		if n := len(m.sheets); n > 0 {
			return m, m.do(m.sheets[n-1].update(msg))
		}
	}
	return m, nil
}

func (m *Model) openForm(a openForm) {
	spec, ok := bath.SpecOf(a.kind)
	if !ok {
		return
	}
	m.popMenu()
	if a.kind == "decision" && a.preset == nil {
		m.showDecide()
		return
	}
	f := newForm(m.t, m.x, spec, a.preset, m.whoNow())
	f.practice = m.practice != nil
	f.beginAt(a.begin)
	if _, f.collect = m.top().(*catchUp); f.collect {
		f.fields.row(rowWhen).set("")
		f.fields.focusOn(rowWhen)
		f.fields.row(rowWhen).optional = false
	}
	m.push(f)
}

// presetHere is what the screen that is shown fills in for a form.
func (m *Model) presetHere(kind bath.Kind) map[string]string {
	if s, ok := m.screens[m.shown].(interface {
		preset(bath.Kind) map[string]string
	}); ok {
		return s.preset(kind)
	}
	return nil
}

// showDecide takes the place of an empty form: nothing is signed without its
// evidence in sight.
func (m *Model) showDecide() {
	if m.top() != nil {
		m.toast.stay("A decision is signed beside its evidence: close this, then press 3")
		return
	}
	m.show(keys.decide.Help().Key)
}

// collect hands an entry to the catch-up sheet below its form.
func (m *Model) collect(d draft) {
	m.pop()
	if c, ok := m.top().(*catchUp); ok {
		c.add(d)
		m.remember(d.By)
	}
}

func (m *Model) top() sheet {
	if len(m.sheets) == 0 {
		return nil
	}
	return m.sheets[len(m.sheets)-1]
}

// popMenu takes the list away from which something was chosen.
func (m *Model) popMenu() {
	switch m.top().(type) {
	case *kindsSheet, *palette:
		m.pop()
	}
}

func (m *Model) push(s sheet) { m.sheets = append(m.sheets, s) }

func (m *Model) pop() { m.sheets = m.sheets[:max(0, len(m.sheets)-1)] }

// remember keeps who saved until the shift ends, so that the next form asks
// for one key less.
func (m *Model) remember(who string) {
	m.who = remembered{who: who, until: m.x.Shift.End}
}

func (m *Model) whoNow() string {
	if m.now.Before(m.who.until) {
		return m.who.who
	}
	return m.o.As
}

func (m *Model) nextBath() {
	if n := len(m.state.Baths); n > 1 {
		for i, b := range m.state.Baths {
			if b.ID == m.x.Bath.ID {
				m.bath = m.state.Baths[(i+1)%n].ID
				break
			}
		}
		m.assess()
	}
}

// assess makes a new snapshot and gives it to every screen.
func (m *Model) assess() {
	if m.state == nil {
		return
	}
	x, err := advise.Assess(m.state, m.bath, m.now)
	if err != nil {
		m.toast.stay(sentence(err))
		return
	}
	m.x = x
	for _, s := range m.screens {
		s.setSnapshot(x)
	}
}

func (m *Model) resize(w, h int) {
	m.l = arrange(w, h)
	for _, s := range m.screens {
		s.setSize(m.l)
	}
}

func (m *Model) setProfile(p colorprofile.Profile) {
	if m.o.Profile == colorprofile.Unknown {
		m.profile = p
		m.setTheme()
	}
}

// setTheme changes the look in place: sheets that are open hold it too.
func (m *Model) setTheme() {
	if m.t == nil {
		m.t = new(theme)
	}
	*m.t = *newTheme(m.profile, m.dark, m.o.Glyphs, m.o.Letters)
	for _, s := range m.screens {
		s.setTheme(m.t)
	}
}

// View draws the screen; it changes nothing.
func (m *Model) View() tea.View {
	content, cursor := m.draw()
	v := tea.NewView(content)
	v.AltScreen = true
	v.KeyboardEnhancements.ReportAlternateKeys = true // latin asks which key it is on a Latin layout
	if m.mouseOn() {
		v.MouseMode = tea.MouseModeCellMotion
	}
	v.Cursor = cursor
	v.WindowTitle = m.windowTitle()
	return v
}

func (m *Model) windowTitle() string {
	if m.x == nil {
		return "Bathside"
	}
	name := "Bathside · "
	if m.practice != nil {
		name = "PRACTICE · "
	}
	return m.t.spell(name + tankName(m.x) + " · " + advise.StateWord(m.x.PH.State))
}
