package advise

import (
	"fmt"

	"bathside/internal/bath"
)

// StateWord is a pH state as every face says it.
func StateWord(s bath.PHState) string {
	switch s {
	case bath.PHOK:
		return "OK"
	case bath.PHWatch:
		return "GETTING CLOSE"
	case bath.PHAtLimit:
		return "AT LIMIT"
	case bath.PHPast:
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

// TagSay is the top line of every face while a red tag hangs: "DO NOT USE,
// tagged by Kim 02:10: trips the breaker". It is empty where none hangs.
func (x *Snapshot) TagSay() string {
	t := x.Bath.Tag
	if t == nil {
		return ""
	}
	return fmt.Sprintf("DO NOT USE, tagged by %s %s: %s", t.By, x.Clock(t.At), t.Why)
}
