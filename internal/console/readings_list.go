package console

import "fmt"

// list is the readings, or in their place the checks of the meters.
func (s *readings) list() list {
	if s.x == nil {
		return list{}
	}
	if s.showMeters {
		l := list{at: s.meters.at, mark: func(i int) { s.meters.at = i }}
		for i := range s.meters.checks() {
			all := s.meters.checks()
			c := all[len(all)-1-i]
			l.rows = append(l.rows, fmt.Sprintf("%s  %s: %s", s.x.Clock(c.At), c.Is.Meter, c.Say))
		}
		return l
	}
	l := list{at: s.at, mark: func(i int) { s.at = i }}
	for _, r := range s.series() {
		l.rows = append(l.rows, fmt.Sprintf("%s  pH %.2f at %s, %s, %s, by %s", s.x.Clock(r.At), float64(r.Is.PH), s.x.Sys.Temp(r.Is.SampleC), against(r), r.Is.Meter, r.By))
	}
	return l
}
