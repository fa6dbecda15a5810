package cli

import (
	"time"

	"bathside/internal/advise"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// decideAnswer is what decide --json prints. What is not known is left out.
type decideAnswer struct {
	Bath    string         `json:"bath"`
	Now     time.Time      `json:"now"`
	State   advise.PHState `json:"state"`
	Choice  string         `json:"choice"` // keep, top-up or drain
	Reasons []decideReason `json:"reasons"`
	Flips   []string       `json:"flips"`
	TopUp   *topUpAnswer   `json:"topup,omitzero"` // with the dose asked for, else with the advised one
	Refill  refillAnswer   `json:"refill"`
	Signed  *signedAnswer  `json:"signed,omitzero"` // the last decision of this fill
	Lines   uint64         `json:"lines"`           // of the log book, when it said this
	Seal    string         `json:"seal"`            // the seal number it had then
}

type decideReason struct {
	ID     string  `json:"id"`
	Say    string  `json:"say"`
	Weight float64 `json:"weight"`
}

type topUpAnswer struct {
	DoseL  units.Volume `json:"dose_l"`
	PHLow  units.PH     `json:"ph_low"` // likely, at the temperature of the first reading
	PHHigh units.PH     `json:"ph_high"`

	// Reaches is true where the dose surely brings the bath back to its first
	// reading: the low end of the likely range is there too.
	Reaches  bool     `json:"reaches_baseline"`
	GainDays *float64 `json:"gain_days,omitzero"`
	Cost     *float64 `json:"cost,omitzero"` // in the station's currency
	PerDay   *float64 `json:"cost_per_day,omitzero"`
	Hours    float64  `json:"work_h"`
}

type refillAnswer struct {
	SoapL    units.Volume `json:"soap_l,omitzero"`
	GainDays *float64     `json:"gain_days,omitzero"`
	Cost     *float64     `json:"cost,omitzero"`
	PerDay   *float64     `json:"cost_per_day,omitzero"`
	Hours    float64      `json:"work_h"`
}

type signedAnswer struct {
	Seq    uint64        `json:"seq"`
	At     time.Time     `json:"at"`
	By     string        `json:"by"`
	Choice string        `json:"choice"`
	DoseL  *units.Volume `json:"dose_l,omitzero"`
	Why    string        `json:"why,omitzero"`
	Shaken bool          `json:"shaken"` // a line that it rests on was crossed out since
}

func newDecideAnswer(x *advise.Snapshot, d advise.Decision, asked *advise.TopUp) decideAnswer {
	out := decideAnswer{
		Bath: x.Bath.ID, Now: x.Now, State: x.PH.State, Choice: d.Choice,
		Reasons: []decideReason{}, Flips: append([]string{}, d.Flips...),
		Refill: refillAnswer{d.Refill.SoapL, d.Refill.GainDays, d.Refill.Cost, d.Refill.PerDay, d.Refill.Hours},
		Signed: signed(x),
	}
	for _, r := range d.Reasons {
		out.Reasons = append(out.Reasons, decideReason(r))
	}
	if asked == nil {
		asked = d.TopUp
	}
	if t := asked; t != nil {
		out.TopUp = &topUpAnswer{t.DoseL, t.PH.Low, t.PH.High, t.Reaches == chem.Surely, t.GainDays, t.Cost, t.PerDay, t.Hours}
	}
	return out
}

func signed(x *advise.Snapshot) *signedAnswer {
	d, shaken, ok := x.Decided()
	if !ok {
		return nil
	}
	return &signedAnswer{d.Seq, d.At.In(x.Now.Location()), d.By, d.Is.Choice, d.Is.DoseL, d.Is.Why, shaken}
}
