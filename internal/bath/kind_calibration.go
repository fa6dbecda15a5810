package bath

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bathside/internal/chem"
	"bathside/internal/units"
)

// Calibration is a meter held against buffers: two or three of them with the
// millivolts they gave, or the slope and offset that the meter shows, or one
// dip in a buffer to see whether it still reads right.
type Calibration struct {
	Meter        string             `json:"meter"`
	Points       Points             `json:"points,omitempty"`
	SlopePct     *float64           `json:"slope_pct,omitzero"`
	OffsetMV     *units.Potential   `json:"offset_mv,omitzero"`
	AtC          *units.Temperature `json:"at_c,omitzero"` // of the buffers, with slope and offset
	Check        *Dip               `json:"check,omitzero"`
	NewElectrode bool               `json:"new_electrode,omitzero"` // fitted just before
	Expires      string             `json:"expires,omitzero"`       // the earliest date on the bottles: 2027-03-31
}

// Points are buffers with what the electrode gave in them.
type Points []Point

// Point is one buffer of a calibration.
type Point struct {
	Buffer string            `json:"buffer"` // by its name in chem
	AtC    units.Temperature `json:"at_c"`
	MV     units.Potential   `json:"mv"`
}

// Dip is one buffer as the meter read it.
type Dip struct {
	Buffer string            `json:"buffer"`
	AtC    units.Temperature `json:"at_c"`
	PH     units.PH          `json:"ph"`
}

var calibrationSpec = &Spec{
	Kind: "calibration", Title: "Check or calibrate a meter", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Calibration) },
	Fields: []Field{
		field("meter", "meter", "M2", func(c *Calibration) *string { return &c.Meter }).help("as it is marked"),
		field("check", "one dip", "carbonate@25C=9.98", func(c *Calibration) **Dip { return &c.Check }).optional("buffer@temperature=pH, like carbonate@72F=9.98"),
		field("point", "buffers", "carbonate@25C=-175mV", func(c *Calibration) *Points { return &c.Points }).optional("buffer@temperature=mV, two or three, commas between"),
		field("slope", "or slope", "98.3", func(c *Calibration) **float64 { return &c.SlopePct }).optional("in %, as the meter shows it after two buffers"),
		field("offset", "and offset", "0.2mV", func(c *Calibration) **units.Potential { return &c.OffsetMV }).optional("as the meter shows it"),
		field("buffers-at", "buffers at", "25C", func(c *Calibration) **units.Temperature { return &c.AtC }).optional("how warm the buffers were, measured"),
		field("new-electrode", "new electrode", "yes", func(c *Calibration) *bool { return &c.NewElectrode }).optional("fitted today"),
		field("expires", "buffers expire", "2027-03-31", func(c *Calibration) *string { return &c.Expires }).optional("the earliest date on the bottles"),
	},
}

func (c *Calibration) spec() *Spec { return calibrationSpec }

// Full reports whether two buffers or more were used, and not one dip alone.
func (c *Calibration) Full() bool { return len(c.Points) > 0 || c.SlopePct != nil }

// Line is the electrode's line, where two buffers or more were used.
func (c *Calibration) Line() (chem.Calibration, error) {
	if c.SlopePct != nil {
		if err := c.checkShown(); err != nil { // an imported line may hold one without the others
			return chem.Calibration{}, err
		}
		return chem.FromMeter(*c.SlopePct, float64(*c.OffsetMV), *c.AtC)
	}
	points := make([]chem.Point, len(c.Points))
	for i, p := range c.Points {
		b, err := chem.FindBuffer(p.Buffer)
		if err != nil {
			return chem.Calibration{}, err
		}
		points[i] = chem.Point{Buffer: b, At: p.AtC, MV: float64(p.MV)}
	}
	return chem.Calibrate(points)
}

// Chem is the dip as chem takes it.
func (d Dip) Chem() (chem.Check, error) {
	b, err := chem.FindBuffer(d.Buffer)
	return chem.Check{Buffer: b, At: d.AtC, Read: d.PH}, err
}

func (c *Calibration) check(v view, e Entry) error {
	if c.Meter == "" {
		return refuse("missing", "which meter is it? Give it like --meter M2")
	}
	if IsStrip(c.Meter) {
		return refuse("input", "strips cannot be calibrated: keep them dry and use them for the trend only")
	}
	if !c.Full() && c.Check == nil {
		return refuse("missing", "what did the meter give? One dip, like --check carbonate@25C=9.98, or two buffers, each like --point carbonate@25C=-175mV")
	}
	if err := c.checkShown(); err != nil {
		return err
	}
	if err := c.checkBuffers(); err != nil {
		return err
	}
	if c.Full() {
		if _, err := c.Line(); err != nil {
			return refuse("input", "%s", err)
		}
	}
	if c.Check != nil {
		if err := c.Check.sane(); err != nil {
			return err
		}
	}
	return checkDate(c.Expires)
}

