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
	if !r.Restated || r.Against == nil {
		return ""
	}
	return fmt.Sprintf("would read %.2f ± %.2f at %s, by %s", float64(r.Equivalent()), r.ShiftU, x.Sys.Temp(r.Against.Is.SampleC), r.How)
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
