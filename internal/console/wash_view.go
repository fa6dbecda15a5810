package console

// setSize gives every part its room: one at a time where the window is small,
// else the load beside its baskets over what stands in the way beside the
// checks. The plan takes the place of all but the load.
func (s *washing) setSize(l layout) {
	s.l, s.load.alone = l, l.one
	h := max(0, l.body.Dy()-1) // below the top line
	if l.one {
		for _, p := range s.panels() {
			p.setSize(l.w, max(0, h-1))
		}
		return
	}
	left, right := halves(l.w)
	if s.planned {
		left = min(left, 40)
		s.load.setSize(left, h-1)
		s.plan.setSize(l.w-left-2, h-1)
		return
	}
	up := upper(h)
	s.load.setSize(left, up-1)
	s.baskets.setSize(right, up-1)
	s.gates.setSize(left, h-up-1)
	s.checks.setSize(right, h-up-1)
}

// upper is the height of the load and the baskets with their titles: a little
// over half.
func upper(h int) int { return h * 11 / 20 }

func (s *washing) view() []string {
	w, h := s.l.w, s.l.body.Dy()
	if s.x == nil || s.making.cat == nil {
		return rows(nil, w, h)
	}
	out := []string{s.head(w)}
	switch {
	case s.l.one:
		out = append(out, s.block(s.focus)...)
	case s.planned:
		out = append(out, beside(2, s.block(0), s.block(1))...)
	default:
		out = append(out, beside(2, s.block(0), s.block(3))...)
		out = append(out, beside(2, s.block(1), s.block(2))...)
	}
	return rows(out, w, h)
}

// block is a part under its title row.
func (s *washing) block(i int) []string {
	p := s.panels()[i]
	lines := p.view()
	w := s.l.w
	if !s.l.one {
		w = s.widths()[i]
	}
	return append([]string{s.t.title(p.title(), w, i == s.focus)}, lines...)
}

func (s *washing) widths() []int {
	if s.planned {
		return []int{s.load.w, s.plan.w}
	}
	return []int{s.load.w, s.gates.w, s.checks.w, s.baskets.w}
}
