package bath_test

import (
	"pgregory.net/rapid"

	"bathside/internal/bath"
)

// anyCare is what the next line may say of gear: a piece of it, or a step for
// what is in care.
func (b *book) anyCare(t *rapid.T) bath.Body {
	tag := rapid.SampledFrom([]string{"M-1", "M-2", "P-1"}).Draw(t, "tag")
	item := rapid.SampledFrom([]string{"mask", "pack"}).Draw(t, "item")
	switch rapid.SampledFrom([]bath.Kind{"gear", "wash", "care", "care", "care", "ready", "gear-hold", "gear-release", "inspect", "hold"}).Draw(t, "care") {
	case "gear":
		return &bath.Gear{Tag: tag, Item: map[byte]string{'M': "mask", 'P': "pack"}[tag[0]]}
	case "wash":
		w := careWash()
		if rapid.Bool().Draw(t, "tagged") {
			w.Tags = bath.Tags{tag}
		}
		w.Result = rapid.SampledFrom([]string{bath.ResultClean, bath.ResultClean, bath.ResultAgain, bath.ResultDamaged}).Draw(t, "result")
		return w
	case "ready":
		r := &bath.Ready{Item: item, Wash: b.anyInCare(t), Serial: tag, Findings: "none", Action: "none"}
		r.KeptOut = rapid.Bool().Draw(t, "kept out")
		return r
	case "gear-hold":
		return &bath.GearHold{Tag: tag, Why: "x"}
	case "gear-release":
		return &bath.GearRelease{Wash: b.anyInCare(t), Why: "x"}
	case "inspect":
		return &bath.Inspect{Tags: bath.Tags{tag}, Findings: "none", Action: "none"}
	case "hold":
		return &bath.Hold{Cause: bath.HoldContaminated, Why: "x", Wash: b.anyInCare(t)}
	}
	return b.anyStep(t)
}

// anyInCare is the line of a wash that has something in care, or 0.
func (b *book) anyInCare(t *rapid.T) uint64 {
	if batches := b.state.Baths[0].Batches; len(batches) > 0 {
		return rapid.SampledFrom(batches).Draw(t, "batch").Wash
	}
	return 0
}

// anyStep is the next step of a batch, where there is one.
func (b *book) anyStep(t *rapid.T) bath.Body {
	batches := b.state.Baths[0].Batches
	if len(batches) == 0 {
		return careWash()
	}
	x := rapid.SampledFrom(batches).Draw(t, "batch")
	next, _ := x.Next()
	c := step(x.Wash, next.ID)
	c.Item, c.Tester = x.Item, "a technician"
	return c
}
