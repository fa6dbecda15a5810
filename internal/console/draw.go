package console

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// draw joins strip, screen, sheets and footer into exactly the window.
func (m *Model) draw() (string, *tea.Cursor) {
	if m.l.w <= 0 || m.l.h <= 0 {
		return "", nil
	}
	if m.l.tiny {
		return strings.Join(rows(wrap(m.tinySay(), m.l.w), m.l.w, m.l.h), "\n"), nil
	}
	base := m.t.strip(m.x, m.now, m.banner(), m.l.w)
	base = append(base, rows(m.body(), m.l.w, m.l.body.Dy())...)
	base = append(base, m.foot())
	var cursor *tea.Cursor
	if s := m.top(); s != nil {
		base, cursor = m.t.cover(base, s, m.l.w)
	}
	return strings.Join(base, "\n"), cursor
}

func (m *Model) body() []string {
	if m.x == nil {
		return nil
	}
	return m.screens[m.shown].view()
}

// tinySay is all that a window too small for a screen holds.
func (m *Model) tinySay() string {
	s := fmt.Sprintf("This window is %d x %d; Bathside needs %d x %d.", m.l.w, m.l.h, smallW, smallH)
	if m.practice != nil {
		s = "PRACTICE. " + s
	}
	if m.x != nil {
		if tag := m.x.TagSay(); tag != "" {
			return tag + ". " + s
		}
	}
	return s
}

// foot is the last row: what was just said, or the keys that matter now.
func (m *Model) foot() string {
	if s := m.top(); s != nil && !m.toast.bad {
		return m.t.footer(s.bindings(), "", m.l.w)
	}
	if text := m.toast.view(m.t); text != "" {
		return pad(text, m.l.w)
	}
	if m.x == nil {
		return m.t.footer([]key.Binding{keys.quit}, "", m.l.w)
	}
	list := append([]key.Binding{keys.help}, m.screens[m.shown].bindings()...)
	list = slices.DeleteFunc(list, func(b key.Binding) bool { return slices.Contains(arrows, b.Help().Key) })
	list = append(list, keys.reading, keys.wash, keys.temp, keys.filter, keys.dose, keys.water, keys.record, keys.catch)
	right := fit(m.l.w*2/3, m.screenKeys(true)+"   q quit", m.screenKeys(true))
	if m.l.w < fullW {
		right = fit(m.l.w/2, m.screenKeys(false)+"   q quit", m.screenKeys(false))
	}
	return m.t.footer(list, right, m.l.w)
}

// arrows go without saying in a footer; help has them.
var arrows = []string{"up", "down", "left", "right", "home", "end"}

// screenKeys lists the screens, the one that is shown by name and in brackets;
// the others by name too where that is asked for.
func (m *Model) screenKeys(named bool) string {
	var parts []string
	for _, k := range []key.Binding{keys.today, keys.readings, keys.decide, keys.washing, keys.gear, keys.guides, keys.log} {
		name, _, _ := strings.Cut(k.Help().Desc, ":")
		s := k.Help().Key
		if s == m.shown {
			s = "[" + s + " " + name + "]"
		} else if named {
			s += " " + name
		}
		parts = append(parts, s)
	}
	return strings.Join(parts, " ")
}
