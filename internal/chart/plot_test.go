package chart

import (
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// grid10 is a plot whose cells are its units: with a y label of one figure and
// an axis, ten columns show x 0 to 9 from left to right, and four rows y 3 to 0.
func grid10(p Plot) []string {
	p.X0, p.X1, p.Y0, p.Y1 = 0, 9, 0, 3
	p.YFormat = func(float64) string { return "" }
	p.XTicks = func(float64, float64, int) []Tick { return nil }
	rows := strings.Split(strings.TrimSuffix(text(p.Draw(11, 5)), "\n"), "\n")
	for i, r := range rows {
		rows[i] = strings.TrimRight(r, " ")
	}
	return rows[:4]
}

// TestDraw is drawn by hand.
func TestDraw(t *testing.T) {
	tests := []struct {
		name string
		plot Plot
		want []string
	}{
		{
			"points",
			Plot{Points: []Point{{X: 0, Y: 3}, {X: 9, Y: 0, Mark: Hollow}, {X: 4.4, Y: 1.6}}},
			[]string{"│●", "│    ●", "│", "│         ○"},
		},
		{
			"coinciding points stay visible",
			Plot{Points: []Point{{X: 3, Y: 1}, {X: 3, Y: 1, Mark: Hollow}, {X: 5, Y: 1, Mark: Hollow}, {X: 5.1, Y: 1}}},
			[]string{"│", "│", "│   ◉ ◉", "│"},
		},
		{
			"a bar does not hide another point",
			Plot{Points: []Point{{X: 3, Y: 2}, {X: 3, Y: 1, Err: 1.5}}},
			[]string{"│", "│   ●", "│   ●", "│   │"},
		},
		{
			"half cells of a bar",
			Plot{Points: []Point{{X: 3, Y: 2, Err: 1}, {X: 5, Y: 2, Err: 0.4}}},
			[]string{"│   ╷", "│   ● ●", "│   ╵", "│"},
		},
		{
			"points over a line, a line over a band",
			Plot{
				Points: []Point{{X: 3, Y: 1}},
				Lines:  []Line{{Y: 1}},
				Bands:  []Band{{X: []float64{2, 5}, Lo: []float64{0, 0}, Hi: []float64{2, 2}}},
			},
			[]string{"│", "│  ░░░░", "┼───●──────", "│  ░░░░"},
		},
		{
			"a band darker inside a band",
			Plot{Bands: []Band{
				{X: []float64{1, 8}, Lo: []float64{0, 0}, Hi: []float64{3, 3}},
				{X: []float64{3, 6}, Lo: []float64{1, 1}, Hi: []float64{2, 2}},
			}},
			[]string{"│ ░░░░░░░░", "│ ░░▒▒▒▒░░", "│ ░░▒▒▒▒░░", "│ ░░░░░░░░"},
		},
		{
			"a thin band shows",
			Plot{Bands: []Band{{X: []float64{2, 4}, Lo: []float64{1.2, 1.2}, Hi: []float64{1.3, 1.3}}}},
			[]string{"│", "│", "│  ░░░", "│"},
		},
		{
			"a band upside down does not",
			Plot{Bands: []Band{{X: []float64{2, 4}, Lo: []float64{2, 2}, Hi: []float64{1, 1}}}},
			[]string{"│", "│", "│", "│"},
		},
		{
			"a line's label stands on it",
			Plot{Lines: []Line{{Y: 2, Label: "hot"}}},
			[]string{"│", "┼────── hot", "│", "│"},
		},
		{
			"and moves away from a point",
			Plot{Lines: []Line{{Y: 2, Label: "hot"}}, Points: []Point{{X: 8, Y: 2}}},
			[]string{"│", "┼─── hot ●─", "│", "│"},
		},
		{
			"and above the line if need be",
			Plot{Lines: []Line{{Y: 2, Label: "hot"}}, Points: []Point{{X: 1, Y: 2}, {X: 4, Y: 2}, {X: 8, Y: 2}}},
			[]string{"│       hot", "┼─●──●───●─", "│", "│"},
		},
		{
			"a label too long is left out whole",
			Plot{Lines: []Line{{Y: 2, Label: "much too hot"}}},
			[]string{"│", "┼──────────", "│", "│"},
		},
		{
			"a point's label to its right",
			Plot{Points: []Point{{X: 1, Y: 1, Label: "9.95"}}},
			[]string{"│", "│", "│ ● 9.95", "│"},
		},
		{
			"or above it",
			Plot{Points: []Point{{X: 7, Y: 1, Label: "9.95"}}},
			[]string{"│", "│     9.95", "│       ●", "│"},
		},
		{
			"an event",
			Plot{Events: []Event{{X: 2, Mark: Dose, Label: "+1"}}, Lines: []Line{{Y: 1}}},
			[]string{"│  ▲ +1", "│  ┊", "┼──┊───────", "│  ┊"},
		},
		{
			"an event below a point, its label at the left",
			Plot{Events: []Event{{X: 8, Mark: Drain, Label: "out"}}, Points: []Point{{X: 8, Y: 3}}},
			[]string{"│        ●", "│    out ▼", "│        ┊", "│        ┊"},
		},
		{
			"two events in a column",
			Plot{Events: []Event{{X: 2, Mark: Dose}, {X: 2, Mark: Drain}}},
			[]string{"│  ▲", "│  ▼", "│  ┊", "│  ┊"},
		},
		{
			// The middle of a cell is the edge of its right and lower dots.
			"a level curve, in the middle of its row",
			Plot{Paths: []Path{{X: []float64{1, 4}, Y: []float64{1, 1}}}},
			[]string{"│", "│", "│ ⠠⠤⠤⠤", "│"},
		},
		{
			"a broken curve",
			Plot{Paths: []Path{{X: []float64{1, 2, 3, 4, 5}, Y: []float64{1, 1, math.NaN(), 1, 1}}}},
			[]string{"│", "│", "│ ⠠⠤ ⠠⠤", "│"},
		},
		{
			"a curve that leaves and comes back",
			Plot{Paths: []Path{{X: []float64{4, 4}, Y: []float64{-1e9, 1e9}}}},
			[]string{"│    ⢸", "│    ⢸", "│    ⢸", "│    ⢸"},
		},
		{
			"a curve in blocks",
			Plot{Glyphs: Block, Paths: []Path{{X: []float64{0, 9}, Y: []float64{0, 3}}}},
			[]string{"│        ▄▄", "│     ▄▄▀", "│  ▄▄▀", "│▄▀"},
		},
		{
			"a line that runs for a while, its label on it",
			Plot{Lines: []Line{{Y: 2, From: 2, To: 8, Label: "hot"}, {Y: 1, From: 12, To: 20}, {Y: 0, From: -5, To: 1}}},
			[]string{"│", "│  ─── hot", "│", "│──"},
		},
		{
			"a thin curve is dashed, its corners marked and its end named",
			Plot{Paths: []Path{{X: []float64{0, 6}, Y: []float64{1, 1}, Thin: true, Label: "old"}}},
			[]string{"│", "│     old", "│+⠤  ⠤⠤+", "│"},
		},
		{
			"values lie over a thin curve",
			Plot{
				Points: []Point{{X: 0, Y: 1}},
				Paths:  []Path{{X: []float64{3, 9}, Y: []float64{1, 1}}, {X: []float64{0, 6}, Y: []float64{1, 1}, Thin: true}},
			},
			[]string{"│", "│", "│●⠤ ⠠⠤⠤⠤⠤⠤⠤", "│"},
		},
		{
			"a cursor hides nothing and moves no label",
			Plot{
				Points: []Point{{X: 4, Y: 1, Err: 0.6}},
				Lines:  []Line{{Y: 3, Label: "set"}, {Y: 0}},
				Cursor: new(4.0),
			},
			[]string{"┼────┃─ set", "│    ┃", "│    ●", "┼────┃─────"},
		},
		{
			"a cursor outside does not show",
			Plot{Points: []Point{{X: 4, Y: 1}}, Cursor: new(12.0)},
			[]string{"│", "│", "│    ●", "│"},
		},
		{
			"what is no number, or outside, is left out",
			Plot{
				Points: []Point{{X: math.NaN(), Y: 1}, {X: 1, Y: math.Inf(1)}, {X: 10, Y: 1}, {X: 1, Y: -1}, {X: 1, Y: 1, Err: math.NaN()}},
				Lines:  []Line{{Y: math.NaN()}, {Y: 7}},
				Events: []Event{{X: math.Inf(-1)}, {X: 12}},
			},
			[]string{"│", "│", "│ ●", "│"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, grid10(tt.plot)); diff != "" {
				t.Errorf("drawing (-want +got):\n%s", diff)
			}
		})
	}
}

