package report

import (
	"fmt"
	"math"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// A fact is one thing to know about a bath, under its label.
type fact struct{ label, say string }

// factIndent is where facts begin, right of their labels.
const factIndent = 18

// facts are how the bath stands, the pH first.
func facts(x *advise.Snapshot) []fact {
	if !x.Open {
		return []fact{{"fill", emptySince(x)}, {"set point", x.Sys.Temp(x.Set())}}
	}
	return append(phFacts(x), fillFacts(x)...)
}

func emptySince(x *advise.Snapshot) string {
	if d := x.Life.Drain; d != nil {
		return fmt.Sprintf("none, drained %s", when(x, d.At))
	}
	return "none yet"
}

func phFacts(x *advise.Snapshot) []fact {
	j := x.PH
	out := []fact{{"pH", advise.StateWord(j.State) + ": " + x.DropSay()}}
	if say := x.SureSay(); say != "" {
		out = append(out, fact{"how sure", say})
	}
	if x.Trend != nil && !atLimit(x) { // there, the last reading says all
		out = append(out, fact{"how long", x.Trend.Say(x)})
	}
	if x.Soap != nil {
		out = append(out, fact{"more soap", x.Soap.Say})
		if x.Soap.Recharge != nil {
			out = append(out, fact{"by drop test", dropTests(x)})
		}
	}
	if j.Last != nil {
		out = append(out, fact{"last reading", reading(x, j.Last.Rec) + by(j.Last.Rec)})
		if say := x.EquivalentSay(*j.Last); say != "" {
			out = append(out, fact{"", say})
		}
	}
	if j.First != nil {
		out = append(out, fact{"first reading", reading(x, j.First.Rec)})
	}
	if j.Cooled != nil {
		out = append(out, fact{"cooled cup", reading(x, j.Cooled.Rec)})
	}
	for _, d := range j.Doubtful() {
		if j.Last == nil || d.At.After(j.Last.At) { // a later reading settles it
			out = append(out, fact{"not trusted", reading(x, d.Rec) + ": " + d.Doubt.Why})
		}
	}
	return out
}

// atLimit reports whether the last reading is at the limit or past it.
func atLimit(x *advise.Snapshot) bool {
	return x.PH.State == advise.PHAtLimit || x.PH.State == advise.PHPast
}

// dropTests is the soap that the drop tests ask for, and what it may mean that
// the pH asks for another amount.
func dropTests(x *advise.Snapshot) string {
	s := x.Amount(*x.Soap.Recharge)
	if x.Soap.Disagree != "" {
		s += "; " + x.Soap.Disagree
	}
	return s
}

// reading is a pH as it was read: "9.95 at 116 °F, 06:40".
func reading(x *advise.Snapshot, r bath.Rec[*bath.Reading]) string {
	return fmt.Sprintf("%s at %s, %s", r.Is.PH, x.Sys.Temp(r.Is.SampleC), when(x, r.At))
}

func by(r bath.Rec[*bath.Reading]) string {
	s := ", by " + r.By
	if r.Is.Meter != "" {
		s += " with meter " + r.Is.Meter
	}
	return s
}

func fillFacts(x *advise.Snapshot) []fact {
	l := x.Life
	return []fact{
		{"temperature", temperature(x)},
		{"level", level(x)},
		{"fill", fmt.Sprintf("%d, day %d: %s of fresh water, %s", l.Number, day(x), x.Sys.Volume(l.Fill.Is.VolumeL), when(x, l.Fill.At))},
		{"soap", soap(x)},
		{"water added", x.Sys.Volume(l.MakeupL())},
		{"washes", washes(l)},
		{"filter", "ran " + x.Sys.Text(l.FilterTime()) + " in this fill"},
	}
}

// day is the day of the fill's life, from 1.
func day(x *advise.Snapshot) int { return max(int(x.Life.AgeDays(x.Now))+1, 1) }

func temperature(x *advise.Snapshot) string {
	set := x.Sys.Temp(x.Set())
	s := "not measured in this fill; set to " + set
	if x.Temp != nil {
		s = fmt.Sprintf("%s, measured %s; set to %s", x.Sys.Temp(x.Temp.C), when(x, x.Temp.At), set)
	}
	switch at, ok := x.ReadyAt(); {
	case ok && at.After(x.Now):
		s += fmt.Sprintf(", there about %s with the heater on", when(x, at))
	case ok:
		s += fmt.Sprintf(", there since about %s if the heater stayed on", when(x, at))
	}
	return s
}

func level(x *advise.Snapshot) string {
	if !x.Level.Known {
		return "not known: look at the mark"
	}
	full := x.Bath.Tank.VolumeL
	seen := ", last seen " + when(x, x.Level.At)
	// What is read off a mark is no better than half a percent.
	if missing := full - x.Level.VolumeL; missing > full/200 {
		return x.Sys.Volume(missing) + " below the mark" + seen
	}
	return "at the mark" + seen
}

func soap(x *advise.Snapshot) string {
	all := x.Life.DoseL()
	if all == 0 {
		return "none logged in this fill"
	}
	s := x.Amount(all)
	if n := x.Life.Topups(); n > 0 {
		s += ", " + count(n, "top-up") + " in it"
	}
	if frac, ok := strength(x); ok {
		s += fmt.Sprintf("; about %.0f %% of a full first dose is left", math.Round(100*frac))
	}
	return s
}

func washes(l bath.Life) string {
	n, items := l.Washes()
	return fmt.Sprintf("%d, with %s in them", n, count(items, "item"))
}

// count says how many: "1 item", "12 items".
func count(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return fmt.Sprintf("%d %s", n, thing)
}
