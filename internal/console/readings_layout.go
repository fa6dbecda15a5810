package console

// From these heights of the body on there is a chart above the table, there are
// strips under the chart, and these are higher.
const (
	chartFrom, stripsFrom, highFrom = 16, 34, 50
)

// low reports whether there is room for the chart or the table only.
func (s *readings) low() bool { return s.l.body.Dy() < chartFrom }

// chartH is the height of the chart with its title: a little over half, and more
// with strips under it.
func (s *readings) chartH() int {
	switch h := s.l.body.Dy(); {
	case s.low() && s.showChart:
		return h
	case s.low():
		return 0
	case h < stripsFrom:
		return h * 11 / 20
	default:
		return h * 13 / 20
	}
}

func (s *readings) sizeChart() {
	strip := 0
	switch h := s.l.body.Dy(); {
	case h >= highFrom:
		strip = 5
	case h >= stripsFrom:
		strip = 3
	}
	s.chart.setSize(s.l.w, max(0, s.chartH()-1), strip)
}
