package bath

import (
	"slices"
	"strings"
)

// Lines of care rest on the wash before them, and on one another: what may be
// crossed out or corrected among them.

// before is what was in care when a step of it was logged in line seq.
func (b *Bath) before(c *Care, seq uint64) []Batch {
	batches := slices.Clone(b.Batches)
	if i := b.batchAt(c.Wash, c.Item); i >= 0 {
		x := &batches[i]
		x.Done = slices.DeleteFunc(slices.Clone(x.Done), func(d CareDone) bool { return d.Seq >= seq })
	}
	return batches
}

// checkCare refuses a correction that would leave later lines of care with
// nothing to rest on.
func (b *Bath) checkCare(stands, fixed Entry) error {
	switch was := stands.Body.(type) {
	case *Wash:
		return b.keepsCare(stands.Seq, fixed.Body.(*Wash))
	case *Care:
		if is := fixed.Body.(*Care); is.Wash != was.Wash || is.Item != was.Item || is.Step != was.Step {
			return refuse("care", "line %d stays %s of %s of line %d: cross it out, and log the right one", stands.Seq, was.Step, was.Item, was.Wash)
		}
	case *Ready:
		if is := fixed.Body.(*Ready); !is.sameGear(was) {
			return refuse("care", "line %d stays about the same gear: cross it out, and log the right one", stands.Seq)
		}
	}
	return nil
}

// keepsCare refuses to take a wash from under the steps that were logged for it.
func (b *Bath) keepsCare(seq uint64, w *Wash) error {
	for _, x := range b.Batches {
		stays := w.Result == ResultClean && slices.ContainsFunc(w.Items, func(l Load) bool { return x.is(l.Item) })
		if x.Wash == seq && len(x.Done) > 0 && !stays {
			return refuse("rests", "line %d, a step of care, rests on line %d: cross that one out first", x.Done[len(x.Done)-1].Seq, seq)
		}
	}
	return nil
}

// caredFor reports whether a later line of care rests on a wash, or on a step
// before it.
func caredFor(target, later Entry) bool {
	wash, item := target.Seq, ""
	if c, ok := target.Body.(*Care); ok {
		wash, item = c.Wash, c.Item
	}
	switch l := later.Body.(type) {
	case *Care:
		return l.Wash == wash && (item == "" || strings.EqualFold(l.Item, item))
	case *Ready:
		return l.Wash == wash && (item == "" || strings.EqualFold(l.Item, item))
	}
	return false
}
