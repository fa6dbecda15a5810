package chart

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var rewrite = flag.Bool("rewrite", false, "rewrite the golden files")

var sets = map[string]Glyphs{"braille": Braille, "block": Block, "ascii": ASCII}

// on returns a day of the sample's year at the hour its readings are taken.
func on(m time.Month, day int) float64 {
	return float64(time.Date(2026, m, day, 6, 40, 0, 0, time.UTC).Unix())
}

// readings is a plot with everything in it. The data are invented.
func readings(g Glyphs) Plot {
	p := Plot{
		Glyphs: g,
		XTicks: Calendar(time.UTC),
		Lines:  []Line{{Y: 10.24, Label: "baseline 10.24"}, {Y: 9.74, Label: "limit 9.74", Limit: true}},
		Events: []Event{{X: on(11, 18), Mark: Dose, Label: "+1 gal"}},
		Bands: []Band{
			{X: []float64{on(11, 26), on(12, 9)}, Lo: []float64{9.93, 9.70}, Hi: []float64{9.97, 9.86}},
			{X: []float64{on(11, 26), on(12, 9)}, Lo: []float64{9.945, 9.755}, Hi: []float64{9.955, 9.805}},
		},
	}
	for i, y := range []float64{10.24, 10.20, 10.16, 10.15, 10.12, 10.08, 10.05, 10.02} {
		p.Points = append(p.Points, Point{X: on(11, 3+2*i), Y: y})
	}
	p.Points = append(p.Points,
		Point{X: on(11, 20), Y: 10.12},
		Point{X: on(11, 21), Y: 10.05, Mark: Hollow},
		Point{X: on(11, 23), Y: 10.05},
		Point{X: on(11, 23), Y: 10.05, Mark: Hollow},
		Point{X: on(11, 26), Y: 9.95, Err: 0.07, Label: "9.95 ±0.07"})
	return p
}

// warming is a plot of one curve and one line: a bath coming up to heat.
func warming(g Glyphs) Plot {
	p := Plot{
		Glyphs:  g,
		Lines:   []Line{{Y: 118, Label: "ready"}},
		YFormat: func(v float64) string { return fmt.Sprintf("%g °F", v) },
	}
	var curve Path
	for i := range 100 {
		curve.X = append(curve.X, float64(2*i))
		curve.Y = append(curve.Y, 122-60/(1+float64(i)/10))
	}
	p.Paths = []Path{curve}
	return p
}

func text(rows []Row) string {
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(r.String() + "\n")
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	sizes := []struct{ w, h int }{{48, 14}, {60, 8}, {110, 30}, {30, 6}}
	for name, g := range sets {
		var b strings.Builder
		for _, s := range sizes {
			for _, p := range []Plot{readings(g), warming(g)} {
				fmt.Fprintf(&b, "%d x %d\n%s\n", s.w, s.h, text(p.Draw(s.w, s.h)))
			}
		}
		t.Run(name, func(t *testing.T) { golden(t, name, b.String()) })
	}
	t.Run("empty", func(t *testing.T) { golden(t, "empty", text(Plot{}.Draw(40, 11))) })
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".golden")
	if *rewrite {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("drawing changed (-want +got; -rewrite accepts it):\n%s", diff)
	}
}

func checkSize(t interface{ Fatalf(string, ...any) }, rows []Row, w, h int) {
	if len(rows) != h {
		t.Fatalf("%d x %d: got %d rows, want %d", w, h, len(rows), h)
	}
	for i, r := range rows {
		s := r.String()
		if byRune, whole := narrow.StringWidth(s), ansi.StringWidth(s); byRune != w || whole != w {
			t.Fatalf("%d x %d: row %d is %d cells wide by runes, %d by characters: %q", w, h, i, byRune, whole, s)
		}
	}
}