func TestRoles(t *testing.T) {
	p := Plot{
		Points: []Point{{X: 2, Y: 2}, {X: 4, Y: 2, Mark: Hollow, Label: "b"}},
		Lines:  []Line{{Y: 0, Label: "max", Limit: true}},
		X0:     0, X1: 11, Y0: 0, Y1: 2,
	}
	got := p.Draw(15, 4)
	want := []Row{
		{{"2", RoleTick}, {" ", RoleBlank}, {"┤", RoleAxis}, {"  ", RoleBlank}, {"●", RolePoint}, {" ", RoleBlank},
			{"○", RoleHollow}, {" ", RoleBlank}, {"b", RoleLabel}, {"     ", RoleBlank}},
		{{"  ", RoleBlank}, {"│", RoleAxis}, {strings.Repeat(" ", 12), RoleBlank}},
		{{"0", RoleTick}, {" ", RoleBlank}, {"┼", RoleAxis}, {"────────", RoleLimit}, {" ", RoleBlank}, {"max", RoleLabel}},
		{{"  ", RoleBlank}, {"└", RoleAxis}, {"0", RoleTick}, {strings.Repeat(" ", 9), RoleBlank}, {"10", RoleTick}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
}

// TestXLabelsStandApart: in every width each label of the foot is whole, and two
// blanks from the next.
func TestXLabelsStandApart(t *testing.T) {
	whole := regexp.MustCompile(`^(\d{1,2}|\d{1,2} Nov|\d{1,2} Dec|Nov|Dec)$`)
	most := 0
	for w := range 161 {
		rows := readings(Braille).Draw(w, 14)
		labels := regexp.MustCompile(` {2,}`).Split(strings.TrimSpace(rows[13].String()), -1)
		if labels[0] == "" {
			continue // no room for any
		}
		most = max(most, len(labels))
		for _, l := range labels {
			if !whole.MatchString(l) {
				t.Errorf("width %d: label %q", w, l)
			}
		}
	}
	if most < 5 {
		t.Errorf("never more than %d labels", most)
	}
}

// TestEveryPointShows: whatever else is drawn, a cell with a point shows it, in
// a range fitted to the data.
func TestEveryPointShows(t *testing.T) {
	short := rapid.StringMatching(`[a-z]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		p := Plot{Glyphs: Glyphs(rapid.IntRange(0, 2).Draw(t, "glyphs")), XTicks: Calendar(time.UTC)}
		value := rapid.Float64Range(8, 12)
		for range rapid.IntRange(1, 30).Draw(t, "points") {
			p.Points = append(p.Points, Point{
				X: rapid.Float64Range(1.79e9, 1.80e9).Draw(t, "x"), Y: value.Draw(t, "y"),
				Err: rapid.Float64Range(0, 1).Draw(t, "err"), Label: short.Draw(t, "label"),
			})
		}
		p.Lines = []Line{{Y: value.Draw(t, "line"), Label: short.Draw(t, "line label")}}
		p.Events = []Event{{X: p.Points[0].X, Mark: Dose, Label: short.Draw(t, "event label")}}
		p.Paths = []Path{{X: []float64{1.79e9, 1.8e9}, Y: []float64{value.Draw(t, "from"), value.Draw(t, "to")}}}

		w, h := rapid.IntRange(20, 120).Draw(t, "w"), rapid.IntRange(3, 40).Draw(t, "h")
		f, rows := p.frame(w, h), p.Draw(w, h)
		for _, q := range p.Points {
			x, okX := f.x.cell(q.X)
			y, okY := f.y.cell(q.Y)
			if !okX || !okY {
				t.Fatalf("point %v is outside the fitted range", q)
			}
			got := string([]rune(rows[y].String())[f.left+x])
			if got != p.Glyphs.Mark(Solid) && got != p.Glyphs.Mark(Several) {
				t.Fatalf("point %v: its cell shows %q", q, got)
			}
		}
	})
}
