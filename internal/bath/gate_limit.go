package bath

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"bathside/internal/units"
)

// Peak is where the heater takes a bath of a volume during a wash, losses not
// counted: never beyond the set point.
func Peak(from, set units.Temperature, heater units.Power, volume units.Volume, t units.Span) units.Temperature {
	if volume <= 0 || set <= from {
		return from
	}
	const perLitre = 4150.0 // J/K of a litre at 50 °C (IAPWS-97)
	return min(set, from+units.Temperature(float64(heater)*float64(t)/(perLitre*float64(volume))))
}

// peak is the hottest that the bath will be during s.
func (v view) peak(s *Start) units.Temperature { return v.life.Peak(v.b.Tank, s.BathC, s.Time) }

// heatLimit is the hottest bath for an item, and whose word that is.
type heatLimit struct {
	name, source string
	at           units.Temperature // as printed
	hottest      units.Temperature // up to which the item may go in; a margin below at for some
	printed      string            // as its source has it
	both         string            // in both degrees
}

// limit is the hottest bath for a load: by the maker's paper on file or else
// by the catalog of the day.
func (v view) limit(l Load, e Entry) (heatLimit, bool) {
	h := heatLimit{name: l.Name, source: l.Source, printed: l.Limit}
	if p, ok := v.s.Paper(l.Item, e.At); ok && p.State == PaperOnFile && p.MaxC != nil {
		h.at, h.hottest, h.printed, h.source = *p.MaxC, *p.MaxC, v.sys.temp(*p.MaxC), "the maker's paper: "+p.Title
		h.both = h.printed
		return h, true
	}
	if l.LimitC == nil {
		return h, false
	}
	h.at, h.hottest, h.both = *l.LimitC, *l.LimitC, l.Limit
	if at, err := units.Parse[units.Temperature](l.Limit); err == nil {
		h.at, h.both = at, bothWays(l.Limit, at)
	}
	return h, true
}

// bothWays prints a limit as its source has it, the other degrees beside it:
// sources print a whole °F beside a whole °C rounded down, 110 F and 43 °C.
func bothWays(printed string, at units.Temperature) string {
	if strings.HasSuffix(printed, "F") {
		return printed + ", " + units.SI.Temp(units.Temperature(math.Floor(float64(at)+1e-9)))
	}
	return printed + ", " + units.US.Temp(at)
}

// gateLimit: the lowest limit in the load rules, against the hottest that the
// bath will be.
func gateLimit(v view, s *Start, e Entry) *Gate {
	peak := v.peak(s)
	var lowest *heatLimit
	for _, l := range s.Items {
		if h, ok := v.limit(l, e); ok && peak > h.hottest && (lowest == nil || h.hottest < lowest.hottest) {
			lowest = &h
		}
	}
	if lowest == nil {
		return nil
	}
	g := &Gate{ID: "too-hot", Wrong: "the bath is " + lowest.against(v.sys, "at ", s.BathC), Wake: officerWake + " if the maker's paper allows more, never above 130 °F"}
	may := v.sys.down(lowest.hottest)
	switch {
	case s.BathC <= lowest.hottest:
		g.Wrong = "the heater takes the bath during the wash " + lowest.against(v.sys, "to ", peak)
		g.Do = fmt.Sprintf("set the heater to %s or lower, or switch it off for this wash, and log that", may)
	case v.life.Set(v.b.Tank) <= lowest.hottest:
		g.Do = "let the bath cool to " + may
	default:
		g.Do = fmt.Sprintf("wash it by hand in water of %s or cooler; next time it goes in first, light soil, while the bath warms from %s to %s", may, v.sys.temp(coolest), may)
	}
	return g
}

// gateKnown: where nobody knows how warm the bath may be for an item, no bath is
// cool enough.
func gateKnown(v view, s *Start, e Entry) *Gate {
	for _, l := range s.Items {
		if _, ok := v.limit(l, e); !ok {
			return &Gate{ID: "no-limit", Item: l.Item, Wrong: fmt.Sprintf("how warm the bath may be for %s is not known", cmp.Or(l.Name, l.Item)), Do: "wash it by hand, or put its maker's paper on file", Wake: officerWake, Soft: true}
		}
	}
	return nil
}

// against says that a bath is too hot for h. The two numbers never look equal:
// where the margin alone decides, only the limit stands.
func (h heatLimit) against(sys sysText, prep string, hot units.Temperature) string {
	was, most := sys.pair(hot, h.at)
	if hot <= h.at || was == most {
		return fmt.Sprintf("too close to the limit for %s, %s (%s)", h.name, h.both, h.source)
	}
	return fmt.Sprintf("%s%s, and the limit for %s is %s (%s)", prep, was, h.name, h.both, h.source)
}

// broken says that a wash in a bath of c was too hot for h.
func (h heatLimit) broken(sys sysText, c units.Temperature) string {
	was, most := sys.pair(c, h.at)
	if c <= h.at || was == most {
		return fmt.Sprintf("%s: the bath was too close to the limit, %s", h.name, h.printed)
	}
	return fmt.Sprintf("%s: the bath was at %s, the limit is %s", h.name, was, h.printed)
}

// down prints a temperature that may not be exceeded.
func (t sysText) down(c units.Temperature) string {
	const hair = 1e-9 // left by converting 110 °F to °C and back
	if t.sys == units.US {
		return t.sys.Temp(units.Fahrenheit(math.Floor(c.F() + hair)))
	}
	return t.sys.Temp(units.Temperature(math.Floor(float64(c) + hair)))
}
