package advise

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Earlier is the fill before the one that is shown, to hold this one against:
// its trusted readings by days since its first one.
type Earlier struct {
	Number int
	AtC    units.Temperature // of its first reading; the pH are as they would read at that
	Days   []float64
	PH     []float64
}

// Earlier gives the fill before the one that is shown. The error is a sentence:
// why the two cannot be held against each other.
func (x *Snapshot) Earlier() (Earlier, error) {
	if x.PH.First == nil {
		return Earlier{}, errors.New("this fill has no first reading to count the days from: name one")
	}
	l, ok := x.lifeBefore()
	if !ok {
		return Earlier{}, errors.New("the log book holds no fill before this one")
	}
	j := Judge(x.State, x.Bath, l)
	if j.First == nil || j.First.Doubt != (Doubt{}) {
		return Earlier{}, fmt.Errorf("bath %d has no first reading that is trusted: nothing of it can be compared", l.Number)
	}
	e := Earlier{Number: l.Number, AtC: j.First.Is.SampleC}
	for _, r := range j.Readings {
		cooled := r.Is.Baseline && r.Is.Cooled
		if ph, _, ok := j.AtFirst(r); ok && r.inTrend() && !cooled {
			e.Days, e.PH = append(e.Days, days(j.First.At, r.At)), append(e.PH, float64(ph))
		}
	}
	return e, nil
}

// lifeBefore is the fill before the one that is shown, with its entries.
func (x *Snapshot) lifeBefore() (bath.Life, bool) {
	lives := x.Bath.Lives()
	i := slices.IndexFunc(lives, func(l bath.Life) bool { return l.Number == x.Life.Number })
	if i < 1 {
		return bath.Life{}, false
	}
	return lives[i-1], true
}

// On is about what the earlier fill read so many days after its first reading,
// on a straight line between two readings. It is false before the first and
// after the last.
func (e Earlier) On(day float64) (ph float64, ok bool) {
	i, exact := slices.BinarySearch(e.Days, day)
	switch {
	case exact:
		return e.PH[i], true
	case i == 0 || i == len(e.Days):
		return 0, false
	}
	t := (day - e.Days[i-1]) / (e.Days[i] - e.Days[i-1])
	return e.PH[i-1]*(1-t) + e.PH[i]*t, true
}

// SinceFirst is how many days after this fill's first reading t is.
func (x *Snapshot) SinceFirst(t time.Time) (float64, bool) {
	if x.PH.First == nil {
		return 0, false
	}
	return days(x.PH.First.At, t), true
}

func days(from, to time.Time) float64 { return to.Sub(from).Hours() / 24 }
