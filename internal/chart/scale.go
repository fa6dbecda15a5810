package chart

import "math"

// scale maps lo..hi onto n cells, lo at the middle of the first and hi at the
// middle of the last. For rows, which count down, lo is the larger value.
type scale struct {
	lo, hi float64
	n      int
}

// at returns where v lies, in cells; the result is not finite only if v is not.
func (s scale) at(v float64) float64 {
	return (v - s.lo) / (s.hi - s.lo) * float64(s.n-1)
}

// cell returns the cell v lies in, or false if that is outside or v unusable.
func (s scale) cell(v float64) (int, bool) {
	const slack = 1e-6 // a value on the very edge is inside, whatever its rounding
	at := s.at(v)
	if !usable(v) || at < -0.5-slack || at > float64(s.n)-0.5+slack {
		return 0, false
	}
	i := int(math.Floor(at + 0.5))
	return max(0, min(i, s.n-1)), s.n > 0
}

// usable keeps sums and differences finite.
func usable(v float64) bool { return math.Abs(v) <= 1e100 }

// span is a range that grows by the values it is shown.
type span struct{ lo, hi float64 }

func noSpan() span { return span{math.Inf(1), math.Inf(-1)} }

func (s *span) add(v float64) {
	if usable(v) {
		s.lo, s.hi = min(s.lo, v), max(s.hi, v)
	}
}

func (s span) empty() bool { return s.lo > s.hi }

// has reports whether v lies inside; an empty span, not yet known, has all.
func (s span) has(v float64) bool { return s.empty() || v >= s.lo && v <= s.hi }

// widened returns s, made twice by wide if it is too short to divide.
func (s span) widened(by float64) span {
	if s.hi-s.lo > max(1e-90, 1e-9*max(math.Abs(s.lo), math.Abs(s.hi))) {
		return s
	}
	return span{s.lo - by, s.hi + by}
}

// given returns the range a caller set, if it is one.
func given(lo, hi float64) (span, bool) {
	s := span{lo, hi}
	return s, usable(lo) && usable(hi) && lo < hi && s == s.widened(1)
}

// xSpan returns the range of x to show, and whether the caller set it.
func (p Plot) xSpan() (s span, set bool) {
	if s, set = given(p.X0, p.X1); set {
		return s, true
	}
	return p.xData().fittedX(), false
}

// fittedX is s, wide enough for an axis.
func (s span) fittedX() span {
	if s.empty() {
		return s
	}
	// Half a day either side, whether x counts days or seconds since 1970.
	return s.widened(max(0.5, 2.5e-5*math.Abs(s.lo)))
}

// xData returns the range of x of all that the plot holds.
func (p Plot) xData() span {
	s := noSpan()
	for _, q := range p.Points {
		if usable(q.Y) {
			s.add(q.X)
		}
	}
	for _, e := range p.Events {
		s.add(e.X)
	}
	for _, b := range p.Bands {
		for _, x := range b.X {
			s.add(x)
		}
	}
	for _, q := range p.Paths {
		for _, x := range q.X {
			s.add(x)
		}
	}
	return s
}

// ySpan returns the range of y to show for what lies inside x, and whether the
// caller set it.
func (p Plot) ySpan(x span) (s span, set bool) {
	if s, set = given(p.Y0, p.Y1); set {
		return s, true
	}
	s = noSpan()
	for _, q := range p.Points {
		if x.has(q.X) && usable(q.X) {
			e := errorOf(q)
			s.add(q.Y - e)
			s.add(q.Y + e)
		}
	}
	for _, l := range p.Lines {
		if l.across() || x.empty() || l.From <= x.hi && l.To >= x.lo {
			s.add(l.Y)
		}
	}
	for _, b := range p.Bands {
		s.addCurve(b.X, b.Lo, x)
		s.addCurve(b.X, b.Hi, x)
	}
	for _, q := range p.Paths {
		s.addCurve(q.X, q.Y, x)
	}
	if s.empty() {
		return s, false
	}
	by := math.Abs(s.lo) / 100
	if by < 1e-50 {
		by = 0.5
	}
	return s.widened(by), false
}

// addCurve adds the corners inside, and where the curve comes in and goes out.
func (s *span) addCurve(xs, ys []float64, inside span) {
	for i := range min(len(xs), len(ys)) {
		if inside.has(xs[i]) {
			s.add(ys[i])
		}
		if i == 0 || inside.empty() {
			continue
		}
		for _, edge := range []float64{inside.lo, inside.hi} {
			if t := (edge - xs[i-1]) / (xs[i] - xs[i-1]); t > 0 && t < 1 {
				s.add(ys[i-1]*(1-t) + ys[i]*t)
			}
		}
	}
}

// errorOf returns the half-length of a point's error bar, never negative.
func errorOf(q Point) float64 {
	if !usable(q.Err) {
		return 0
	}
	return math.Abs(q.Err)
}
