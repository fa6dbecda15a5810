package advise

import (
	"fmt"
	"math"
	"time"

	"bathside/internal/trend"
)

// Known reports whether there is a date to speak of.
func (t *Trend) Known() bool { return t != nil && t.State != trend.NoDate }

// Say is the trend in words: "good for at least 3 weeks", "limit likely about 9
// Dec, between 30 Nov and 24 Dec".
func (t *Trend) Say(x *Snapshot) string {
	if t == nil {
		return trend.NoDate.Note()
	}
	if x.deciding() {
		return "at the limit by the last reading"
	}
	if note := t.State.Note(); note != "" {
		return note
	}
	if t.Q10 >= 7 {
		return "good for at least " + weeks(t.Q10)
	}
	return "limit " + t.DateSay(x)
}

// DateSay is when the limit is likely: "about 9 Dec, between 30 Nov and 24 Dec".
func (t *Trend) DateSay(x *Snapshot) string {
	at := func(days float64) time.Time { return x.Now.Add(time.Duration(days * 24 * float64(time.Hour))) }
	late := "later than " + x.Date(at(trend.Horizon))
	if t.Q90 < trend.Horizon {
		late = x.Date(at(t.Q90))
	}
	return fmt.Sprintf("likely about %s, between %s and %s", x.Date(at(t.Q50)), x.Date(at(t.Q10)), late)
}

func weeks(days float64) string {
	n := int(math.Floor(days / 7))
	if n == 1 {
		return "a week"
	}
	return fmt.Sprintf("%d weeks", n)
}

// pastSay counts the fills before this one.
func pastSay(n int) string {
	switch n {
	case 0:
		return "no fill before it"
	case 1:
		return "the fill before it"
	}
	return fmt.Sprintf("%d fills before it", n)
}

// Explain says where the dates come from.
func (t *Trend) Explain(x *Snapshot) []string {
	m := t.Fit.Mean()
	out := []string{
		fmt.Sprintf("%d readings of this fill, as they would read at %s", t.Fit.Readings(), x.Sys.Temp(x.PH.First.Is.SampleC)),
		fmt.Sprintf("the pH falls by %.3f a day and %.3f a wash, as far as its readings and %s can tell", max(0, -m[1]), max(0, -m[2]), pastSay(t.Past)),
		fmt.Sprintf("a reading scatters by about %.2f; a blunder counts for little", math.Sqrt(t.Fit.Sigma2())),
		"a robust line by Bayes' rule on days and washes; of made-up baths 79 to 86 in 100 reached the limit between the dates, and it errs early",
	}
	if len(t.input.Planned) == 0 {
		out = append(out, "washes to come are taken from those of the last weeks")
	}
	return out
}
