package station_test

import (
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/demo"
)

type zwire[B any] struct {
	Seq    uint64    `json:"seq"`
	ID     string    `json:"id"`
	At     time.Time `json:"at"`
	Logged time.Time `json:"logged"`
	By     string    `json:"by"`
	Bath   string    `json:"bath,omitzero"`
	Body   B         `json:"body"`
}
type zw struct {
	Wash  []zwire[*bath.Wash]
	Temp  []zwire[*bath.Temp]
	Other []bath.Entry
}

func BenchmarkZZ(b *testing.B) {
	path := filepath.Join(b.TempDir(), "large")
	if err := demo.BuildLarge(path, 54_400, noon, shipped()); err != nil {
		b.Fatal(err)
	}
	st := stateOf(b, open(b, path))
	plain, _ := json.Marshal(st.Baths[0].Entries)
	var z zw
	for _, e := range st.Baths[0].Entries {
		switch x := e.Body.(type) {
		case *bath.Wash:
			z.Wash = append(z.Wash, zwire[*bath.Wash]{e.Seq, e.ID, e.At, e.Logged, e.By, e.Bath, x})
		case *bath.Temp:
			z.Temp = append(z.Temp, zwire[*bath.Temp]{e.Seq, e.ID, e.At, e.Logged, e.By, e.Bath, x})
		default:
			z.Other = append(z.Other, e)
		}
	}
	typed, _ := json.Marshal(z)
	b.Logf("%d %d other %d", len(plain), len(typed), len(z.Other))
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			var es []bath.Entry
			if err := json.Unmarshal(plain, &es); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("typed", func(b *testing.B) {
		for b.Loop() {
			var x zw
			if err := json.Unmarshal(typed, &x); err != nil {
				b.Fatal(err)
			}
		}
	})
}
