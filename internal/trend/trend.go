// Package trend fits the fall of a bath's pH to its days and its loads. It says
// when the bath will reach its limit, whether a reading just typed is in line
// with those before it, and whether the bath or the meter has changed.
//
// It sees one fill as numbers: no entries, no clock, no words for the crew
// beyond a short note. What a reading is worth and what it would read at the
// first reading's temperature is settled before it comes here.
package trend

import "encoding/json"

// Limit is the drop at which to act where an Input names none.
const Limit = 0.5

// Input is one fill: the readings to be trusted, in order of time, and what was
// washed. Columns of readings have one length. A zero field is not known, and
// says nothing.
type Input struct {
	Days    []float64 `json:"t"`                // since the fill
	Offsets []float64 `json:"y_minus_baseline"` // see Reading
	Loads   []float64 `json:"cum_loads"`        // see Reading
	U       []float64 `json:"u,omitempty"`      // see Reading; none: all ordinary

	TopUps TopUps  `json:"topup_day"`
	Now    float64 `json:"now"` // days since the fill

	// LoadsNow are the loads washed since the fill, those after the last
	// reading too. Less than the last reading's counts as the last reading's.
	LoadsNow float64 `json:"loads_now,omitzero"`

	// DailyLoads are the loads of each whole day up to now, oldest first. Of
	// days before the fill none is used.
	DailyLoads []float64 `json:"daily_loads"`

	// Planned are the loads planned for each day from now on, used again from
	// the start when they end: seven for a week, one for the same every day.
	Planned []float64 `json:"planned_loads,omitempty"`

	Limit float64 `json:"limit,omitzero"` // the drop at which to act; 0 is [Limit]
	Prior Prior   `json:"prior,omitzero"` // what earlier fills say
}

// Reading is one reading of the fill.
type Reading struct {
	Day    float64 // since the fill
	Offset float64 // equivalent minus baseline, in pH: a drop is negative
	Loads  float64 // washed since the fill
	U      float64 // standard uncertainty in pH; up to 0.08 it is an ordinary one
}

// TopUp is soap added during the fill.
type TopUp struct {
	Day  float64 `json:"day"`           // since the fill, not after now
	Rise float64 `json:"rise,omitzero"` // expected, in pH; 0 is not known
}

// TopUps are the top-ups of a fill. In JSON they may also be one day as a bare
// number, or null.
type TopUps []TopUp

// UnmarshalJSON reads null, a day, or a list of top-ups.
func (ts *TopUps) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		return nil
	}
	var day float64
	if json.Unmarshal(text, &day) == nil {
		*ts = TopUps{{Day: day}}
		return nil
	}
	return json.Unmarshal(text, (*[]TopUp)(ts))
}

// Add puts r behind the readings.
func (in *Input) Add(r Reading) {
	if in.U == nil && r.U != 0 {
		in.U = make([]float64, len(in.Days))
	}
	if in.U != nil {
		in.U = append(in.U, r.U)
	}
	in.Days = append(in.Days, r.Day)
	in.Offsets = append(in.Offsets, r.Offset)
	in.Loads = append(in.Loads, r.Loads)
}

// reading is the reading at index i.
func (in *Input) reading(i int) Reading {
	r := Reading{Day: in.Days[i], Offset: in.Offsets[i], Loads: in.Loads[i]}
	if len(in.U) > 0 {
		r.U = in.U[i]
	}
	return r
}

// before is the fill as it was known when the reading at index i was taken. It
// keeps later top-ups, of which no fit takes notice.
func (in *Input) before(i int) Input {
	past := Input{
		Days: in.Days[:i], Offsets: in.Offsets[:i], Loads: in.Loads[:i],
		TopUps: in.TopUps, Now: in.Days[i], Prior: in.Prior,
	}
	if len(in.U) > 0 {
		past.U = in.U[:i]
	}
	return past
}

// loadsNow are the loads at now, by what is known of them.
func (in *Input) loadsNow() float64 {
	if n := len(in.Loads); n > 0 {
		return max(in.LoadsNow, in.Loads[n-1])
	}
	return in.LoadsNow
}

// limit is the offset at which to act: negative.
func (in *Input) limit() float64 {
	if in.Limit == 0 {
		return -Limit
	}
	return -in.Limit
}
