package bath

import (
	"errors"
	"slices"
)

// ErrRefold says that an entry crosses out something that State no longer
// holds by itself: fold again from the first entry.
var ErrRefold = errors.New("fold again from the first entry")

// Fold folds a whole journal, from its first entry.
func Fold(entries []Entry) (*State, error) {
	s := NewState()
	strikes := strikesIn(entries)
	for _, e := range entries {
		kept, ok, err := strikes.effective(e)
		if err != nil {
			return nil, err
		}
		s.note(e)
		if ok {
			s.add(kept)
		}
	}
	return s, nil
}

// Apply folds further entries into s and gives the new State; s stays as it
// was. ErrRefold asks for Fold over the whole journal instead.
func (s *State) Apply(entries ...Entry) (*State, error) {
	c := s.clone()
	for _, e := range entries {
		if strike, ok := e.strikes(); ok {
			if err := c.strike(strike); err != nil {
				return nil, err
			}
		}
		c.note(e)
		c.add(e)
	}
	return c, nil
}

// strikes maps a crossed-out entry to what did it, in order: a correction may
// itself be corrected.
type strikes map[uint64][]*Strike

func strikesIn(entries []Entry) strikes {
	m := strikes{}
	for _, e := range entries {
		if s, ok := e.strikes(); ok {
			m[s.Target] = append(m[s.Target], s)
		}
	}
	return m
}

// strikes gives the strike that e is. One of a line that is not written yet
// crosses out nothing: no door takes it, but an imported file may hold one, and a
// red tag that is hung later must hang.
func (e Entry) strikes() (*Strike, bool) {
	s, ok := e.Body.(*Strike)
	return s, ok && s.Target < e.Seq
}

// effective is e as it counts: itself, its correction, or nothing.
func (m strikes) effective(e Entry) (kept Entry, counts bool, err error) {
	for _, strike := range m[e.Seq] {
		if e, counts, err = strike.Corrected(e); err != nil || !counts {
			return Entry{}, false, err
		}
	}
	return e, true, nil
}

// note keeps what holds for every entry, crossed out or not.
func (s *State) note(e Entry) {
	s.Seq = e.Seq
	if e.Logged.After(s.Logged) {
		s.Logged = e.Logged
	}
	if strike, ok := e.strikes(); ok {
		s.Struck[strike.Target] = e.Seq
	}
}

// add folds one entry that counts.
func (s *State) add(e Entry) {
	e.Scrub() // a correction in an imported file may hold what the door refuses
	if a, ok := e.Body.(interface{ apply(*State, Entry) }); ok {
		s.noteOrigin(e)
		a.apply(s, e)
		return
	}
	if e.Bath == "" {
		return
	}
	b, err := s.Bath(e.Bath)
	if err != nil {
		return // a bath nobody set up: an imported file may hold one
	}
	if a, ok := e.Body.(interface{ applyBath(*Bath, Entry) }); ok {
		a.applyBath(b, e)
	}
	if a, ok := e.Body.(interface{ applyGear(*State, *Bath, Entry) }); ok {
		a.applyGear(s, b, e)
	}
	b.insert(e)
	if _, ok := e.Body.(*Fill); ok {
		b.compact()
	}
}

// byTime orders entries by when they happened, then by when they were written.
func byTime(a, b Entry) int {
	if c := a.At.Compare(b.At); c != 0 {
		return c
	}
	switch {
	case a.Seq < b.Seq:
		return -1
	case a.Seq > b.Seq:
		return 1
	}
	return 0
}

// Before reports whether e stands before x in a series.
func (e Entry) Before(x Entry) bool { return byTime(e, x) < 0 }

func (b *Bath) insert(e Entry) {
	i, _ := slices.BinarySearchFunc(b.Entries, e, byTime)
	b.Entries = slices.Insert(b.Entries, i, e)
}

// seriesKept is how many of the fills that are summed up keep their readings:
// older ones say little of the next.
const seriesKept = 5

// compact sums up every fill before the last two and lets its entries go.
func (b *Bath) compact() {
	for lives := b.Lives(); len(lives) > 2; lives = lives[1:] {
		b.Past = append(b.Past, lives[0].summary(lives[0].Product(b.Tank.Product)))
		if n := len(b.Past); n > seriesKept {
			b.Past[n-1-seriesKept].Series = nil
		}
		b.Entries = slices.DeleteFunc(b.Entries, func(e Entry) bool {
			return !slices.ContainsFunc(lives[1:], func(l Life) bool { return since(l.Fill.Entry, e) })
		})
		b.forget()
	}
}

func (l Life) summary(product string) Summary {
	washes, items := l.Washes()
	s := Summary{
		Number: l.Number, From: l.Fill.At, VolumeL: l.Fill.Is.VolumeL, DoseL: l.DoseL(), Topups: l.Topups(),
		Washes: washes, Items: items, Readings: len(Of[*Reading](l.Entries)),
		Product: product, FirstL: l.FirstDose(), Poured: l.Poured(), Series: l.series(),
	}
	if r, ok := l.Baseline(false); ok {
		s.First = new(readOf(r))
	}
	if l.Drain != nil {
		s.To = l.Drain.At
	}
	return s
}

// strike takes a crossed-out entry out of what s holds, or puts its
// correction in its place.
func (s *State) strike(k *Strike) error {
	for _, b := range s.Baths {
		i := slices.IndexFunc(b.Entries, func(e Entry) bool { return e.Seq == k.Target })
		if i < 0 {
			continue
		}
		target := b.Entries[i]
		if !target.Body.spec().held {
			return ErrRefold
		}
		fixed, ok, err := k.Corrected(target)
		if err != nil {
			return err
		}
		b.Entries = slices.Delete(b.Entries, i, i+1)
		if ok {
			b.insert(fixed)
		}
		return nil
	}
	return ErrRefold
}
