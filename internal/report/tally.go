package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/plain"
	"bathside/internal/units"
)

// WriteTally writes the paper for when the workstation is down: how the bath of
// x stood, ruled lines for everything that happens at it, and a last page with
// the minutes of each of items, what to check before it goes in, and the
// cautions. Pages are parted by form feeds. Its own letters are ASCII, so that
// any printer has them. seal is the seal number of the lines it was made of;
// sealDigits of it are printed. The error is w's.
func WriteTally(w io.Writer, x *advise.Snapshot, items []catalog.Item, seal string) error {
	s := &sheet{title: ascii(plain.Line("Bath tally, " + place(x)))}
	s.head = tallyHead(x)
	s.add(tallyFacts(x, seal)...)
	for i, page := range tallyPages {
		if i > 0 {
			s.newPage()
		}
		for _, f := range page {
			s.add(f.lines(x.Sys)...)
		}
	}
	s.newPage()
	s.add(minutesTable(x, items)...)
	for _, item := range items {
		s.add(itemCard(item)...)
	}
	s.add("")
	s.add(cautions(x)...)
	if err := s.writeTo(w); err != nil {
		return fmt.Errorf("write tally sheet: %w", err)
	}
	return nil
}

// tallyHead stands on every page, since loose pages part.
func tallyHead(x *advise.Snapshot) []string {
	t := text{paper: true}
	t.say("Printed " + stamp(x) + ". Copied to log book by ____________ on ________")
	if tag := x.TagSay(); tag != "" {
		t.say(ansi.Truncate(plain.Line(tag), 3*width, "...")) // whole on a screen; here it leaves room
	}
	t.blank()
	return t.lines()
}

// tallyFacts are how the bath stood, and what a reading on paper is held
// against.
func tallyFacts(x *advise.Snapshot, seal string) []string {
	t := text{paper: true}
	t.say("Write each thing down with the time it happened. How the bath stood:")
	sealed := fact{"seal number", fmt.Sprintf("%.*s of %d lines", sealDigits, seal, x.State.Seq)}
	for _, f := range slices.Concat(facts(x), paperFacts(x), []fact{sealed}) {
		t.hang("  "+f.label, factIndent, f.say)
	}
	t.blank()
	return t.lines()
}

// paperFacts are those that a screen works out by itself.
func paperFacts(x *advise.Snapshot) []fact {
	tank := x.Bath.Tank
	mark := tank.Mark
	if mark == "" {
		mark = "ask the gear officer; nothing is on file"
	}
	out := []fact{{"act at", actAt(x)}, {"the mark", mark}}
	if tank.LowL > 0 {
		out = append(out, fact{"low mark", x.Sys.Volume(tank.LowL) + ": below it the heater is off"})
	}
	if full := bath.Charge(tank.VolumeL, tank.Ratio, x.State.Site.InWater()); full > 0 {
		out = append(out, fact{"full first dose", x.Amount(full)})
	}
	return append(out, fact{"hottest allowed", whole(x.Sys, tank.Max(), math.Floor)})
}

// actAt is the pH at which the drop reaches its limit, and at what sample
// temperatures it may be compared.
func actAt(x *advise.Snapshot) string {
	var parts []string
	for _, first := range []*advise.Judged{x.PH.First, x.PH.Cooled} {
		if first == nil {
			continue
		}
		c := first.Is.SampleC
		parts = append(parts, fmt.Sprintf("%.2f or lower, read between %s and %s", float64(first.Is.PH)-x.PH.Limit,
			whole(x.Sys, c-advise.Comparable, math.Ceil), whole(x.Sys, c+advise.Comparable, math.Floor)))
	}
	if len(parts) == 0 {
		return fmt.Sprintf("%.2f below the first reading, which was ________ at ________", x.PH.Limit)
	}
	return strings.Join(parts, "; or ")
}

// whole is a temperature in whole degrees, rounded to the side that is safe.
func whole(sys units.System, c units.Temperature, side func(float64) float64) string {
	steady := func(v float64) float64 { return math.Round(v*1e6) / 1e6 } // 110 °F is 110 again
	if sys == units.SI {
		return sys.Temp(units.Temperature(side(steady(float64(c)))))
	}
	return sys.Temp(units.Fahrenheit(side(steady(c.F()))))
}
