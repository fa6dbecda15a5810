package catalog_test

import (
	"errors"
	"strings"
	"testing"

	"bathside/internal/catalog"

	"github.com/google/go-cmp/cmp"
)

func TestItemByAnyName(t *testing.T) {
	c := load(t)
	tests := []struct{ name, want string }{
		{"mask", "mask"},
		{"Masks", "mask"},
		{" MASK ", "mask"},
		{"harness pack", "pack"},
		{"harness-pack", "pack"},
		{"Air  Pack_Frame", "pack"},
		{"bottle", "cylinder"},
		{"flat-head axe", "axe"},
		{"pry bar", "tool"},
		{"gas key", "irons"},
		{"hose coupling", "coupling"},
		{"headband", "soft-parts"},
		{"carabiner", "rope-hardware"},
		{"hand light, sealed", "light"},
		{"adapter", "fitting"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			item, err := c.Item(tt.name)
			if err != nil || item.ID != tt.want {
				t.Errorf("got %q, %v, want %q", item.ID, err, tt.want)
			}
		})
	}
}

func TestUnknownItemNamesTheNearest(t *testing.T) {
	c := load(t)
	tests := []struct {
		name    string
		nearest []string
	}{
		{"helmut", []string{"helmet"}},
		{"msk", []string{"mask"}},
		{"cilinder", []string{"cylinder"}},
		{"nozle", []string{"nozzle"}},
		{"harnes pak", []string{"pack"}},
		{"regulater", []string{"regulator"}}, // which is answered too
		{"", nil},
		{"saxophone", nil},
		{"héлmet\x1b[2J", nil},
		{strings.Repeat("mask", 100000), nil},
	}
	for _, tt := range tests {
		t.Run(tt.name[:min(len(tt.name), 20)], func(t *testing.T) {
			_, err := c.Item(tt.name)
			var unknown *catalog.UnknownError
			if !errors.As(err, &unknown) {
				t.Fatalf("got %v, want an UnknownError", err)
			}
			if diff := cmp.Diff(tt.nearest, unknown.Nearest); diff != "" {
				t.Error("(-want +got)", diff)
			}
			if text := err.Error(); len(text) > 300 || strings.ContainsRune(text, 0x1b) {
				t.Errorf("not safe to print: %q", text)
			}
		})
	}
}

func TestUnknownErrorSentences(t *testing.T) {
	c := load(t)
	tests := []struct{ name, want string }{
		{"helmut", `no item type "helmut"; nearest: helmet`},
		{"saxophone", `no item type "saxophone"; there are: axe, coupling, cylinder, fitting, helmet, irons, light, mask, nozzle, pack, rope-hardware, soft-parts, tool`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := c.Item(tt.name); err == nil || err.Error() != tt.want {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
	const want = `no soap type "silicat"; nearest: silicate`
	if _, err := c.Detergent("silicat"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %v", err, want)
	}
	if soap, err := c.Detergent("SILICATE"); err != nil || soap.ID != "silicate" {
		t.Errorf("got %q, %v, want silicate", soap.ID, err)
	}
}

// Hose and soft goods are not covered, and whoever asks is told so.
func TestExcludedSaysWhatToDo(t *testing.T) {
	c := load(t)
	for name, want := range map[string]string{
		"hose": "Not in the bath: hose, because it has its own washing, which this program does not cover. " +
			"Do this: wash it with the hose washer or by hand; nozzles, couplings and fittings may go in without it. Wake the gear officer if in doubt.",
		"Radio": "Not in the bath: radios, because water kills electronics and batteries. " +
			"Do this: wipe them by hand as their maker says. Wake the gear officer if one went under.",
		"regulator body": "Not in the bath: regulators, because they must stay dry inside and only a technician opens them. " +
			"Do this: wipe them as their maker says. Wake the gear officer if water got in.",
		"Gloves":              "Not in the bath: soft goods, ",
		"leather front piece": "Not in the bath: leather parts, ",
		"battery":             "Not in the bath: electronics, ",
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.Item(name)
			var out *catalog.ExcludedError
			if !errors.As(err, &out) {
				t.Fatalf("got %v, want an ExcludedError", err)
			}
			if !strings.HasPrefix(err.Error(), want) {
				t.Errorf("got  %s\nwant %s", err, want)
			}
		})
	}
}
