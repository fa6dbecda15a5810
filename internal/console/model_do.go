package console

import (
	"cmp"

	tea "charm.land/bubbletea/v2"
)

// do carries out what a panel or a sheet asked for.
func (m *Model) do(a action) tea.Cmd {
	switch a := a.(type) {
	case openForm:
		m.openForm(a)
	case refinePlan:
		return m.washing.refine()
	case openStrike:
		m.push(newStrike(m.t, m.x, a.line, m.whoNow()))
	case openKinds:
		m.push(newKinds(m.t))
	case openCatchUp:
		m.push(newCatchUp(m.t, m.x))
	case openSetPIN:
		m.popMenu()
		if m.practice != nil {
			m.toast.stay("A PIN set in a practice would be thrown away: leave it first, 6 then esc")
			break
		}
		m.push(newSetPIN(m.t, m.x, cmp.Or(a.member, m.whoNow()), m.whoNow()))
	case setPIN:
		return m.setPIN(a)
	case openFind:
		m.openFind()
	case seek:
		m.pop()
		return m.do(a.in.seek(a.words))
	case cannot:
		m.toast.stay("Not now: " + a.why)
	case explainFigure:
		m.sheets = nil
		m.push(newFigures(m.t, m.figures(), a.id))
	case showBath:
		m.sheets, m.bath = nil, a.id
		m.assess()
	case openCard:
		m.sheets = nil
		m.openCard(a.name)
	case unlock:
		return m.unlock(a)
	case searchBook:
		return m.searchBook(a.words)
	case loadOlder:
		return m.loadOlder()
	case say:
		m.toast.stay(a.text)
	case pass:
		m.toast.pass(a.text, m.now)
	case openGuide:
		m.popMenu()
		m.openGuide(a.id)
	case practise:
		m.popMenu()
		return m.practise(a.id)
	case practised:
		return m.practised(a.id)
	case leavePractice:
		return m.leavePractice()
	case skipAhead:
		return m.skipAhead(a.by)
	case explain:
		m.popMenu()
		m.push(&explainSheet{m.t, a.a})
	case closeSheet:
		m.pop()
	case collected:
		m.collect(a.draft)
	case submit:
		return m.submit(a.drafts)
	case create:
		return m.create(a)
	case press:
		m.pop()
		return m.key(keyPress(a.key))
	}
	return nil
}
