package bath

import (
	"strings"
	"time"

	"bathside/internal/roster"
	"bathside/internal/units"
)

// Setting is what a station has decided for itself. An entry carries only what
// changes; State.Site is all of it together.
type Setting struct {
	Station    string     `json:"station,omitzero"`
	Units      string     `json:"units,omitzero"`       // us, si
	Zone       string     `json:"zone,omitzero"`        // IANA name: America/Denver
	Clock      string     `json:"clock,omitzero"`       // 24h, 12h
	Dates      string     `json:"dates,omitzero"`       // day-month, month-day, iso
	Shift      string     `json:"shift,omitzero"`       // 24/48@07:00
	Parts      string     `json:"parts,omitzero"`       // of-total (V/R), in-water (V/(R+1))
	Limit      *float64   `json:"limit,omitzero"`       // allowed drop, pH
	PerTenC    *float64   `json:"per_ten_c,omitzero"`   // minutes grow by this for each 10 °C below the set point
	FilterTime units.Span `json:"filter_s,omitzero"`    // filter run after a wash day
	CartridgeS units.Span `json:"cartridge_s,omitzero"` // filter hours a cartridge lasts
	KeptHot    *bool      `json:"kept_hot,omitzero"`    // held at the set point, or heated for washing

	// How the console of the station's workstation behaves.
	StationMode *bool `json:"station_mode,omitzero"` // the crew's two screens only
	Mouse       *bool `json:"mouse,omitzero"`        // click and wheel

	HotBy string `json:"hot_by,omitzero"` // the bath is wanted hot by this time each day: 07:00

	// When a fill is over whatever its pH; nil where the station set none.
	MostDays   *float64 `json:"most_days,omitzero"`
	MostLoads  *int     `json:"most_loads,omitzero"`
	MostTopups *int     `json:"most_topups,omitzero"`

	// Money and work, in the station's own currency; nil where nobody said.
	SoapPrice   *float64   `json:"soap_price,omitzero"`   // of a container
	RefillPrice *float64   `json:"refill_price,omitzero"` // water, heat and disposal of a fill
	HourPrice   *float64   `json:"hour_price,omitzero"`
	RefillTime  units.Span `json:"refill_time_s,omitzero"` // work of a drain, a cleaning and a refill
	TopupTime   units.Span `json:"topup_time_s,omitzero"`
}

// The two ways to read "R to 1".
const (
	PartsOfTotal = "of-total"
	PartsInWater = "in-water"
)

// InWater reports whether R parts are counted in water alone: V/(R+1).
func (s Setting) InWater() bool { return s.Parts == PartsInWater }

// usualSetting is what holds until the station decides: an allowed drop of 0.5
// and a filter run of 30 minutes (common practice, no source); minutes times
// 1.5 for each 10 °C and 40 hours for a cartridge (from memory: set it from the
// cartridge's paper).
var usualSetting = Setting{
	Units: units.US.String(), Zone: "UTC", Parts: PartsOfTotal, Limit: new(0.5), PerTenC: new(1.5),
	FilterTime: units.Minutes(30), CartridgeS: units.Hours(40), KeptHot: new(false),
}

// DropLimit is the allowed drop in pH.
func (s Setting) DropLimit() float64 { return or(s.Limit, *usualSetting.Limit) }

// Lengthen is the factor on minutes for each 10 °C below the set point.
func (s Setting) Lengthen() float64 { return or(s.PerTenC, *usualSetting.PerTenC) }

// FilterRun is how long the filter runs once on a day that gear was washed.
func (s Setting) FilterRun() units.Span {
	if s.FilterTime > 0 {
		return s.FilterTime
	}
	return usualSetting.FilterTime
}

// CartridgeLife is how many filter hours a cartridge lasts.
func (s Setting) CartridgeLife() units.Span {
	if s.CartridgeS > 0 {
		return s.CartridgeS
	}
	return usualSetting.CartridgeS
}

func or[T any](p *T, otherwise T) T {
	if p == nil {
		return otherwise
	}
	return *p
}

