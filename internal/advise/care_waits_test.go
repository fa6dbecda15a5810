package advise_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// Source: 29 CFR 1910.134 App. B-2 (2 min, 50 ppm); a certificate by
// 29 CFR 1910.134(h)(3)(iv), by WAC 296-307-61015.
func TestCareWaits(t *testing.T) {
	rinse := func(item, say string) advise.Action {
		return advise.Action{Kind: "care", Say: say + ": rinse", Preset: map[string]string{"item": item, "wash": "12", "step": "rinse"}}
	}
	helmet := rinse("helmet", "Helmet shell × 1")
	rinsed := careStep(washedOff(), "mask", "rinse")
	done := careStep(rinsed, "mask", "disinfect")
	for _, c := range []struct {
		name string
		book book
		wash uint64
		want []advise.Action
	}{
		{"nothing washed", inService(), 0, nil},
		{"another wash", washedOff(), 11, nil},
		{"fresh from the bath", washedOff(), washLine, []advise.Action{rinse("mask", "Mask × 3"), helmet}},
		{"masks rinsed: time and strength are asked", rinsed, washLine, []advise.Action{
			{Kind: "care", Say: "Mask × 3: disinfect", Why: "2 min at least, 50 ppm", Preset: map[string]string{"item": "mask", "wash": "12", "step": "disinfect", "time": "", "ppm": ""}}, helmet,
		}},
		{"masks done: the certificate is asked", done, 0, []advise.Action{
			{Kind: "ready", Say: "Mask × 3: back in service", Preset: map[string]string{"item": "mask", "wash": "12", "serial": "", "findings": "", "action": ""}}, helmet,
		}},
		{"masks back", done.add("8 18:30", &bath.Ready{Item: "mask", Wash: washLine}), 0, []advise.Action{helmet}},
		{"held", washedOff().add("8 18:16", &bath.GearHold{Wash: washLine, Why: "smells of fuel"}), 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, c.book.look(t, "8 18:40").CareWaits(c.wash)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}
