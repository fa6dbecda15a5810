package bath

import (
	"cmp"
	"slices"
	"time"

	"bathside/internal/units"
)

// Life is one fill of a bath, from the fill to the drain.
type Life struct {
	Number  int
	Fill    Rec[*Fill]
	Drain   *Rec[*Drain] // nil while the fill is open
	Entries []Entry      // what happened in it, by time; the fill first
}

// Rec is an entry of a known kind.
type Rec[B Body] struct {
	Entry
	Is B
}

// Of picks the entries of one kind, in their order.
func Of[B Body](es []Entry) []Rec[B] {
	n := 0
	for _, e := range es {
		if _, ok := e.Body.(B); ok {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	out := make([]Rec[B], 0, n)
	for _, e := range es {
		if b, ok := e.Body.(B); ok {
			out = append(out, Rec[B]{e, b})
		}
	}
	return out
}

// last gives the last of a list.
func last[T any](s []T) (T, bool) {
	if len(s) == 0 {
		var zero T
		return zero, false
	}
	return s[len(s)-1], true
}

// Lives lists the fills that b still holds in detail: the open one, if any,
// and the one before it. Which fill an entry belongs to is decided by when it
// happened, not by when it was written.
func (b *Bath) Lives() []Life {
	lives := b.spans()
	of, held := make([]int, len(b.Entries)), make([]int, len(lives))
	for i, e := range b.Entries {
		if of[i] = belongs(lives, e); of[i] >= 0 {
			held[of[i]]++
		}
	}
	for i := range lives {
		lives[i].Entries = slices.Grow(lives[i].Entries, held[i])
	}
	for i, e := range b.Entries {
		if l := of[i]; l >= 0 {
			lives[l].Entries = append(lives[l].Entries, e)
		}
	}
	return lives
}

// spans pairs the fills of b with their drains, without their entries.
func (b *Bath) spans() []Life {
	var lives []Life
	for _, e := range b.marks() {
		switch body := e.Body.(type) {
		case *Fill:
			lives = append(lives, Life{Number: len(b.Past) + len(lives) + 1, Fill: Rec[*Fill]{e, body}})
		case *Drain:
			if n := len(lives); n > 0 && lives[n-1].Drain == nil {
				lives[n-1].Drain = &Rec[*Drain]{e, body}
			}
		}
	}
	return lives
}

// marks lists the fills and drains of b in the order in which they happened.
func (b *Bath) marks() []Entry {
	var written []Entry
	for _, e := range b.Entries {
		switch e.Body.(type) {
		case *Fill, *Drain:
			written = append(written, e)
		}
	}
	slices.SortFunc(written, func(x, y Entry) int { return cmp.Compare(x.Seq, y.Seq) })
	var marks []Entry
	for _, e := range written {
		i := len(marks)
		for i > 0 && !since(marks[i-1], e) {
			i--
		}
		marks = slices.Insert(marks, i, e)
	}
	return marks
}

// since reports whether e happened at mark or after it. Of two entries the
// first written, if it is dated after the second was written, was made by a
// clock that ran ahead: it happened first, whatever it says.
func since(mark, e Entry) bool {
	switch {
	case mark.Seq < e.Seq && mark.At.After(e.Logged):
		return true
	case e.Seq < mark.Seq && e.At.After(mark.Logged):
		return false
	}
	return byTime(mark, e) <= 0
}

// belongs gives the index of the life that e is part of, or -1.
func belongs(lives []Life, e Entry) int {
	for i := len(lives) - 1; i >= 0; i-- {
		l := &lives[i]
		if !since(l.Fill.Entry, e) {
			continue
		}
		if l.Drain != nil && e.Seq != l.Drain.Seq && since(l.Drain.Entry, e) {
			return -1
		}
		return i
	}
	return -1
}

// lifeOf is the fill that e belongs to, whether e is in it already or not. It
// is false where no fill was open then.
func (b *Bath) lifeOf(e Entry) (Life, bool) {
	lives := b.Lives()
	i := belongs(lives, e)
	if i < 0 {
		return Life{}, false
	}
	return lives[i], true
}

// before is l as it was when e happened.
func (l Life) before(e Entry) Life {
	l.Entries = slices.DeleteFunc(slices.Clone(l.Entries), func(x Entry) bool { return byTime(x, e) >= 0 })
	return l
}

// Life is the open fill.
func (b *Bath) Life() (Life, bool) {
	l, ok := last(b.Lives())
	return l, ok && l.Drain == nil
}

// LastLife is the open fill or, where the bath stands empty, the last one.
func (b *Bath) LastLife() (Life, bool) { return last(b.Lives()) }

// AfterDrain lists what happened since the last drain of an empty bath.
func (b *Bath) AfterDrain() []Entry {
	l, ok := last(b.spans())
	if !ok || l.Drain == nil {
		return nil
	}
	var out []Entry
	for _, e := range b.Entries {
		if e.Seq != l.Drain.Seq && since(l.Drain.Entry, e) {
			out = append(out, e)
		}
	}
	return out
}

// Baseline is the first reading of the fill, hot or from the cooled cup. It
// is the entry that says so; no other is ever taken for it.
func (l Life) Baseline(cooled bool) (Rec[*Reading], bool) {
	for _, r := range Of[*Reading](l.Entries) {
		if r.Is.Baseline && r.Is.Cooled == cooled {
			return r, true
		}
	}
	return Rec[*Reading]{}, false
}

// AgeDays is how long the fill has been in service, in days.
func (l Life) AgeDays(now time.Time) float64 { return now.Sub(l.Fill.At).Hours() / 24 }

// DoseL is all the detergent that went in, first dose and top-ups.
func (l Life) DoseL() (sum units.Volume) {
	for _, d := range Of[*Dose](l.Entries) {
		sum += d.Is.VolumeL
	}
	return sum
}

// Topups counts the doses after the first.
func (l Life) Topups() int { return max(len(Of[*Dose](l.Entries))-1, 0) }

// MakeupL is all the water added after the fill.
func (l Life) MakeupL() (sum units.Volume) {
	for _, w := range Of[*Water](l.Entries) {
		sum += w.Is.VolumeL
	}
	return sum
}

// Washes and the items in them.
func (l Life) Washes() (washes, items int) {
	for _, w := range Of[*Wash](l.Entries) {
		washes++
		for _, load := range w.Is.Items {
			items += load.Count
		}
	}
	return washes, items
}

// FilterTime is how long the filter ran in this fill.
func (l Life) FilterTime() (sum units.Span) {
	for _, f := range Of[*Filter](l.Entries) {
		sum += f.Is.Time
	}
	return sum
}

// Temp is the last temperature that was logged by itself.
func (l Life) Temp() (Rec[*Temp], bool) { return last(Of[*Temp](l.Entries)) }

// Measured is the last measured bath temperature: one logged by itself, with
// what it says of the heater, or the one taken before a wash.
func (l Life) Measured() (t Temp, at time.Time, ok bool) {
	for _, e := range slices.Backward(l.Entries) {
		if t, ok := measured(e); ok {
			return *t, e.At, true
		}
	}
	return Temp{}, time.Time{}, false
}

// Temps lists the measured bath temperatures, of which Measured is the last.
func (l Life) Temps() []Rec[*Temp] {
	var out []Rec[*Temp]
	for _, e := range l.Entries {
		if t, ok := measured(e); ok {
			out = append(out, Rec[*Temp]{e, t})
		}
	}
	return out
}

// measured is the bath temperature that e says somebody measured.
func measured(e Entry) (*Temp, bool) {
	switch b := e.Body.(type) {
	case *Temp:
		return b, true
	case *Start:
		return &Temp{BathC: b.BathC}, true
	case *Wash:
		if b.Start == 0 { // else it was measured at its start
			return &Temp{BathC: b.BathC}, true
		}
	}
	return nil, false
}

// Degassed reports whether the bath was run empty to clear bubbles since it
// was filled.
func (l Life) Degassed() bool {
	_, ok := last(Of[*Degas](l.Entries))
	return ok
}

// Level is how much stands in the bath, when the mark was last looked at.
// It is unknown until somebody looked.
func (l Life) Level(t Tank) (level units.Volume, at time.Time, known bool) {
	w, ok := last(Of[*Water](l.Entries))
	switch {
	case ok && w.Is.BelowL != nil:
		return t.VolumeL - *w.Is.BelowL + w.Is.VolumeL, w.At, true
	case ok:
		return t.VolumeL, w.At, true // topped up to the mark, as the form asks
	default:
		return l.Fill.Is.VolumeL, l.Fill.At, true
	}
}

// Charge is the detergent that a full first dose is, by the tank's ratio and
// the station's way of reading it; 0 where no ratio is set.
func (l Life) Charge(s *State, t Tank) units.Volume {
	return Charge(l.Fill.Is.VolumeL, t.Ratio, s.Site.InWater())
}

// Charge is the detergent for a volume v at a ratio of parts to 1: v/ratio, or
// v/(ratio+1) where the parts are counted in water alone.
func Charge(v units.Volume, ratio float64, inWater bool) units.Volume {
	if ratio <= 0 {
		return 0
	}
	if inWater {
		ratio++
	}
	return v / units.Volume(ratio)
}

// Strength is the detergent still in the bath, by mass balance: every dose,
// less what left with the liquid that make-up water replaced. Water for
// evaporation takes nothing away.
func (l Life) Strength() (s units.Volume) {
	vol := l.Fill.Is.VolumeL
	for _, e := range l.Entries {
		switch b := e.Body.(type) {
		case *Dose:
			s += b.VolumeL
		case *Water:
			if b.Cause != CauseEvaporation && vol > 0 {
				s *= max(0, 1-b.VolumeL/vol)
			}
		}
	}
	return s
}

// Set is the set point in force: the last one logged in this fill, or the
// tank's.
func (l Life) Set(t Tank) units.Temperature {
	for i := len(l.Entries) - 1; i >= 0; i-- {
		if m, ok := l.Entries[i].Body.(*Temp); ok && m.SetC != nil {
			return *m.SetC
		}
	}
	return t.Set()
}

// HeaterOff reports whether the heater was logged as off in this fill, and not
// on again since.
func (l Life) HeaterOff() bool {
	for _, e := range slices.Backward(l.Entries) {
		if m, ok := e.Body.(*Temp); ok && m.Heat != nil {
			return !*m.Heat
		}
	}
	return false
}

// With is l with one more entry in it, as if it had been recorded.
func (l Life) With(e Entry) Life {
	l.Entries = slices.Clone(l.Entries)
	i, _ := slices.BinarySearchFunc(l.Entries, e, byTime)
	l.Entries = slices.Insert(l.Entries, i, e)
	return l
}
