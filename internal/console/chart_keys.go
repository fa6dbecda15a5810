package console

import (
	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// chartKeys are the keys of the chart on Readings. They work beside those of the
// list: the cursor on the chart is the marked reading.
var chartKeys = chartKeymap{
	left:    bind("left", "the reading before, on the chart too", "left", "h"),
	right:   bind("right", "the reading after, on the chart too", "right", "l"),
	in:      bind("+", "zoom in: around the marked reading, to two days at the nearest", "+", "="),
	out:     bind("-", "zoom out: around the marked reading", "-"),
	all:     bind("backspace", "all: the whole fill, and where it likely goes", "backspace"),
	earlier: bind(",", "earlier: by half of what is shown", ","),
	later:   bind(".", "later: by half of what is shown", "."),
	compare: bind("o", "compare: lay the fill before over this one, or take it away", "o"),
	swap:    bind("tab", "chart or list: one in the place of the other", "tab"),
}

type chartKeymap struct {
	left, right, in, out, all, earlier, later, compare, swap key.Binding
}

func (k chartKeymap) list() []key.Binding {
	return []key.Binding{k.compare, k.in, k.out, k.earlier, k.later, k.all, k.left, k.right}
}

// keyChart carries out a key of the chart, and says whether it was one. A low
// window that shows the list shows the chart then: nothing happens out of sight.
func (s *readings) keyChart(msg tea.KeyPressMsg) (action, bool) {
	series := s.series()
	if !key.Matches(msg, chartKeys.list()...) || s.x == nil {
		return nil, false
	}
	switch {
	case !s.x.Open:
		return say{"No fill is open, so there is nothing to show: log the fill first"}, true
	case len(series) == 0:
		return say{"There is no reading to show yet: press p to record one"}, true
	}
	step := key.Matches(msg, chartKeys.left, chartKeys.right)
	if s.low() && !step {
		s.showChart = true
		s.sizeChart()
	}
	switch {
	case key.Matches(msg, chartKeys.left):
		s.mark(min(s.at+1, len(series)-1), true)
	case key.Matches(msg, chartKeys.right):
		s.mark(max(s.at-1, 0), true)
	default:
		return s.chart.look(msg), true
	}
	return nil, true
}

// look changes what is shown of the chart. Where a key can do nothing, it says
// why.
func (c *seriesChart) look(msg tea.KeyPressMsg) action {
	c.drawn = nil
	lo, hi := c.reach()
	around := unix(c.marked.At)
	switch {
	case key.Matches(msg, chartKeys.compare):
		if err := c.overlay(); err != nil {
			return say{"Nothing to compare with: " + err.Error()}
		}
	case key.Matches(msg, chartKeys.all):
		c.window = window{}
	case key.Matches(msg, chartKeys.in):
		if !c.window.zoom(true, lo, hi, around) {
			return say{"Two days are as near as the chart goes: - zooms out"}
		}
	case key.Matches(msg, chartKeys.out):
		if !c.window.zoom(false, lo, hi, around) {
			return say{"All of the fill is shown: + zooms in"}
		}
	case c.window.whole(lo, hi):
		return say{"All of the fill is shown: zoom in with + first"}
	case !c.window.pan(key.Matches(msg, chartKeys.later), lo, hi):
		return say{"The chart ends here: backspace shows all of it"}
	}
	return nil
}
