package bath

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/units"
)

// What leaves a bath. Each has its own ways out, its own permission and its own
// record: sludge and cartridges often hold more metal than the liquid.
const (
	StreamLiquid    = "liquid"
	StreamSludge    = "sludge"
	StreamCartridge = "cartridge"
)

// Discharge is a permission, as it is on file: what may leave, by which way,
// within which limits, and where these stand. The authority of the place says
// what they are; none is built in.
type Discharge struct {
	Stream string             `json:"stream"`
	Route  string             `json:"route"`
	Number string             `json:"number,omitzero"` // of the permission
	From   string             `json:"from,omitzero"`   // who gave it
	Title  string             `json:"title,omitzero"`  // of the paper that the limits stand in
	Dated  string             `json:"dated,omitzero"`  // of that paper: 2025-05-01
	Lapses string             `json:"lapses,omitzero"` // its last day: 2028-03-31
	PHLow  *units.PH          `json:"ph_low,omitzero"`
	PHHigh *units.PH          `json:"ph_high,omitzero"`
	MaxC   *units.Temperature `json:"max_c,omitzero"`    // of the liquid as it runs out
	OilMgL *float64           `json:"oil_mg_l,omitzero"` // by a laboratory; free oil is more than any
	Also   string             `json:"also,omitzero"`     // what else it asks for
}

// Permission is a Discharge as it was logged.
type Permission struct {
	Discharge
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
}

var dischargeSpec = &Spec{
	Kind: "discharge", Title: "Permission to drain", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Discharge) },
	Fields: []Field{
		field("stream", "what leaves", StreamLiquid, func(d *Discharge) *string { return &d.Stream }).words(StreamLiquid, StreamSludge, StreamCartridge).help("each is a waste of its own"),
		field("route", "by way of", RouteSewer, func(d *Discharge) *string { return &d.Route }).words(RouteSewer, RouteHauler, RouteTrash).help("sewer: a sanitary one, never a septic tank or a storm drain"),
		field("from", "given by", "sewer district", func(d *Discharge) *string { return &d.From }).help("the authority, or the hauler"),
		field("title", "paper", "sewer rules, part 4", func(d *Discharge) *string { return &d.Title }).help("that its limits stand in, by its title"),
		field("dated", "date of the paper", "2025-05-01", func(d *Discharge) *string { return &d.Dated }).help("as printed on it"),
		field("number", "permission", "permit 12", func(d *Discharge) *string { return &d.Number }).optional("its number"),
		field("lapses", "lapses", "2028-03-31", func(d *Discharge) *string { return &d.Lapses }).optional("its last day"),
		field("ph-low", "pH at least", "5.0", func(d *Discharge) **units.PH { return &d.PHLow }).optional("as the paper says; towns differ, 5.0 to 6.0"),
		field("ph-high", "pH at most", "10.0", func(d *Discharge) **units.PH { return &d.PHHigh }).optional("as the paper says; towns differ, 10.0 to 12.5"),
		field("max", "liquid at most", "104F", func(d *Discharge) **units.Temperature { return &d.MaxC }).optional("as the paper says"),
		field("oil", "oil at most, mg/L", "100", func(d *Discharge) **float64 { return &d.OilMgL }).optional("by a laboratory"),
		field("also", "also asks for", "metals once a year", func(d *Discharge) *string { return &d.Also }).optional("metals, fluorinated foam, a call first"),
	},
}

func (d *Discharge) spec() *Spec { return dischargeSpec }

// ways are how each stream may leave at all.
var ways = map[string][]string{
	StreamLiquid:    {RouteSewer, RouteHauler},
	StreamSludge:    {RouteHauler},
	StreamCartridge: {RouteHauler, RouteTrash},
}

func (d *Discharge) check(v view, e Entry) error {
	if err := checkWay(d.Stream, d.Route); err != nil {
		return err
	}
	switch {
	case d.From == "":
		return refuse("missing", "who gave the permission? Give it like --from %q", "sewer district")
	case d.Title == "" || d.Dated == "":
		return refuse("missing", "where do the limits stand? Give the paper's title and its date, like --title %q --dated 2025-05-01", "sewer rules, part 4")
	}
	for _, date := range []string{d.Dated, d.Lapses} {
		if err := checkDate(date); err != nil {
			return err
		}
	}
	switch { // dates so written sort as they follow each other
	case d.Dated > e.At.In(v.s.Zone()).Format(dateForm):
		return refuse("future", "a paper of %s is not written yet, on %s: check its date", d.Dated, v.s.day(e.At))
	case d.Lapses != "" && d.Lapses < d.Dated:
		return refuse("order", "it lapses on %s, before the paper's own date, %s: check both", d.Lapses, d.Dated)
	}
	return d.checkLimits(v.sys)
}

