package report

import (
	"fmt"
	"io"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// WriteDecision writes what is advised about the bath of x, for the gear
// officer: the advice, why, what would change it, and what each way brings and
// costs. asked is a top-up with a dose of their own, nil for none. The error is
// w's.
func WriteDecision(w io.Writer, x *advise.Snapshot, d advise.Decision, asked *advise.TopUp) error {
	var t text
	writeTag(&t, x)
	t.say(place(x))
	t.say(stamp(x) + ". The gear officer decides.")
	t.blank()
	t.say("Advice: " + choiceSay(x, d))
	for _, r := range d.Reasons {
		t.hang("  -", 4, r.Say)
	}
	if len(d.Flips) > 0 {
		t.blank()
		t.say("What would change it")
		for _, f := range d.Flips {
			t.hang("  -", 4, f)
		}
	}
	t.blank()
	writeOptions(&t, x, d, asked)
	writeSigned(&t, x)
	if _, err := io.WriteString(w, t.String()); err != nil {
		return fmt.Errorf("write the decision: %w", err)
	}
	return nil
}

func choiceSay(x *advise.Snapshot, d advise.Decision) string {
	switch {
	case d.Choice == bath.ChoiceKeep:
		return "keep it as it is"
	case d.Choice == bath.ChoiceDrain:
		return "drain and refill"
	case d.TopUp != nil:
		return "top up with " + x.Amount(d.TopUp.DoseL)
	}
	return "top up"
}

// writeOptions writes a paragraph for each way there is, the dose that was
// asked about first.
func writeOptions(t *text, x *advise.Snapshot, d advise.Decision, asked *advise.TopUp) {
	const indent = 12
	t.say("What each would bring")
	for _, o := range []*advise.TopUp{asked, d.TopUp} {
		if o != nil && (o == asked || asked == nil || o.DoseL != asked.DoseL) {
			t.hang("  top up", indent, topUpSay(x, o))
		}
	}
	t.hang("  refill", indent, refillSay(x, d.Refill))
}

func topUpSay(x *advise.Snapshot, o *advise.TopUp) string {
	say := fmt.Sprintf("%s; would likely read %.2f to %.2f", x.Amount(o.DoseL), float64(o.PH.Low), float64(o.PH.High))
	if x.Soap != nil {
		say += " at " + x.Sys.Temp(x.Soap.At())
	}
	return say + "; " + bringsSay(o.GainDays, o.Cost, o.PerDay, o.Hours)
}

func refillSay(x *advise.Snapshot, r advise.Refill) string {
	say := bringsSay(r.GainDays, r.Cost, r.PerDay, r.Hours)
	if r.SoapL > 0 {
		say = x.Amount(r.SoapL) + " of soap; " + say
	}
	return say
}

// bringsSay is what a way brings and takes; money only where prices are known.
func bringsSay(days, cost, perDay *float64, hours float64) string {
	var parts []string
	if days != nil {
		parts = append(parts, "lasts "+advise.DaysSay(*days))
	} else {
		parts = append(parts, "how long it lasts is not known")
	}
	if cost != nil {
		parts = append(parts, fmt.Sprintf("costs %.2f", *cost))
	}
	if perDay != nil {
		parts = append(parts, fmt.Sprintf("%.2f a day", *perDay))
	}
	return strings.Join(append(parts, units.Hours(hours).String()+" of work"), ", ")
}

// writeSigned writes the last decision of the fill, and whether it still
// stands on what it was made on.
func writeSigned(t *text, x *advise.Snapshot) {
	d, shaken, ok := x.Decided()
	if !ok {
		return
	}
	t.blank()
	t.say(fmt.Sprintf("Signed by %s, %s (line %d)", d.By, when(x, d.At), d.Seq))
	t.hang("", 2, d.Say(x.Sys))
	if shaken {
		t.hang("", 2, "a line that it rests on was crossed out since: decide again")
	}
}
