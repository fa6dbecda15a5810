package console

import (
	"fmt"

	"bathside/internal/load"
)

// lines is the plan: how good it is, wash by wash, when what is back, and what
// stays out.
func (p *planPanel) lines() []string {
	switch {
	case p.err != nil:
		return indented(sentence(p.err)+".", p.w)
	case p.is == nil && p.searching:
		return indented("Looking for a plan: up to 2 s.", p.w)
	case p.is == nil:
		return indented("Count what is to be washed: the plan stands here.", p.w)
	}
	out := p.head()
	for i, w := range p.is.WashPlan.Washes {
		out = append(out, p.wash(i, w)...)
	}
	out = append(out, p.back()...)
	for _, k := range p.is.KeptOut {
		b := p.is.Request.Batches[k.Batch]
		out = append(out, p.warn(fmt.Sprintf("Out: %d %s. %s", b.N, itemSay(b.Item, b.N), k.Why))...)
	}
	return out
}

// head is the sum and what to know first, with how far from the best it is.
func (p *planPanel) head() []string {
	out := indented(p.sum(), p.w)
	for _, first := range p.is.First {
		out = append(out, p.warn(first)...)
	}
	for _, note := range p.is.Notes {
		for _, l := range indented(note, p.w) {
			out = append(out, p.t.muted.Render(l))
		}
	}
	return out
}

func (p *planPanel) sum() string {
	best := ""
	if p.is.Proved {
		best = "; no plan has fewer"
	}
	switch n := len(p.is.WashPlan.Washes); n {
	case 0:
		return "Nothing of it goes in the bath as it is now."
	case 1:
		return fmt.Sprintf("1 wash, %g min of ultrasound%s.", p.is.TotalMinutes, best)
	default:
		return fmt.Sprintf("%d washes, %g min of ultrasound%s.", n, p.is.TotalMinutes, best)
	}
}

func (p *planPanel) warn(s string) (out []string) {
	for _, l := range indented(s, p.w) {
		out = append(out, p.t.watch.Bold(false).Render(l))
	}
	return out
}

// wash is one wash: its times, then a basket a row.
func (p *planPanel) wash(i int, w load.Wash) []string {
	start, end := p.x.Clock(p.x.Back(w.Start)), p.x.Clock(p.x.Back(w.Out))
	times := fit(p.w-6, fmt.Sprintf("%s  %g min, %s soil  out %s", start, w.Minutes, w.Dirtiest, end), fmt.Sprintf("%s  %g min  out %s", start, w.Minutes, end))
	out := []string{" " + p.t.accent.Render(fmt.Sprintf("%2d", i+1)) + "  " + times}
	for _, b := range w.Baskets {
		is := p.is.Request.Baskets[b.Basket]
		for j, l := range wrap(fmt.Sprintf("%s, %s: %s", is.Name, lidSay(p.is.Request, b), countsSay(p.is.Request, b)), p.w-8) {
			head := "     "
			if j > 0 {
				head += "  "
			}
			out = append(out, head+l)
		}
	}
	return out
}

// back is when sets and the last item are back, and what the washes call for.
// Drying is a station's own data, and none is on file here.
func (p *planPanel) back() []string {
	plan := p.is.WashPlan
	if len(plan.Washes) == 0 {
		return nil
	}
	clock := p.x.Clock
	var say string
	switch n := len(plan.Sets); {
	case n == 1:
		say = fmt.Sprintf("A mask and a pack, one set, out at %s. ", clock(p.x.Back(plan.Sets[0])))
	case n > 1:
		say = fmt.Sprintf("Sets of a mask and a pack: the first out at %s, all %d at %s. ", clock(p.x.Back(plan.Sets[0])), n, clock(p.x.Back(plan.Sets[n-1])))
	}
	say += fmt.Sprintf("Last item out at %s; rinse and drying come on top.", clock(p.x.Back(plan.AllBack)))
	if d := p.is.Drop; d != nil && *d >= 0.005 {
		say += fmt.Sprintf(" It costs the bath about %.2f pH.", *d)
	}
	out := indented(say, p.w)
	for _, after := range p.is.After {
		out = append(out, indented(after, p.w)...)
	}
	return out
}
