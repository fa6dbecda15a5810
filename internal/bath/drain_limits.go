package bath

import (
	"fmt"
	"math"

	"bathside/internal/units"
)

// Limits that hold for a sewer whatever the place allows.
const (
	// SewerFloor is the lowest pH for a public sewer, but for works that are
	// built for less: 40 CFR 403.5(b)(2). There is no federal upper limit there.
	SewerFloor = units.PH(5.0)
	// Corrosive is the pH from which a liquid is corrosive hazardous waste:
	// 40 CFR 261.22(a)(1), waste D002.
	Corrosive = units.PH(12.5)
)

// NoDilution is what never makes a liquid fit for a sewer (from memory).
const NoDilution = "do not dilute to pass (40 CFR 403.6(d), from memory)"

// A sample for a drain is cooled to between these two; above pH 12 to the
// narrower two (rulings of the trade: 68 to 86 °F, 77 give or take 2).
var (
	coolFrom, coolTo   = units.Fahrenheit(68), units.Fahrenheit(86)
	exactFrom, exactTo = units.Fahrenheit(75), units.Fahrenheit(79)
)

const (
	exactAbove   = units.PH(12)
	sampleMargin = units.Temperature(0.1) // a thermometer's last digit
)

// Verdict is how a drain stands to a limit.
type Verdict int

// The verdicts. What was not measured passes nothing.
const (
	Passes Verdict = iota
	Fails
	Unmeasured
)

// LimitCheck is one limit that a drain is held against.
type LimitCheck struct {
	Is  Verdict
	Say string
}

// LimitChecks holds a drain from b against what is on file for its way at that
// time, and against what holds everywhere. Only the liquid that is kept is held
// against nothing.
func (d *Drain) LimitChecks(s *State, b *Bath, e Entry) []LimitCheck {
	c := checks{sys: sysText{s.System()}}
	if b.foul(e, e.Seq == 0 || e.Seq > s.Seq) {
		for _, say := range foulOutside(StreamLiquid, d.Route, d.Allowed) {
			c.add(Fails, "%s", say)
		}
	}
	switch d.Route {
	case RouteSewer:
		p, ok := s.Permission(StreamLiquid, RouteSewer)
		c.permission(s, b, p, ok, e)
		c.sample(d)
		c.acidity(d, p)
		c.heat(d, p)
		c.oil(d, p)
	case RouteHauler:
		if p, ok := s.Permission(StreamLiquid, RouteHauler); ok {
			c.lapsed(s, p, e)
		}
	}
	return c.all
}

// checks is a list of LimitCheck in the making.
type checks struct {
	all []LimitCheck
	sys sysText
}

func (c *checks) add(is Verdict, format string, args ...any) {
	c.all = append(c.all, LimitCheck{is, fmt.Sprintf(format, args...)})
}

// say is what is not passed.
func (c *checks) say() (out []string) {
	for _, is := range c.all {
		if is.Is != Passes {
			out = append(out, is.Say)
		}
	}
	return out
}

func (c *checks) permission(s *State, b *Bath, p Permission, ok bool, e Entry) {
	switch {
	case !ok && b.Tank.Sewer != "":
		c.add(Fails, "%s is on file without its limits", b.Tank.Sewer)
	case !ok:
		c.add(Fails, "no permission for the sewer is on file")
	default:
		c.lapsed(s, p, e)
		if p.PHLow == nil && p.PHHigh == nil {
			c.add(Fails, "%s is on file without a limit of pH", p.Name())
		}
	}
}

func (c *checks) lapsed(s *State, p Permission, e Entry) {
	if end, ok := p.Ends(s.Zone()); ok && !e.At.Before(end) {
		c.add(Fails, "%s lapsed on %s", p.Name(), p.Lapses)
	}
}

// sample: limits are for a cooled cup, since a hot one reads lower.
func (c *checks) sample(d *Drain) {
	if d.PH == nil || d.SampleC == nil {
		c.add(Unmeasured, "no pH of a cooled sample was taken")
		return
	}
	between := func(from, to units.Temperature) bool {
		return *d.SampleC >= from-sampleMargin && *d.SampleC <= to+sampleMargin
	}
	switch {
	case *d.PH > exactAbove && !between(exactFrom, exactTo):
		c.add(Unmeasured, "the sample was at %s: above pH 12 it is read at 77 °F (25 °C), give or take 2 °F", c.sys.temp(*d.SampleC))
	case !between(coolFrom, coolTo):
		c.add(Unmeasured, "the sample was at %s: it is cooled to 68 to 86 °F (20 to 30 °C) first", c.sys.temp(*d.SampleC))
	}
}

func (c *checks) acidity(d *Drain, p Permission) {
	if d.PH == nil {
		return
	}
	ph, broken := *d.PH, len(c.all)
	if printed(ph) >= Corrosive {
		c.add(Fails, "pH %s is 12.5 or above: possible corrosive waste (40 CFR 261.22), not for the sewer", ph)
	}
	if printed(ph) < SewerFloor {
		c.add(Fails, "pH %s is below 5.0, the federal floor for a sewer (40 CFR 403.5(b))", ph)
	}
	if p.PHHigh != nil && printed(ph) > printed(*p.PHHigh) {
		c.add(Fails, "pH %s is above %s, the most by %s", ph, *p.PHHigh, p.Source())
	}
	if p.PHLow != nil && printed(ph) < printed(*p.PHLow) {
		c.add(Fails, "pH %s is below %s, the least by %s", ph, *p.PHLow, p.Source())
	}
	if len(c.all) == broken && (p.PHLow != nil || p.PHHigh != nil) {
		c.add(Passes, "pH %s", ph)
	}
}

// printed is a pH as it is read on a screen, so that none is above or below what
// looks the same.
func printed(ph units.PH) units.PH { return units.PH(math.Round(float64(ph)*100) / 100) }

func (c *checks) heat(d *Drain, p Permission) {
	switch {
	case p.MaxC == nil:
	case d.LiquidC == nil:
		c.add(Unmeasured, "nobody measured the liquid, and %s allows %s at most", p.Name(), c.sys.temp(*p.MaxC))
	case *d.LiquidC > *p.MaxC+sampleMargin:
		at, most := c.sys.pair(*d.LiquidC, *p.MaxC)
		c.add(Fails, "%s is hotter than %s, the most by %s", at, most, p.Source())
	default:
		c.add(Passes, "%s", c.sys.temp(*d.LiquidC))
	}
}

// oil: mineral oil is barred where it disturbs the works, and free oil is seen
// (40 CFR 403.5(b)(6), from memory).
func (c *checks) oil(d *Drain, p Permission) {
	switch {
	case d.Oil != nil && *d.Oil:
		c.add(Fails, "free oil lay on it: skimmed off, it is a waste of its own")
	case d.Oil == nil && p.OilMgL != nil:
		c.add(Unmeasured, "nobody looked for free oil, and %s limits it", p.Name())
	case d.Oil != nil:
		c.add(Passes, "no free oil")
	}
}