// TestFillsEveryWindow counts runes, which is enough for a plot of our own:
// TestGlyphsTakeOneCell has measured them.
func TestFillsEveryWindow(t *testing.T) {
	for name, g := range sets {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := readings(g)
			p.Paths = []Path{{X: []float64{on(11, 3), on(11, 26)}, Y: []float64{10.24, 9.95}}}
			for w := range 161 {
				for h := range 51 {
					countCells(t, p.Draw(w, h), w, h)
				}
			}
		})
	}
	countCells(t, readings(Braille).Draw(-3, -1), 0, 0)
}

func countCells(t *testing.T, rows []Row, w, h int) {
	if len(rows) != h {
		t.Fatalf("%d x %d: got %d rows", w, h, len(rows))
	}
	for y, r := range rows {
		n := 0
		for _, s := range r {
			n += utf8.RuneCountInString(s.Text)
		}
		if n != w {
			t.Fatalf("%d x %d: row %d has %d cells: %q", w, h, y, n, r)
		}
	}
}

// TestFillsWindowWithAnyData draws what no caller should ask for.
func TestFillsWindowWithAnyData(t *testing.T) {
	number := rapid.OneOf(
		rapid.Float64(), rapid.Float64Range(-100, 100), rapid.Float64Range(1.7e9, 1.8e9),
		rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.Inf(-1), 1e100, -1e100, 5e-324, 1e9}))
	numbers := rapid.SliceOfN(number, 0, 5)
	mark := rapid.Map(rapid.IntRange(-1, 8), func(i int) Mark { return Mark(i) })
	label := rapid.StringN(0, 12, -1)
	rapid.Check(t, func(t *rapid.T) {
		p := Plot{
			Glyphs: Glyphs(rapid.IntRange(-1, 3).Draw(t, "glyphs")),
			Lines: []Line{
				{Y: number.Draw(t, "line"), Label: label.Draw(t, "line label")},
				{Y: number.Draw(t, "short line"), From: number.Draw(t, "from"), To: number.Draw(t, "to"), Label: label.Draw(t, "its label")},
			},
			Events: []Event{{number.Draw(t, "event"), mark.Draw(t, "event mark"), label.Draw(t, "event label")}},
			Bands:  []Band{{numbers.Draw(t, "band x"), numbers.Draw(t, "lo"), numbers.Draw(t, "hi")}},
			Paths: []Path{{X: numbers.Draw(t, "path x"), Y: numbers.Draw(t, "path y"),
				Label: label.Draw(t, "path label"), Thin: rapid.Bool().Draw(t, "thin")}},
			Cursor: new(number.Draw(t, "cursor")),
			X0:     number.Draw(t, "x0"), X1: number.Draw(t, "x1"),
			Y0: number.Draw(t, "y0"), Y1: number.Draw(t, "y1"),
		}
		for range rapid.IntRange(0, 4).Draw(t, "points") {
			p.Points = append(p.Points, Point{number.Draw(t, "x"), number.Draw(t, "y"),
				number.Draw(t, "err"), mark.Draw(t, "mark"), label.Draw(t, "label")})
		}
		if rapid.Bool().Draw(t, "calendar") {
			p.XTicks = Calendar(time.UTC)
		}
		w, h := rapid.IntRange(0, 120).Draw(t, "w"), rapid.IntRange(0, 40).Draw(t, "h")
		checkSize(t, p.Draw(w, h), w, h)
	})
}

// BenchmarkDraw prints how many times as long a large chart takes as building
// the same rows from nothing but blanks.
func BenchmarkDraw(b *testing.B) {
	p := readings(Braille)
	p.Paths = []Path{{X: []float64{on(11, 3), on(11, 26)}, Y: []float64{10.24, 9.95}}}
	b.ReportAllocs()
	for b.Loop() {
		p.Draw(110, 30)
	}
	drawn := b.Elapsed()
	start := time.Now()
	for range b.N {
		newGrid(110, 30).rows()
	}
	b.ReportMetric(float64(drawn)/float64(time.Since(start)), "x-blank")
}
