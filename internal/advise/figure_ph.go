package advise

import (
	"fmt"

	"bathside/internal/chem"
)

func phFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "ph", Name: "pH as read", Value: notKnown + ": no reading in this fill; press p", Also: "reading last",
		How: "what the meter showed, with nothing added or taken off: only this number counts for a drain or an authority",
	}
	r := x.PH.Latest
	if r == nil {
		return f
	}
	f.Value = fmt.Sprintf("%.2f at %s, %s", float64(r.Is.PH), x.Sys.Temp(r.Is.SampleC), x.Clock(r.At))
	f.From = []string{x.line(r.Entry)}
	f.Unsure = x.ReadingSay(*r)[0]
	return f
}

func equivalentFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "equivalent", Name: "Would read", Also: "restated temperature cold hot compare", Value: notKnown + ": there is nothing to compare yet",
		How: "the pH of the bath moves with its temperature, and the meter's compensation does not take that out: " +
			"read minus the bath's own slope times the difference in temperature. Within 3 °C (5.4 °F) nothing is taken off",
		Source: "charge balance of carbonate, silicate, borate and phosphate in water; the bath's own hot and cooled pair comes first",
	}
	if x.PH.Last == nil || x.PH.Drop == nil {
		return f
	}
	ph, first, _ := x.PH.AtFirst(*x.PH.Last)
	f.Value = fmt.Sprintf("%.2f at %s, the first reading's temperature", float64(ph), x.Sys.Temp(first.Is.SampleC))
	f.From = []string{x.line(x.PH.Last.Entry), x.line(first.Entry)}
	if x.PH.Last.Restated {
		f.From = append(f.From, "restated by "+x.PH.Last.How)
		f.Unsure = fmt.Sprintf("± %.2f for the restating alone", x.PH.Last.ShiftU)
	} else {
		f.From = append(f.From, "read within 3 °C of the first one: compared as read")
	}
	return f
}

func dropFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "drop", Name: "Down from the first reading", Value: notKnown + ": " + x.PH.Why, Also: "drop fall change real noise",
		How: "the first reading of this fill minus what the bath would read now at the same temperature",
	}
	if x.PH.Drop == nil {
		return f
	}
	f.Value = fmt.Sprintf("%s of %.2f", GiveOrTake(*x.PH.Drop, x.PH.U), x.PH.Limit)
	f.From = []string{x.line(x.PH.Last.Against.Entry), x.line(x.PH.Last.Entry), "the meter: " + trustSay(*x.PH.Last)}
	f.Unsure = fmt.Sprintf("± %.2f is one standard deviation: %s", x.PH.U, chem.DropWords(*x.PH.Drop, x.PH.U, x.PH.Limit))
	f.Source = "a budget of judgement over meter, buffers, sample and restating, not a measurement"
	return f
}

func farFigure(x *Snapshot) Figure {
	f := Figure{ID: "far", Name: "Limit likely", Value: x.Trend.Say(x), Also: "forecast when date days left good for"}
	if !x.Trend.Known() {
		f.How = "a robust line through the readings of this fill, on days and washes, with what earlier fills did"
		return f
	}
	f.From = x.Trend.Explain(x)
	f.How = "the line is followed on, with the washes that are likely to come, until it meets the limit"
	f.Unsure = x.Trend.DateSay(x) + ": four baths in five come to their limit between the two dates; it errs early"
	return f
}

func meterFigure(x *Snapshot) Figure {
	f := Figure{
		ID: "meter", Name: "The meter", Value: x.MeterSay(), Also: "calibration buffer dip electrode",
		How:    "one dip in the pH 10 buffer within 0.1 makes it checked for a week; two buffers calibrate it; one that failed decides nothing",
		Source: "rulings of the trade; the worth of each in pH is judgement",
	}
	if f.Value == "" {
		f.Value = "none was named yet"
	}
	for _, c := range x.Checks() {
		f.From = append(f.From, fmt.Sprintf("line %d, %s: %s", c.Seq, x.Clock(c.At), c.Say))
	}
	f.From = f.From[max(0, len(f.From)-4):]
	return f
}
