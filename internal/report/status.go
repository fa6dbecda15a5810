// Package report writes down how a bath stands, for a person, a printer or a
// program: the plain status and its JSON, the sheet that is read aloud at shift
// change, the paper sheet for when the workstation is down, and one line of the
// log book.
//
// It computes no rule: it prints what a Snapshot and entries say, into an
// io.Writer, with no escapes and no line wider than 78 columns. Times are
// printed in the station's zone. What people typed is made plain first, since
// an imported log book may hold anything.
package report

import (
	"time"

	"bathside/internal/advise"
	"bathside/internal/units"
)

// Schema is the number of the shape of Status. Keys are added without a new
// number; a key that changes or goes away gets one.
const Schema = 1

// Status is a bath at a moment as programs read it, by json.Marshal. Quantities
// are SI and say their unit in the key. What is not known is left out; a zero
// that stands there is a true zero.
type Status struct {
	Schema   int             `json:"schema"`
	Station  string          `json:"station,omitzero"`
	Bath     string          `json:"bath"` // its id
	Now      time.Time       `json:"now"`
	RedTag   *TagStatus      `json:"red_tag,omitzero"` // while one hangs on this bath
	Fill     *FillStatus     `json:"fill,omitzero"`    // while one is open
	Temp     TempStatus      `json:"temp"`
	PH       PHStatus        `json:"ph"`
	Forecast *ForecastStatus `json:"forecast,omitzero"` // once there is a first reading
	Soap     *SoapStatus     `json:"soap,omitzero"`     // what more soap would do, once the bath is getting close
	Next     []ActionStatus  `json:"next"`              // most urgent first
	OnDuty   DutyStatus      `json:"on_duty"`
	Baths    []BathStatus    `json:"baths"` // every bath of the station, this one too
}

// TagStatus is a red tag: nothing may be started in the bath.
type TagStatus struct {
	Seq  uint64    `json:"seq"` // the line that hung it
	At   time.Time `json:"at"`
	By   string    `json:"by"`
	Kind string    `json:"kind"`
	Why  string    `json:"why"`
}

// FillStatus is the open fill.
type FillStatus struct {
	Number       int          `json:"number"`
	At           time.Time    `json:"at"`
	AgeDays      float64      `json:"age_days"`
	VolumeL      units.Volume `json:"volume_l"`
	DoseL        units.Volume `json:"dose_l"` // all the soap, top-ups included
	Topups       int          `json:"topups"`
	MakeupL      units.Volume `json:"makeup_l"` // all the water added since
	Loads        int          `json:"loads"`    // washes
	Items        int          `json:"items"`    // pieces in them
	FilterH      float64      `json:"filter_h"`
	LevelL       *float64     `json:"level_l,omitzero"`  // when somebody last looked
	LevelAt      *time.Time   `json:"level_at,omitzero"` // when that was
	StrengthFrac *float64     `json:"strength_frac,omitzero"`
}

// TempStatus is the bath's temperature, as last measured in the open fill.
type TempStatus struct {
	BathC   *units.Temperature `json:"bath_c,omitzero"`
	SetC    units.Temperature  `json:"set_c"`
	At      *time.Time         `json:"at,omitzero"`
	ReadyAt *time.Time         `json:"ready_at,omitzero"` // about when the heater brings it to set_c
}

// PHStatus is the last reading that is trusted, as read, beside the first one.
type PHStatus struct {
	Last    *units.PH          `json:"last,omitzero"`
	SampleC *units.Temperature `json:"sample_c,omitzero"`
	At      *time.Time         `json:"at,omitzero"`

	// Equivalent is what Last would read at BaselineC: Last itself within
	// 3 °C of that. U is its standard uncertainty.
	Equivalent *units.PH `json:"equivalent,omitzero"`
	U          *float64  `json:"u,omitzero"`

	Baseline  *units.PH          `json:"baseline,omitzero"` // the first reading that last is compared with
	BaselineC *units.Temperature `json:"baseline_c,omitzero"`
	Drop      *float64           `json:"drop,omitzero"` // left out where the two cannot be compared
	UDrop     *float64           `json:"u_drop,omitzero"`
	Sure      string             `json:"sure,omitzero"` // how sure the drop is, in words
	Limit     float64            `json:"limit"`
	State     advise.PHState     `json:"state"`
	Why       string             `json:"why,omitzero"` // what is missing, where the state is unknown
	Doubtful  []DoubtStatus      `json:"doubtful,omitzero"`
}

// ForecastStatus is when the bath will be at its limit, in days from now; 120
// is later. The numbers are left out where there is no date.
type ForecastStatus struct {
	State string   `json:"state"`             // no-date, dated, later or due
	Q10   *float64 `json:"q10_days,omitzero"` // sooner in one case of ten
	Q50   *float64 `json:"q50_days,omitzero"`
	Q90   *float64 `json:"q90_days,omitzero"`
	P7    *float64 `json:"p7,omitzero"` // probability that it is there within 7 days
	P14   *float64 `json:"p14,omitzero"`
	P28   *float64 `json:"p28,omitzero"`
	Note  string   `json:"note"` // the same in words
}

// SoapStatus is what more of the same soap would do to the bath.
type SoapStatus struct {
	Reaches   string        `json:"reaches_baseline"` // surely, perhaps, no: with a whole charge at most
	LowL      units.Volume  `json:"low_l"`            // the least that may bring it back
	HighL     units.Volume  `json:"high_l"`           // what surely does, a whole charge at most
	ChargeL   units.Volume  `json:"charge_l"`
	FullLow   units.PH      `json:"full_ph_low"` // with a whole charge
	FullHigh  units.PH      `json:"full_ph_high"`
	RechargeL *units.Volume `json:"recharge_l,omitzero"` // by drop tests
	Say       string        `json:"say"`
}

// DoubtStatus is a reading of this fill that is kept and not trusted.
type DoubtStatus struct {
	Seq     uint64            `json:"seq"`
	PH      units.PH          `json:"ph"`
	SampleC units.Temperature `json:"sample_c"`
	At      time.Time         `json:"at"`
	Why     string            `json:"why"`
}

// ActionStatus is something to do next.
type ActionStatus struct {
	ID      string     `json:"id"`
	Urgency string     `json:"urgency"` // now, today, soon, later
	Due     *time.Time `json:"due,omitzero"`
	Say     string     `json:"say"`
	Why     string     `json:"why"`
}

// DutyStatus is who is on duty.
type DutyStatus struct {
	Platoon string    `json:"platoon,omitzero"` // left out where there is one crew
	Names   []string  `json:"names"`
	Until   time.Time `json:"until"` // the next change
}

// BathStatus is one line for each bath of the station.
type BathStatus struct {
	ID     string         `json:"id"`
	Name   string         `json:"name,omitzero"`
	Open   bool           `json:"open"` // a fill is in it
	State  advise.PHState `json:"state"`
	RedTag bool           `json:"red_tag"`
}

// NewStatus is x as programs read it.
func NewStatus(x *advise.Snapshot) Status {
	return Status{
		Schema:   Schema,
		Station:  x.State.Site.Station,
		Bath:     x.Bath.ID,
		Now:      x.Now,
		RedTag:   tagStatus(x),
		Fill:     fillStatus(x),
		Temp:     tempStatus(x),
		PH:       phStatus(x),
		Forecast: forecastStatus(x),
		Soap:     soapStatus(x),
		Next:     nextStatus(x),
		OnDuty:   dutyStatus(x),
		Baths:    bathsStatus(x),
	}
}
