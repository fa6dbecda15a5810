package advise

import (
	"fmt"

	"bathside/internal/chem"
)

// StateWord is a pH state as every face says it.
func StateWord(s PHState) string {
	switch s {
	case PHOK:
		return "OK"
	case PHWatch:
		return "GETTING CLOSE"
	case PHAtLimit:
		return "AT LIMIT"
	case PHPast:
		return "OVER LIMIT"
	}
	return "READ AGAIN"
}

// DropSay says how far the pH has come down, or why that is not known: "down
// 0.27, act at 0.50".
func (x *Snapshot) DropSay() string {
	if x.PH.Drop == nil {
		return x.PH.Why
	}
	if d := *x.PH.Drop; d < 0 {
		return fmt.Sprintf("up %.2f, act at %.2f down", -d, x.PH.Limit)
	}
	return fmt.Sprintf("down %.2f, act at %.2f", *x.PH.Drop, x.PH.Limit)
}

// GiveOrTake is a drop with its standard uncertainty: "0.27 ± 0.07". The
// uncertainty of nothing is left out.
func GiveOrTake(drop, u float64) string {
	if u <= 0 {
		return fmt.Sprintf("%.2f", drop)
	}
	return fmt.Sprintf("%.2f ± %.2f", drop, u)
}

// SureSay says how sure the drop is: "0.31 ± 0.07: real, not yet at the limit".
// It is empty where there is none, and for the first reading itself.
func (x *Snapshot) SureSay() string {
	if x.PH.Drop == nil || x.PH.U == 0 {
		return ""
	}
	return GiveOrTake(*x.PH.Drop, x.PH.U) + ": " + chem.DropWords(*x.PH.Drop, x.PH.U, x.PH.Limit)
}

// EquivalentSay is what a reading at another temperature would read at that of
// the first one, and by what that is known; "" where like is compared with
// like.
func (x *Snapshot) EquivalentSay(r Judged) string {
	ph, first, ok := x.PH.AtFirst(r)
	if !ok || !r.Restated {
		return ""
	}
	return fmt.Sprintf("would read %.2f ± %.2f at %s, by %s", float64(ph), r.ShiftU, x.Sys.Temp(first.Is.SampleC), r.How)
}

// TagSay is the top line of every face while a red tag hangs: "DO NOT USE,
// tagged by Kim 02:10: trips the breaker". It is empty where none hangs.
func (x *Snapshot) TagSay() string {
	t := x.Bath.Tag
	if t == nil {
		return ""
	}
	return fmt.Sprintf("DO NOT USE, tagged by %s %s: %s", t.By, x.Clock(t.At), t.Why)
}

// ReadingSay is what a reading is worth, a sentence a line: by itself, at the
// first one's temperature, and against the first one.
func (x *Snapshot) ReadingSay(r Judged) []string {
	alone := fmt.Sprintf("%.2f at %s", float64(r.Is.PH), x.Sys.Temp(r.Is.SampleC))
	if u := r.Standing.Trust.U(); r.Doubt.Kind != DoubtMeter {
		alone += fmt.Sprintf(": good to ± %.2f by itself, %s", u, trustSay(r))
	}
	out := []string{alone}
	if r.Doubt != (Doubt{}) {
		return append(out, "kept, not trusted: "+r.Doubt.Why)
	}
	if r.Odd != "" {
		out = append(out, r.Odd+"; read it again: until then it counts, and stays out of the trend")
	}
	if say := x.EquivalentSay(r); say != "" {
		out = append(out, say)
	}
	if r.Drop != nil && r.U > 0 {
		way, by := "down", *r.Drop
		if by < 0 {
			way, by = "up", -by
		}
		out = append(out, fmt.Sprintf("%s %s from %.2f: %s", way, GiveOrTake(by, r.U), float64(r.Against.Is.PH), chem.DropWords(*r.Drop, r.U, x.PH.Limit)))
	}
	return out
}

// trustSay is what a reading's meter was worth: "meter M1, checked".
func trustSay(r Judged) string { return meterName(r.Is.Meter) + ", " + r.Standing.Trust.String() }
