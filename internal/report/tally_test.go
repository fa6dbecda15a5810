package report

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"bathside/assets"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/units"
)

func items(t testing.TB) []catalog.Item {
	t.Helper()
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return cat.Items
}

func TestWriteTally(t *testing.T) {
	all := states(t)
	si := inUse().look(t, "26 06:52")
	si.Sys = units.SI
	all["si"] = si
	for _, name := range []string{"new", "over", "si"} {
		t.Run(name, func(t *testing.T) {
			got := written(t, func(b *bytes.Buffer) error { return WriteTally(b, all[name], items(t), seal) })
			golden(t, "tally-"+name+".golden", got)
			checkPages(t, string(got))
		})
	}
}

// checkPages holds that every sheet of paper says where it belongs, fits, and
// needs no letter that a printer may lack.
func checkPages(t *testing.T, s string) {
	t.Helper()
	pages := strings.Split(s, "\f")
	for i, page := range pages {
		lines := strings.Split(strings.TrimSuffix(page, "\n"), "\n")
		if len(lines) > 60 { // 11 in at 6 lines to the inch are 66, less a margin
			t.Errorf("page %d has %d lines", i+1, len(lines))
		}
		if !strings.Contains(lines[0], "Bath tally") || !strings.HasSuffix(lines[0], fmt.Sprintf("page %d of %d", i+1, len(pages))) {
			t.Errorf("page %d begins with %q", i+1, lines[0])
		}
	}
	if i := strings.IndexFunc(s, func(r rune) bool { return r > unicode.MaxASCII }); i >= 0 {
		t.Errorf("not ASCII: %q", s[i:min(i+20, len(s))])
	}
}

func TestARedTagIsOnEveryPage(t *testing.T) {
	got := written(t, func(b *bytes.Buffer) error { return WriteTally(b, states(t)["over"], items(t), seal) })
	for i, page := range strings.Split(string(got), "\f") {
		if !strings.Contains(page, "DO NOT USE, tagged by Amari Boone 06:45") {
			t.Errorf("page %d does not say so", i+1)
		}
	}
}

func TestManyItemsAndALongTagStillFit(t *testing.T) {
	b := inUse().add("26 06:45", "Amari Boone", &bath.Hold{Cause: bath.HoldOther, Why: strings.Repeat("it smells odd and ", 300)})
	x := b.look(t, "26 06:52")
	got := written(t, func(b *bytes.Buffer) error { return WriteTally(b, x, slices.Repeat(items(t), 12), seal) })
	checkText(t, string(got))
	checkPages(t, string(got))
}

func TestABlockGoesOnTheNextPageWhole(t *testing.T) {
	s := sheet{title: "t", head: []string{"head"}}
	block := func(n int) []string { return slices.Repeat([]string{"x"}, n) }
	s.add(block(40)...)
	s.add(block(30)...) // 1 + 1 + 40 + 30 is more than a page
	s.newPage()
	s.add(block(100)...)
	var got []int
	for _, page := range s.pages {
		got = append(got, len(page)-len(s.head))
	}
	if diff := cmp.Diff([]int{40, 30, 58, 42}, got); diff != "" {
		t.Errorf("lines on each page (-want +got):\n%s", diff)
	}
}

func TestActAt(t *testing.T) {
	// The limit, 0.5 below the first reading, is common practice, no source. By
	// hand: 10.42 - 0.50 = 9.92; 121 °F - 3 °C = 115.6 °F, 121 °F + 3 °C = 126.4 °F;
	// 49.44 - 3 = 46.4 °C, 49.44 + 3 = 52.4 °C. Rounded inward, to whole degrees.
	for name, c := range map[string]struct {
		book *book
		sys  units.System
		want string
	}{
		"two cups":   {inUse(), units.US, "9.92 or lower, read between 116 °F and 126 °F; or 10.43 or lower, read between 68 °F and 78 °F"},
		"in SI":      {inUse(), units.SI, "9.92 or lower, read between 47 °C and 52 °C; or 10.43 or lower, read between 20 °C and 25 °C"},
		"none named": {setUp(), units.US, "0.50 below the first reading, which was ________ at ________"},
	} {
		t.Run(name, func(t *testing.T) {
			x := c.book.look(t, "26 06:52")
			x.Sys = c.sys
			if got := actAt(x); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

func TestHottest(t *testing.T) {
	// 110 °F is 43.3 °C and 125 °F is 51.6 °C (NIST SP 811, B.8: (F - 32)/1.8).
	limit := func(s string) catalog.Limit {
		c, err := units.Parse[units.Temperature](s)
		if err != nil {
			t.Fatal(err)
		}
		return catalog.Limit{At: c, Printed: s}
	}
	for name, c := range map[string]struct {
		sys  units.System
		at   string
		want string
	}{
		"as printed":              {units.US, "110 F", "110 F"},
		"never rounded up":        {units.SI, "125 F", "125 F, 51 °C"},
		"in the other degrees":    {units.SI, "110 F", "110 F, 43 °C"},
		"never above the ceiling": {units.US, "60 C", "130 F"},
		"source in degrees C":     {units.US, "45 C", "45 C, 113 °F"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := hottest(c.sys, limit(c.at)); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