var settingSpec = &Spec{
	Kind: "setting", Title: "Change a setting", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Setting) }, usual: &usualSetting,
	Fields: []Field{
		field("station", "station", "Cobble Hill, station 3", func(s *Setting) *string { return &s.Station }).optional("as the top line shows it"),
		field("units", "units", "us", func(s *Setting) *string { return &s.Units }).words("us", "si").optional("gallons and °F, or litres and °C"),
		field("zone", "time zone", "America/Denver", func(s *Setting) *string { return &s.Zone }).optional("the station's, by its IANA name"),
		field("clock", "clock", units.Clock24, func(s *Setting) *string { return &s.Clock }).words(units.Clock24, units.Clock12).optional("19:05, or 7:05 pm"),
		field("dates", "dates", units.DatesDay, func(s *Setting) *string { return &s.Dates }).words(units.DatesDay, units.DatesMonth, units.DatesISO).optional("2 Jan, Jan 2, or 2026-01-02"),
		field("shift", "shift pattern", "24/48@07:00", func(s *Setting) *string { return &s.Shift }).optional("24/48, 48/96 or kelly with the time of change, or drill:tue@19:00"),
		field("parts", "parts", "of-total", func(s *Setting) *string { return &s.Parts }).words(PartsOfTotal, PartsInWater).optional("30 to 1 is volume/30, or volume/31 where the parts are water"),
		field("limit", "allowed drop", "0.5", func(s *Setting) **float64 { return &s.Limit }).optional("pH units below the first reading"),
		field("per-10c", "minutes per 10 °C", "1.5", func(s *Setting) **float64 { return &s.PerTenC }).optional("minutes grow by this for each 10 °C below the set point"),
		field("filter-run", "filter run", "30min", func(s *Setting) *units.Span { return &s.FilterTime }).optional("once on a day that gear was washed"),
		field("cartridge", "cartridge lasts", "40h", func(s *Setting) *units.Span { return &s.CartridgeS }).optional("filter hours, from the cartridge's paper"),
		field("hot-by", "hot by", "07:00", func(s *Setting) *string { return &s.HotBy }).optional("heated for washing: wanted hot by this time each day"),
		field("most-days", "fill lasts at most, days", "60", func(s *Setting) **float64 { return &s.MostDays }).optional("then it is drained whatever its pH"),
		field("most-loads", "washes at most", "80", func(s *Setting) **int { return &s.MostLoads }).optional("in one fill"),
		field("most-topups", "top-ups at most", "3", func(s *Setting) **int { return &s.MostTopups }).optional("in one fill"),
		field("soap-price", "a container of soap costs", "48", func(s *Setting) **float64 { return &s.SoapPrice }).optional("money, in your own currency"),
		field("refill-price", "a refill costs", "39", func(s *Setting) **float64 { return &s.RefillPrice }).optional("water, heat and disposal, without soap and work"),
		field("hour-price", "an hour of work costs", "27", func(s *Setting) **float64 { return &s.HourPrice }).optional("money, in your own currency"),
		field("refill-time", "work of a refill", "2h30", func(s *Setting) *units.Span { return &s.RefillTime }).optional("drain, clean, fill and dose"),
		field("topup-time", "work of a top-up", "20min", func(s *Setting) *units.Span { return &s.TopupTime }).optional("pour, mix, read again"),
		field("station-mode", "station mode", "yes", func(s *Setting) **bool { return &s.StationMode }).optional("the crew have Today and Wash; a gear officer opens the rest"),
		field("mouse", "mouse", "yes", func(s *Setting) **bool { return &s.Mouse }).optional("click and wheel in the console; then hold shift to select text"),
		field("kept-hot", "kept hot", "yes", func(s *Setting) **bool { return &s.KeptHot }).optional("held at the set point day and night, or heated for washing"),
	},
}

func (s *Setting) spec() *Spec { return settingSpec }

func (s *Setting) check(view, Entry) error {
	if *s == (Setting{}) {
		return refuse("missing", "no setting was given: name one, like --filter-run 30min")
	}
	if s.Zone != "" {
		if _, err := time.LoadLocation(s.Zone); err != nil || s.Zone == "Local" {
			return refuse("input", "%q is not a time zone: give its IANA name, like America/Denver", short(s.Zone))
		}
	}
	if s.HotBy != "" {
		if _, _, err := units.ParseClock(s.HotBy); err != nil {
			return refuse("input", "hot by: %s", err)
		}
	}
	if s.Shift != "" {
		if _, err := roster.Parse(s.Shift); err != nil {
			return refuse("input", "%s", err)
		}
	}
	return checkSpread(s)
}

func checkSpread(s *Setting) error {
	if s.Limit != nil && (*s.Limit < 0.1 || *s.Limit > 2) {
		return refuse("input", "an allowed drop of %g is not one to act on: 0.1 to 2 pH units are allowed", *s.Limit)
	}
	if s.PerTenC != nil && (*s.PerTenC < 1 || *s.PerTenC > 3) {
		return refuse("input", "minutes times %g for each 10 °C is not believable: 1 to 3 are allowed", *s.PerTenC)
	}
	if s.MostTopups != nil && *s.MostTopups < 0 || s.MostLoads != nil && *s.MostLoads < 1 {
		return refuse("input", "a number of washes or top-ups below nothing is not possible: give 1 or more, like 80")
	}
	if s.Station != "" && len([]rune(s.Station)) > 60 {
		return refuse("input", "the station's name is %d letters long: at most 60 fit the top line", len([]rune(s.Station)))
	}
	return nil
}

func (s *Setting) apply(st *State, _ Entry) { merge(settingSpec, &st.Site, s) }

func (s *Setting) say(sys units.System) string { return "settings: " + fieldList(settingSpec, s, sys) }

// fieldList prints the fields of b that are set: "filter run 30 min, units si".
func fieldList(spec *Spec, b Body, sys units.System) string {
	var parts []string
	for _, f := range spec.Fields {
		if v := f.Get(b, sys); v != "" {
			parts = append(parts, f.Label+" "+v)
		}
	}
	return strings.Join(parts, ", ")
}
