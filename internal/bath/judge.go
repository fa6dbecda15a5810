package bath

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// PHState is how the bath stands against its limit.
type PHState string

// The states of a bath. Missing data is never "ok".
const (
	PHUnknown PHState = "unknown"
	PHOK      PHState = "ok"
	PHWatch   PHState = "watch"
	PHAtLimit PHState = "at-limit"
	PHPast    PHState = "past"
)

// Comparable is how far apart two samples may be in temperature for their pH
// to be compared as read: 3 °C.
const Comparable = units.Temperature(3)

// RiseAsked is the rise in pH that, with no soap logged, needs a reason.
const RiseAsked = 0.12

// How much further than the limit a drop must be before it can be stated for
// sure, with the same meter and with another one.
const (
	surePast      = 0.12
	surePastOther = 0.33
	watchBefore   = 0.2
)

// Judgement is what the readings of a fill say.
type Judgement struct {
	State    PHState
	Why      string         // for an unknown state: what is missing, and what to do
	Last     *Rec[*Reading] // the last reading that is trusted
	Latest   *Rec[*Reading] // the last reading of all
	Doubtful []Doubt
	First    *Rec[*Reading] // the first reading, hot
	Cooled   *Rec[*Reading] // its cooled pair
	Against  *Rec[*Reading] // the one of the pair that Last is compared with
	Drop     *float64
	Limit    float64
}

// Doubt is a reading that is kept and not trusted.
type Doubt struct {
	Rec[*Reading]
	Why string
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

// Judge compares the last trusted reading with the first one, like with like.
func (l Life) Judge(limit float64) Judgement {
	j := Judgement{State: PHUnknown, Limit: limit}
	if r, ok := l.Baseline(false); ok {
		j.First = &r
	}
	if r, ok := l.Baseline(true); ok {
		j.Cooled = &r
	}
	trusted := j.sift(l)
	if r, ok := last(trusted); ok {
		j.Last = &r
	}
	j.compare()
	return j
}

// sift sets apart the readings that rose for no logged reason, and gives the
// others.
func (j *Judgement) sift(l Life) (trusted []Rec[*Reading]) {
	doses := Of[*Dose](l.Entries)
	for _, r := range Of[*Reading](l.Entries) {
		j.Latest = &r
		if before, rise, ok := rose(trusted, r); ok && r.Is.Rose == "" && !r.Is.Baseline && !dosedBetween(doses, before, r.Entry) {
			j.Doubtful = append(j.Doubtful, Doubt{r, fmt.Sprintf("up %.2f since %s with no soap logged", rise, before.At.Format("2 Jan"))})
			continue
		}
		trusted = append(trusted, r)
	}
	return trusted
}

// rose compares r with the last trusted reading at a like temperature.
func rose(trusted []Rec[*Reading], r Rec[*Reading]) (before Entry, rise float64, ok bool) {
	for i := len(trusted) - 1; i >= 0; i-- {
		if t := trusted[i]; Like(t.Is, r.Is) {
			rise = round(float64(r.Is.PH - t.Is.PH))
			return t.Entry, rise, rise > RiseAsked
		}
	}
	return Entry{}, 0, false
}

func dosedBetween(doses []Rec[*Dose], from, to Entry) bool {
	for _, d := range doses {
		if byTime(from, d.Entry) < 0 && byTime(d.Entry, to) < 0 {
			return true
		}
	}
	return false
}

// Like reports whether two readings were taken at so like a temperature that
// their pH may be compared as read.
func Like(a, b *Reading) bool {
	return math.Abs(float64(a.SampleC-b.SampleC)) <= float64(Comparable)+1e-9
}

// round takes away what adding two-decimal numbers leaves behind.
func round(x float64) float64 { return math.Round(x*1000) / 1000 }

func (j *Judgement) compare() {
	switch {
	case j.First == nil && j.Cooled == nil:
		j.Why = "no first reading: name one"
		return
	case j.Last == nil:
		j.Why = "no reading that can be trusted: read again"
		return
	}
	for _, base := range []*Rec[*Reading]{j.First, j.Cooled} {
		if base != nil && Like(base.Is, j.Last.Is) {
			j.Against = base
			j.state()
			return
		}
	}
	j.Why = "read at another temperature than the first reading"
}

func (j *Judgement) state() {
	drop := round(float64(j.Against.Is.PH - j.Last.Is.PH))
	j.Drop = &drop
	past := j.Limit + surePast
	if j.Against.Is.Meter != j.Last.Is.Meter {
		past = j.Limit + surePastOther
	}
	switch past = round(past); {
	case drop >= past:
		j.State = PHPast
	case drop >= j.Limit:
		j.State = PHAtLimit
	case drop >= round(j.Limit-watchBefore):
		j.State = PHWatch
	default:
		j.State = PHOK
	}
}

// Again is the temperature at which to read again so that it can be compared.
func (j Judgement) Again() (units.Temperature, bool) {
	if j.First != nil {
		return j.First.Is.SampleC, true
	}
	if j.Cooled != nil {
		return j.Cooled.Is.SampleC, true
	}
	return 0, false
}