// checkShown keeps slope, offset and temperature together, and apart from
// points: one way of saying it is enough.
func (c *Calibration) checkShown() error {
	given := 0
	for _, is := range []bool{c.SlopePct != nil, c.OffsetMV != nil, c.AtC != nil} {
		if is {
			given++
		}
	}
	switch {
	case given > 0 && len(c.Points) > 0:
		return refuse("input", "give the buffers with their millivolts, or the slope and offset that the meter shows, not both")
	case given > 0 && given < 3:
		return refuse("missing", "slope, offset and the buffers' temperature go together: give them like --slope 98.3 --offset 0.2mV --buffers-at 25C")
	}
	return nil
}

// checkBuffers keeps text that changes how a line is drawn out of the names of
// buffers, which may also be read as JSON.
func (c *Calibration) checkBuffers() error {
	names := make([]string, 0, len(c.Points)+1)
	for _, p := range c.Points {
		names = append(names, p.Buffer)
	}
	if c.Check != nil {
		names = append(names, c.Check.Buffer)
	}
	for _, name := range names {
		if clean(name) != name {
			return refuse("input", "buffer: %q holds signs that cannot be shown: write it again without them", short(clean(name)))
		}
	}
	return nil
}

func (d Dip) sane() error {
	c, err := d.Chem()
	if err == nil {
		_, err = c.Buffer.PH(d.AtC)
	}
	if err != nil {
		return refuse("input", "%s", err)
	}
	if d.PH < 0 || d.PH > 14 {
		return refuse("input", "a pH of %.2f is outside 0 to 14: read it again", float64(d.PH))
	}
	return nil
}

const dateForm = "2006-01-02"

func checkDate(text string) error {
	if text == "" {
		return nil
	}
	if _, err := time.Parse(dateForm, text); err != nil {
		return refuse("input", "%q is not a date: write it like 2027-03-31", short(text))
	}
	return nil
}

// checksKept is how many calibrations and dips State keeps: four years of one
// a week.
const checksKept = 200

func (c *Calibration) apply(s *State, e Entry) {
	i, _ := slices.BinarySearchFunc(s.Checks, e, byTime)
	s.Checks = slices.Insert(s.Checks, i, e)
	if n := len(s.Checks); n > checksKept {
		s.Checks = slices.Clone(s.Checks[n-checksKept:])
	}
}

func (c *Calibration) say(sys units.System) string {
	parts := []string{"meter " + c.Meter}
	for _, p := range c.Points {
		parts = append(parts, fmt.Sprintf("%s at %s %s", p.Buffer, sys.Text(p.AtC), sys.Text(p.MV)))
	}
	if c.SlopePct != nil && c.OffsetMV != nil && c.AtC != nil {
		parts = append(parts, fmt.Sprintf("slope %.1f %%, offset %s, buffers at %s", *c.SlopePct, sys.Text(*c.OffsetMV), sys.Text(*c.AtC)))
	}
	if d := c.Check; d != nil {
		parts = append(parts, fmt.Sprintf("read %.2f in %s at %s", float64(d.PH), d.Buffer, sys.Text(d.AtC)))
	}
	if c.NewElectrode {
		parts = append(parts, "new electrode")
	}
	if c.Expires != "" {
		parts = append(parts, "buffers expire "+c.Expires)
	}
	return strings.Join(parts, ", ")
}

// set adds the points in a text, all or none: "phosphate@25C=8mV,
// carbonate@25C=-175mV".
func (p *Points) set(text string) error {
	var added Points
	for part := range strings.SplitSeq(text, ",") {
		c, err := chem.ParsePoint(part)
		if err != nil {
			return err
		}
		added = append(added, Point{c.Buffer.Name, c.At, units.Potential(c.MV)})
	}
	*p = append(*p, added...)
	return nil
}

// String is how the points would be typed.
func (p Points) String() string {
	var parts []string
	for _, x := range p {
		parts = append(parts, chem.Point{Buffer: chem.Buffer{Name: x.Buffer}, At: x.AtC, MV: float64(x.MV)}.String())
	}
	return strings.Join(parts, ", ")
}

func (d *Dip) set(text string) error {
	c, err := chem.ParseCheck(text)
	if err == nil {
		*d = Dip{c.Buffer.Name, c.At, c.Read}
	}
	return err
}

// String is how the dip would be typed.
func (d Dip) String() string {
	return chem.Check{Buffer: chem.Buffer{Name: d.Buffer}, At: d.AtC, Read: d.PH}.String()
}
