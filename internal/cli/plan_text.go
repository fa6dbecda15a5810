package cli

import (
	"fmt"
	"strings"

	"bathside/internal/advise"
	"bathside/internal/load"
)

// printPlan tells what to know first, then wash by wash, then when what is
// back, and last what stays out and what it costs the bath.
func (a *app) printPlan(x *advise.Snapshot, w advise.Washes, p planAnswer) error {
	for _, note := range w.First {
		fmt.Fprintln(a.text(), note)
	}
	bestPossible := ""
	if p.Proved {
		bestPossible = "; no plan has fewer"
	}
	fmt.Fprintf(a.text(), "%s, %g min of ultrasound%s\n", count(p.Cycles, "wash"), p.TotalMin, bestPossible)
	for _, note := range w.Notes {
		fmt.Fprintln(a.text(), note)
	}
	for i, wash := range p.Washes {
		fmt.Fprintf(a.text(), "\nwash %d: %s, %g min, %s soil, out %s\n", i+1, x.Clock(wash.StartAt), wash.Minutes, wash.Soil, x.Clock(wash.OutAt))
		for _, b := range wash.Baskets {
			fmt.Fprintf(a.text(), "  %s: %s\n", b.say(), itemsSay(b.Items, wash.Soil))
		}
	}
	fmt.Fprintf(a.text(), "\nlast basket out %s; last item back %s\n", x.Clock(p.BathDone), x.Clock(p.ReadyAt))
	for _, line := range a.backSay(x, w, p) {
		fmt.Fprintln(a.text(), line)
	}
	for _, k := range p.KeptOut {
		fmt.Fprintf(a.text(), "stays out: %d %s. %s\n", k.Count, k.plural, k.Why)
	}
	if p.PHDrop != nil {
		fmt.Fprintf(a.text(), "cost to the bath: %s\n", dropSay(*p.PHDrop))
	}
	for _, after := range p.After {
		fmt.Fprintln(a.text(), after)
	}
	return nil
}

// say is a basket with its kind, where its name does not tell, and its lid:
// "tray, shallow", "deep, lid clipped".
func (b planBasket) say() string {
	say := b.Name
	if !strings.Contains(strings.ToLower(b.Name), string(b.Kind)) {
		say += ", " + string(b.Kind)
	}
	if b.Lid {
		say += ", lid clipped"
	}
	return say
}

// itemsSay lists what is in a basket; a soil is named where it is not that of
// the wash.
func itemsSay(items []planItem, soil load.Soil) string {
	var all []string
	for _, i := range items {
		s := fmt.Sprintf("%d %s", i.Count, i.plural)
		if i.Soil != soil {
			s += " (" + string(i.Soil) + ")"
		}
		all = append(all, s)
	}
	return strings.Join(all, ", ")
}

// backSay is when sets and what is needed are back, and what that leaves out.
func (a *app) backSay(x *advise.Snapshot, w advise.Washes, p planAnswer) []string {
	var lines []string
	if n := len(p.Sets); n == 1 {
		lines = append(lines, "a mask and a pack, one set, back "+x.Clock(p.Sets[0]))
	} else if n > 1 {
		lines = append(lines, fmt.Sprintf("sets of a mask and a pack: the first back %s, all %d by %s", x.Clock(p.Sets[0]), n, x.Clock(p.Sets[n-1])))
	}
	for _, n := range p.Needs {
		lines = append(lines, fmt.Sprintf("needed: %d %s%s", n.Count, n.plural, needSay(x, n)))
	}
	if wet := notDried(w); len(wet) > 0 {
		lines = append(lines, "back is out of the bath: drying is not counted for "+strings.Join(wet, ", ")+"; give it like --drying mask=45min")
	}
	return lines
}

func needSay(x *advise.Snapshot, n planNeed) string {
	by := ""
	if n.By != nil {
		by = " by " + x.Clock(*n.By)
	}
	switch {
	case !n.In:
		return by + ": fewer are in the plan"
	case !n.Met:
		return fmt.Sprintf("%s: too late, back %s", by, x.Clock(*n.At))
	}
	return fmt.Sprintf("%s: back %s", by, x.Clock(*n.At))
}

// notDried names what has no time to dry.
func notDried(w advise.Washes) []string {
	var wet []string
	seen := map[string]bool{}
	for _, wash := range w.WashPlan.Washes {
		for _, b := range wash.Baskets {
			for _, l := range b.Lines {
				item := w.Request.Batches[l.Batch].Item
				if _, known := w.Request.Care.Dry[item.ID]; !known && !seen[item.ID] {
					seen[item.ID] = true
					wet = append(wet, item.Plural)
				}
			}
		}
	}
	return wet
}

// dropSay is an expected drop in pH: "about 0.05 pH".
func dropSay(drop float64) string {
	if drop < 0.005 {
		return "less than 0.01 pH"
	}
	return fmt.Sprintf("about %.2f pH", drop)
}
