package console

import (
	"charm.land/bubbles/v2/key"
)

// KeyLine is a key as the README and the manual page list it.
type KeyLine struct {
	Where string // "anywhere", or the screen that it works on
	Key   string
	Say   string
}

// KeyTable is every key outside forms, from the bindings that footer and help
// are made of.
func KeyTable() (out []KeyLine) {
	for _, g := range []struct {
		where string
		list  []key.Binding
	}{
		{"anywhere", append([]key.Binding{
			keys.help, keys.palette, keys.reading, keys.temp, keys.filter, keys.dose, keys.water, keys.wash, keys.start, keys.handover, keys.catch, keys.record,
			keys.explain, keys.undo, keys.find, keys.copy, keys.messages, keys.bath,
		}, append(screenBindings[:len(screenBindings):len(screenBindings)],
			keys.next, keys.prev, keys.up, keys.down, keys.pageUp, keys.pageDown, keys.home, keys.end, keys.esc, keys.mouse, keys.suspend, keys.quit)...)},
		{"Today", []key.Binding{keys.enter, keys.guide, keys.left, keys.right}},
		{"Readings", append(chartKeys.list(), keys.strike, keys.meters, keys.addCheck)},
		{"Decide", []key.Binding{decideKeys.sign, decideKeys.choose, decideKeys.less, decideKeys.more, decideKeys.none, decideKeys.full}},
		{"Wash", []key.Binding{
			washKeys.more, washKeys.less, washKeys.soil, washKeys.empty, washKeys.tick, washKeys.mend, washKeys.plan, washKeys.take,
			washKeys.pause, washKeys.abort, washKeys.result, washKeys.other,
		}},
		{"Gear", []key.Binding{gearStep, gearTag, gearRegister}},
		{"Guides", []key.Binding{guideKeys.open, guideKeys.do, keys.back, keys.onward, keys.rehearse, guideKeys.leave}},
		{"Log book", []key.Binding{keys.strike, logHandover, logLines, logNote}},
		{"Station", []key.Binding{stationOpen, stationChange, stationParts, stationAdd}},
		{"a form", []key.Binding{formKeys.save, fieldNext, fieldPrev, probeKey, formKeys.leave}},
	} {
		for _, b := range g.list {
			out = append(out, KeyLine{g.where, b.Help().Key, b.Help().Desc})
		}
	}
	return out
}
