package console

import (
	"charm.land/bubbles/v2/key"

	"bathside/internal/bath"
)

// keymap is every key that works outside a sheet. Footer and help are made
// from it.
type keymap struct {
	help, quit, esc, enter       key.Binding
	up, down, left, right        key.Binding
	pageUp, pageDown, home, end  key.Binding
	next, prev                   key.Binding
	today, readings, decide, log key.Binding
	reading, temp, filter, dose  key.Binding
	water, wash, handover, catch key.Binding
	record, bath, strike         key.Binding
	explain, start               key.Binding
	meters, addCheck             key.Binding
	guides, guide, rehearse      key.Binding
	back, onward                 key.Binding
	washing, gear, site          key.Binding
	find, palette, messages      key.Binding
	undo, copy, mouse, suspend   key.Binding
}

func bind(help, sentence string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(help, sentence))
}

var keys = keymap{
	help:     bind("?", "help: what can be done here", "?", "f1"),
	quit:     bind("q", "quit", "q"),
	esc:      bind("esc", "close what lies on top", "esc"),
	enter:    bind("enter", "do it: the marked thing", "enter"),
	up:       bind("up", "move up", "up", "k"),
	down:     bind("down", "move down", "down", "j"),
	left:     bind("left", "less soil, or earlier", "left", "h"),
	right:    bind("right", "more soil, or later", "right", "l"),
	pageUp:   bind("pgup", "a page up", "pgup"),
	pageDown: bind("pgdn", "a page down", "pgdown"),
	home:     bind("home", "to the first", "home"),
	end:      bind("end", "to the last", "end"),
	next:     bind("tab", "next panel", "tab"),
	prev:     bind("shift+tab", "panel before", "shift+tab"),
	today:    bind("1", "Today: what to do next", "1"),
	readings: bind("2", "Readings: the pH series", "2"),
	decide:   bind("3", "Decide: top up, drain or keep, and sign", "3"),
	washing:  bind("4", "Wash: a load, what stands in its way, and the plan", "4"),
	gear:     bind("5", "Gear: after the wash, and tagged pieces", "5"),
	log:      bind("7", "Log book: every line, crossing out, the handover", "7"),
	site:     bind("8", "Station: what is set, by whom, and changing it", "8"),
	reading:  bind("p", "pH: record a reading", "p"),
	temp:     bind("t", "temperature: as measured in the bath", "t"),
	filter:   bind("f", "filter: log a run of the pump", "f"),
	dose:     bind("d", "soap: first dose or top-up", "d"),
	water:    bind("w", "water: check the mark, add water", "w"),
	wash:     bind("r", "wash: log what was washed", "r"),
	start:    bind("s", "start: a wash, past the gates", "s"),
	handover: bind("n", "note: to the next shift", "n"),
	catch:    bind("c", "catch up: several lines, a time each", "c"),
	record:   bind("e", "more: log anything else", "e"),
	bath:     bind("b", "the next bath", "b"),
	strike:   bind("x", "cross out: the marked line", "x"),
	explain:  bind("i", "why: the whole reason, and where its figures come from", "i"),
	meters:   bind("v", "meters: calibrations and dips, or back to the readings", "v"),
	guides:   bind("6", "Guides: step by step, cards, practice", "6"),
	guide:    bind("g", "guide: through the marked thing, step by step", "g"),
	rehearse: bind("o", "practise: on a copy, nothing is logged", "o"),
	back:     bind("left", "the step before", "left", "h"),
	onward:   bind("right", "go on: it was done already", "right", "l"),
	addCheck: bind("a", "add: one dip, or two buffers", "a"),
	find:     bind("/", "find: in the list that is marked", "/"),
	palette:  bind(":", "anything: type what you want, like reading, drain, who is on", ":", "ctrl+p"),
	messages: bind("m", "messages: what was said, and what went wrong", "m"),
	undo:     bind("u", "undo: take back the last line you wrote, within 10 min", "u"),
	copy:     bind("y", "copy: the marked line, to the clipboard", "y"),
	mouse:    bind("f6", "mouse: on, or off so that the terminal selects text", "f6"),
	suspend:  bind("ctrl+z", "leave for a while: fg in the shell comes back", "ctrl+z"),
}

// kindKeys opens the form of a kind by one key, from anywhere.
var kindKeys = []struct {
	key  *key.Binding
	kind bath.Kind
}{
	{&keys.reading, "reading"}, {&keys.temp, "temp"}, {&keys.filter, "filter"}, {&keys.dose, "dose"},
	{&keys.water, "water"}, {&keys.wash, "wash"}, {&keys.start, "start"}, {&keys.handover, "handover"},
}

// anywhere lists the bindings that work on every screen, for help.
func (m *Model) anywhere() []key.Binding {
	b := []key.Binding{
		keys.reading, keys.temp, keys.filter, keys.dose, keys.water, keys.wash, keys.start, keys.handover, keys.catch, keys.record,
		keys.explain, keys.undo, keys.find, keys.copy, keys.palette, keys.messages,
	}
	b = append(b, m.screensHere()...)
	if len(m.state.Baths) > 1 {
		b = append(b, keys.bath)
	}
	return append(b, keys.mouse, keys.suspend, keys.help, keys.quit)
}

// screenBindings are the screens by their number, in that order.
var screenBindings = []key.Binding{keys.today, keys.readings, keys.decide, keys.washing, keys.gear, keys.guides, keys.log, keys.site}
