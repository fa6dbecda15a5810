package console

import (
	"slices"
	"strings"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/station"
)

type (
	// searchBook asks for the lines of the whole log book that have the words.
	searchBook struct{ words string }
	// foundMsg is what came of it, oldest first.
	foundMsg struct {
		from  *station.Station
		words string
		lines []bath.Entry
		err   error
	}
	// loadOlder asks for the lines before those that the console holds.
	loadOlder struct{}
	// olderMsg is those lines.
	olderMsg struct {
		from  *station.Station
		lines []bath.Entry
		err   error
	}
)

// mostFound is how many lines a search lists, the newest.
const mostFound = 500

// searchBook reads the log book from its end, outside Update, until enough is
// found.
func (m *Model) searchBook(typed string) tea.Cmd {
	st, x := m.station, m.x
	words := strings.Fields(strings.ToLower(typed))
	m.toast.pass("Looking through the log book", m.now)
	return func() tea.Msg {
		found := foundMsg{from: st, words: typed}
		for last, more := uint64(0), true; more && len(found.lines) < mostFound; {
			var lines []bath.Entry
			if lines, found.err = st.Lines(last, linesShown); found.err != nil || len(lines) == 0 {
				break
			}
			for _, e := range slices.Backward(lines) {
				if hasAll(strings.ToLower(findable(e, x)), words) {
					found.lines = append(found.lines, e)
				}
			}
			last, more = lines[0].Seq-1, lines[0].Seq > 1
		}
		slices.Reverse(found.lines)
		return found
	}
}

func (m *Model) found(msg foundMsg) {
	switch {
	case msg.from != m.station:
	case msg.err != nil:
		m.toast.stay(m.explain(msg.err))
	default:
		s := m.log
		if s.words == "" {
			s.back = s.at
		}
		s.words, s.found, s.at = msg.words, msg.lines, 0
		m.toast.clear()
	}
}

func (m *Model) loadOlder() tea.Cmd {
	st, before := m.station, m.log.lines[0].Seq-1
	return func() tea.Msg {
		lines, err := st.Lines(before, linesShown)
		return olderMsg{st, lines, err}
	}
}

// older puts lines before those that are held; the marked line stays marked.
func (m *Model) older(msg olderMsg) {
	held := m.log.lines
	switch {
	case msg.from != m.station || len(held) == 0 || len(msg.lines) == 0:
	case msg.err != nil:
		m.toast.stay(m.explain(msg.err))
	case msg.lines[len(msg.lines)-1].Seq+1 == held[0].Seq:
		m.log.lines = append(msg.lines, held...)
	}
}