func checkWay(stream, route string) error {
	for _, way := range ways[stream] {
		if way == route {
			return nil
		}
	}
	return refuse("way", "%s does not leave by way of %s: %s is allowed here", stream, route, strings.Join(ways[stream], " or "))
}

func (d *Discharge) checkLimits(sys sysText) error {
	if d.Stream != StreamLiquid && (d.PHLow != nil || d.PHHigh != nil || d.MaxC != nil || d.OilMgL != nil) {
		return refuse("input", "limits of pH, heat and oil are for the liquid, and this is about the %s: leave them out, and write what it asks for under also", d.Stream)
	}
	for _, ph := range []*units.PH{d.PHLow, d.PHHigh} {
		if ph != nil && !(*ph >= 0 && *ph <= 14) {
			return refuse("input", "a pH of %.2f is outside 0 to 14: look at the paper again", float64(*ph))
		}
	}
	if d.PHLow != nil && d.PHHigh != nil && *d.PHLow >= *d.PHHigh {
		return refuse("input", "at least pH %s and at most %s leaves nothing between: look at the paper again", *d.PHLow, *d.PHHigh)
	}
	if d.MaxC != nil {
		return checkLiquid("a limit", *d.MaxC, sys)
	}
	return nil
}

// apply puts it on file as a whole, in the place of the one before it.
func (d *Discharge) apply(s *State, e Entry) {
	fresh := Permission{*d, e.Seq, e.At, e.By}
	for i, old := range s.Permissions {
		if old.Stream == d.Stream && old.Route == d.Route {
			if !e.At.Before(old.At) { // else it was logged late, and was replaced since
				s.Permissions[i] = fresh
			}
			return
		}
	}
	s.Permissions = append(s.Permissions, fresh)
}

// Permission is what is on file for a stream by a way, lapsed or not.
func (s *State) Permission(stream, route string) (Permission, bool) {
	for _, p := range s.Permissions {
		if p.Stream == stream && p.Route == route {
			return p, true
		}
	}
	return Permission{}, false
}

// Ends is when the permission is over, at the end of its last day in a zone. It
// is false where it names none.
func (p Permission) Ends(zone *time.Location) (time.Time, bool) {
	last, err := time.ParseInLocation(dateForm, p.Lapses, zone)
	return last.AddDate(0, 0, 1), err == nil
}

// Name is the permission in a sentence: its number, or whose it is.
func (p Permission) Name() string {
	if p.Number != "" {
		return p.Number
	}
	return "the word of " + p.From
}

// Source names the permission with the paper that its limits stand in.
func (p Permission) Source() string {
	return p.Name() + suffix(", ", p.Title) + suffix(" of ", p.Dated)
}

func (d *Discharge) say(sys units.System) string {
	p := Permission{Discharge: *d}
	s := fmt.Sprintf("permission for the %s, by way of %s: %s", d.Stream, d.Route, p.Source())
	if d.Number != "" {
		s += suffix(", given by ", d.From)
	}
	for _, limit := range p.Limits(sys) {
		s += ", " + limit
	}
	return s + suffix(", lapses ", d.Lapses) + suffix(" · also asks for ", d.Also)
}

// Limits are the limits as a sentence has them: "pH 5.00 to 10.00", "104 °F at
// most".
func (p Permission) Limits(sys units.System) (out []string) {
	switch {
	case p.PHLow != nil && p.PHHigh != nil:
		out = append(out, fmt.Sprintf("pH %s to %s", *p.PHLow, *p.PHHigh))
	case p.PHLow != nil:
		out = append(out, fmt.Sprintf("pH %s at least", *p.PHLow))
	case p.PHHigh != nil:
		out = append(out, fmt.Sprintf("pH %s at most", *p.PHHigh))
	}
	if p.MaxC != nil {
		out = append(out, sys.Text(*p.MaxC)+" at most")
	}
	if p.OilMgL != nil {
		out = append(out, fmt.Sprintf("oil %g mg/L at most", *p.OilMgL))
	}
	return out
}
