package console

import (
	"fmt"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/plain"
	"bathside/internal/units"
)

// head is the advice and the evidence in a line each, what was signed last, and
// what enter would sign.
func (s *decide) head(w int) []string {
	advised := units.Volume(0)
	if s.d.TopUp != nil {
		advised = s.d.TopUp.DoseL
	}
	out := []string{
		s.t.title("Advice: "+choiceSay(s.x, s.d.Choice, advised), w, true),
		" " + evidenceSay(s.x, w-1),
	}
	out = append(out, s.signed(w)...)
	return append(out, s.choiceRow(w))
}

// evidenceSay is how far the pH fell, and how long the bath is likely good or
// how it stands, in w cells.
func evidenceSay(x *advise.Snapshot, w int) string {
	if x.PH.Drop == nil {
		return fit(w, "Not known: "+x.PH.Why+".")
	}
	drop := fmt.Sprintf("Down %s of %.2f", advise.GiveOrTake(max(0, *x.PH.Drop), x.PH.U), x.PH.Limit)
	if *x.PH.Drop < 0 {
		drop = fmt.Sprintf("Up %s, act at %.2f down", advise.GiveOrTake(-*x.PH.Drop, x.PH.U), x.PH.Limit)
	}
	far := farSay(x)
	if far == "" {
		return fit(w, drop+" · "+advise.StateWord(x.PH.State), drop)
	}
	return fit(w, drop+" · "+far, drop+" · "+near(far), drop)
}

// signed is the last decision of the fill, and whether it still has its ground.
func (s *decide) signed(w int) []string {
	d, shaken, ok := s.x.Decided()
	if !ok {
		return nil
	}
	said := strings.TrimPrefix(d.Say(s.x.Sys), decided)
	out := []string{pad(fmt.Sprintf(" %s Signed by %s, %s: %s", s.t.mark("✓", "+"), plain.Line(d.By), s.x.Clock(d.At), plain.Line(said)), w)}
	if shaken {
		out = append(out, " "+s.t.watch.Render(s.t.mark("▲", "^")+" What it rests on was crossed out since: sign again."))
	}
	return out
}

// choiceRow names what can be signed, in brackets what enter would sign.
func (s *decide) choiceRow(w int) string {
	long, short := s.choiceWords(true), s.choiceWords(false)
	return " " + fit(w-1, s.t.key.Render("enter")+" signs "+long, long, short)
}

func (s *decide) choiceWords(long bool) string {
	var parts []string
	for _, c := range s.choices() {
		say := c
		if long {
			say = choiceSay(s.x, c, s.dose.doseL)
		}
		if c == s.choice() {
			parts = append(parts, s.t.accent.Render("["+say+"]"))
		} else {
			parts = append(parts, " "+say+" ")
		}
	}
	return strings.Join(parts, " ")
}

// decided is how the log book begins the words of a decision.
const decided = "decided: "

// choiceSay is a choice in the words of the log book: "top up with 1 gal".
func choiceSay(x *advise.Snapshot, choice string, dose units.Volume) string {
	b := &bath.Decision{Choice: choice, Advice: choice}
	if choice == bath.ChoiceTopUp {
		b.DoseL = &dose
	}
	return strings.TrimPrefix(bath.Entry{Body: b}.Say(x.Sys), decided)
}
