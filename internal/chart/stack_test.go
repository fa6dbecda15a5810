package chart

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// stacked is the readings with two more series on the same days. The data are
// invented.
func stacked(g Glyphs) Stack {
	at := on(11, 20)
	first := readings(g)
	first.Cursor = &at
	first.Paths = []Path{{
		X: []float64{on(11, 3), on(11, 10), on(11, 19), on(11, 29)}, Y: []float64{10.30, 10.22, 10.08, 9.90},
		Label: "before", Thin: true,
	}}
	warm := Plot{
		YFormat: func(v float64) string { return fmt.Sprintf("%g °F", v) },
		Lines: []Line{
			{Y: 122, Label: "set 122", From: on(11, 3), To: on(11, 17)},
			{Y: 118, Label: "set 118", From: on(11, 17), To: on(11, 26)},
		},
	}
	for i, f := range []float64{121, 122, 119, 118, 118} {
		warm.Points = append(warm.Points, Point{X: on(11, 4+5*i), Y: f})
	}
	high := Plot{
		YFormat: func(v float64) string { return fmt.Sprintf("%g gal", v) },
		Paths:   []Path{{X: []float64{on(11, 3), on(11, 20), on(11, 20), on(11, 26)}, Y: []float64{72, 69, 72, 71}}},
		Lines:   []Line{{Y: 58, Label: "low", Limit: true}},
	}
	return Stack{{Plot: first}, {Plot: warm, Head: "as measured", Rows: 4}, {Plot: high, Head: "about so high", Rows: 3}}
}

func TestStackGolden(t *testing.T) {
	for name, g := range sets {
		var b strings.Builder
		for _, s := range []struct{ w, h int }{{72, 24}, {40, 16}, {72, 12}} {
			fmt.Fprintf(&b, "%d x %d\n%s\n", s.w, s.h, text(stacked(g).Draw(s.w, s.h)))
		}
		t.Run(name, func(t *testing.T) { golden(t, "stack-"+name, b.String()) })
	}
}

// TestStackFillsEveryWindow also holds for a stack of nothing.
func TestStackFillsEveryWindow(t *testing.T) {
	for w := range 120 {
		for h := range 45 {
			countCells(t, stacked(Braille).Draw(w, h), w, h)
		}
	}
	countCells(t, Stack{}.Draw(30, 4), 30, 4)
	countCells(t, Stack{{}, {Rows: -3, Head: "nothing"}, {Rows: 9}}.Draw(30, 14), 30, 14)
	countCells(t, stacked(Braille).Draw(-1, -1), 0, 0)
}

// TestStackSharesItsColumns: whatever the layers hold, what is at one x stands in
// one column of all of them, and so does the cursor, on the axis too.
func TestStackSharesItsColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(1.79e9, 1.80e9)
		at := x.Draw(t, "at")
		s := make(Stack, rapid.IntRange(1, 4).Draw(t, "layers"))
		for i := range s {
			scale := rapid.SampledFrom([]float64{0.01, 1, 1e3, 1e6}).Draw(t, "scale") // labels of any width
			s[i].Rows = rapid.IntRange(3, 6).Draw(t, "rows")
			s[i].Points = []Point{
				{X: at, Y: scale * 3},
				{X: x.Draw(t, "x"), Y: scale * rapid.Float64Range(0, 9).Draw(t, "y"), Mark: Hollow},
			}
		}
		s[0].Glyphs, s[0].Cursor = Glyphs(rapid.IntRange(0, 2).Draw(t, "glyphs")), &at
		s[0].XTicks = Calendar(time.UTC)
		if rapid.Bool().Draw(t, "zoomed") {
			s[0].X0, s[0].X1 = at-rapid.Float64Range(1e3, 1e6).Draw(t, "before"), at+rapid.Float64Range(1e3, 1e6).Draw(t, "after")
		}
		const w, h = 90, 50
		rows := s.Draw(w, h)
		checkSize(t, rows, w, h)

		cursor := string(s[0].Glyphs.table().cursor)
		col := slices.Index(strings.Split(rows[h-2].String(), ""), cursor) // on the axis nothing hides it
		here := []string{cursor, s[0].Glyphs.Mark(Solid), s[0].Glyphs.Mark(Several)}
		for y, r := range rows[:h-1] {
			for c, cell := range strings.Split(r.String(), "") {
				switch {
				case c != col && slices.Contains(here, cell):
					t.Fatalf("row %d: %q stands in column %d, the cursor on the axis in %d:\n%s", y, cell, c, col, text(rows))
				case c == col && cell != s[0].Glyphs.Mark(Hollow) && !slices.Contains(here, cell):
					t.Fatalf("row %d: the cursor's column shows %q:\n%s", y, cell, text(rows))
				}
			}
		}
	})
}

// TestOnlyWhatIsInsideCounts: a plot of a part of x shows nothing of the rest, and
// is scaled to the part, the pieces of curves and lines in it among the rest.
func TestOnlyWhatIsInsideCounts(t *testing.T) {
	outside := rapid.OneOf(rapid.Float64Range(-100, -0.5), rapid.Float64Range(10.5, 100))
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(0, 40).Draw(t, "low")
		inside := Plot{
			Points: []Point{{X: rapid.Float64Range(0, 10).Draw(t, "x"), Y: low, Err: 1}},
			Paths:  []Path{{X: []float64{1, 9}, Y: []float64{low, low + 5}}},
			Bands:  []Band{{X: []float64{2, 9}, Lo: []float64{low, low}, Hi: []float64{low + 2, low + 3}}},
			X0:     0, X1: 10,
		}
		all := inside
		far := 1000 * rapid.Float64Range(-1, 1).Draw(t, "far")
		for range rapid.IntRange(1, 5).Draw(t, "others") {
			all.Points = append(all.Points, Point{X: outside.Draw(t, "beyond"), Y: far, Err: 3, Label: "x"})
		}
		all.Lines = append(all.Lines, Line{Y: far, From: 11, To: 30, Label: "x"}, Line{Y: far, From: -30, To: -1})
		all.Events = []Event{{X: outside.Draw(t, "event"), Label: "x"}}
		all.Paths = append(all.Paths, Path{X: []float64{-50, -20}, Y: []float64{far, -far}, Thin: true, Label: "x"})
		all.Bands = append(all.Bands, Band{X: []float64{11, 20}, Lo: []float64{far, far}, Hi: []float64{far + 1, far + 1}})
		// A column is less than a unit wide: what is half of one outside is not in it.
		w, h := rapid.IntRange(30, 80).Draw(t, "w"), rapid.IntRange(1, 30).Draw(t, "h")
		if diff := cmp.Diff(text(inside.Draw(w, h)), text(all.Draw(w, h))); diff != "" {
			t.Fatalf("what lies outside changes the drawing (-without +with):\n%s", diff)
		}
	})
}

// TestCurvesAreFollowedToTheEdge: where only a piece between two corners shows,
// the range fits that piece.
func TestCurvesAreFollowedToTheEdge(t *testing.T) {
	p := Plot{Paths: []Path{{X: []float64{0, 100}, Y: []float64{0, 1000}}}, X0: 50, X1: 60}
	if y, _ := p.ySpan(span{50, 60}); y != (span{500, 600}) {
		t.Errorf("y is shown from %v to %v, want 500 to 600", y.lo, y.hi)
	}
}
