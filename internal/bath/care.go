package bath

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bathside/internal/units"
)

// CareStep is one step of the care after a wash, as the catalog had it on the
// day of the wash. Its numbers are zero where the step has none.
type CareStep struct {
	ID     string     `json:"step"`
	Least  units.Span `json:"least_s,omitzero"`
	PPM    float64    `json:"ppm,omitzero"` // of chlorine or iodine, at least
	Source string     `json:"source,omitzero"`
}

// CareDone is a step that was logged.
type CareDone struct {
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
}

// Batch is what came clean out of one wash of one item type, on its way back to
// service. What is released leaves it.
type Batch struct {
	Wash    uint64     `json:"wash"` // line of the wash
	At      time.Time  `json:"at"`
	By      string     `json:"by"`
	Item    string     `json:"item"`
	Name    string     `json:"name,omitzero"`
	Count   int        `json:"count"`
	Tags    Tags       `json:"tags,omitempty"`
	Steps   []CareStep `json:"steps"`
	Done    []CareDone `json:"done,omitempty"`   // the first of Steps
	Outside bool       `json:"outside,omitzero"` // washed outside the rule: no proper cleaning
	Hold    *Held      `json:"hold,omitzero"`    // kept from use
}

// Next is the step that comes next; false where all are done.
func (b Batch) Next() (CareStep, bool) {
	if n := len(b.Done); n < len(b.Steps) {
		return b.Steps[n], true
	}
	return CareStep{}, false
}

// Since is when the batch came to where it stands: its last step, or its wash.
func (b Batch) Since() time.Time {
	if d, ok := last(b.Done); ok {
		return d.At
	}
	return b.At
}

// Where is the step that comes next, ready, or held.
func (b Batch) Where() string {
	next, ok := b.Next()
	switch {
	case b.Hold != nil:
		return GearHeld
	case ok:
		return next.ID
	}
	return GearReady
}

// Say is what is in it: "Mask × 4".
func (b Batch) Say() string { return loadSay([]Load{{Item: b.Item, Name: b.Name, Count: b.Count}}) }

// missing names the steps that are not done, in their order.
func (b Batch) missing() string {
	var ids []string
	for _, s := range b.Steps[min(len(b.Done), len(b.Steps)):] {
		ids = append(ids, s.ID)
	}
	return strings.Join(ids, ", ")
}

// batchAt finds what was washed of an item in the wash of a line, or -1.
func (b *Bath) batchAt(wash uint64, item string) int {
	return slices.IndexFunc(b.Batches, func(x Batch) bool { return x.Wash == wash && x.is(item) })
}

func (b Batch) is(item string) bool {
	return strings.EqualFold(b.Item, item) || strings.EqualFold(b.Name, item)
}

// Waiting is the wash of the oldest batch of an item that waits for a step, or
// for its release where step is ""; 0 where none does.
func (b *Bath) Waiting(item, step string) uint64 {
	for _, x := range b.Batches {
		if next, _ := x.Next(); x.is(item) && next.ID == step {
			return x.Wash
		}
	}
	return 0
}

// Oldest is the line of the first wash that has any of an item still in care,
// for somebody who logs a step out of order; 0 where there is none.
func (b *Bath) Oldest(item string) uint64 {
	for _, x := range b.Batches {
		if x.is(item) {
			return x.Wash
		}
	}
	return 0
}

// batch finds what a line of care is about.
func (v view) batch(wash uint64, item string) (Batch, error) {
	if i := v.b.batchAt(wash, item); i >= 0 {
		return v.b.Batches[i], nil
	}
	if wash == 0 {
		return Batch{}, refuse("no-batch", "nothing called %s waits for care in bath %s: log its wash first", short(item), v.b.ID)
	}
	return Batch{}, refuse("no-batch", "no %s of line %d waits for care in bath %s: it is back in service, or that line is no clean wash of it", short(item), wash, v.b.ID)
}

// How long, and how many, batches are kept that nobody puts back in service.
// Where no step was logged in a week, nobody logs them; a tagged piece stays
// until it is released.
const (
	mostBatches  = 300
	begunStands  = 30 * 24 * time.Hour
	neverTouched = 7 * 24 * time.Hour
)

func (b Batch) stale(at time.Time) bool {
	stands := begunStands
	if len(b.Done) == 0 {
		stands = neverTouched
	}
	return len(b.Tags) == 0 && b.Hold == nil && at.Sub(b.At) > stands
}

// washed makes batches of what came clean out of a wash. An item without steps
// of care needs none.
func (b *Bath) washed(s *State, w *Wash, e Entry) {
	for _, l := range w.Items {
		if len(l.Care) == 0 || l.Never != "" {
			continue
		}
		b.Batches = append(b.Batches, Batch{
			Wash: e.Seq, At: e.At, By: e.By, Item: l.Item, Name: l.Name, Count: l.Count,
			Tags: s.tagsOf(w.Tags, l.Item), Steps: l.Care, Outside: len(w.Outside) > 0,
		})
	}
	b.Batches = slices.DeleteFunc(b.Batches, func(x Batch) bool { return x.stale(e.At) })
	b.Batches = b.Batches[max(0, len(b.Batches)-mostBatches):]
}

// tagsOf are those of the tags that are of an item, as they are registered.
func (s *State) tagsOf(tags Tags, item string) (of Tags) {
	for _, tag := range tags {
		if p, ok := s.Piece(tag); ok && p.Item == item && !of.has(tag) {
			of = append(of, p.Tag)
		}
	}
	return of
}

// takeOut takes n pieces, those with the tags among them, out of the batch at i.
func (b *Bath) takeOut(i, n int, tags Tags) {
	x := &b.Batches[i]
	x.Count -= n
	x.Tags = x.Tags.without(tags)
	if x.Count <= 0 {
		b.Batches = slices.Delete(b.Batches, i, i+1)
	}
}

// takeTagged takes a tagged piece out of whatever batch it is in: it is washed
// once more.
func (s *State) takeTagged(tag string) {
	for _, b := range s.Baths {
		for i := range slices.Backward(b.Batches) {
			if b.Batches[i].Tags.has(tag) {
				b.takeOut(i, 1, Tags{tag})
			}
		}
	}
}

// saidStep is a step of care as done.
var saidStep = map[string]string{
	"rinse": "rinsed", "disinfect": "disinfected", "dry": "dry", "inspect": "inspected", "refit": "put back together", "test": "tested",
}

// StepDone says that a step of care is done: "disinfected".
func StepDone(id string) string {
	if s, ok := saidStep[id]; ok {
		return s
	}
	return fmt.Sprintf("%s done", id)
}
