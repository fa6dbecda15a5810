package trend

import (
	"math"
	"testing"
)

// Source: NIST/SEMATECH e-Handbook 6.3.2.3, tabular CUSUM. Printed sums are
// rounded to 0.01, halves to even.
func TestCusumOfTheHandbook(t *testing.T) {
	c := readColumns(t, "nist_cusum.csv")
	chart := Cusum{K: 0.3175, H: 4.1959}
	for i, x := range c["x"] {
		signal := chart.Add(x - 325)
		alike(t, "sums", []float64{chart.High, chart.Low, claim(signal)},
			[]float64{c["Shi_published"][i], c["Slo_published"][i], c["signal"][i]}, 0.00501)
	}
}

// Source: arl.csv. Found by simulation, good to 2 % (one standard deviation).
func TestCusumRunLengths(t *testing.T) {
	const runs = 2500
	d := newDice(1)
	shifts := map[string]float64{"shift_0": 0, "shift_0.5": 0.5, "shift_1": 1, "shift_2": 2, "shift_3": 3}
	for _, row := range []struct {
		name string
		h    float64
	}{{"computed 3.00 ", 3}, {"published 4 ", 4}, {"published 5 ", 5}} {
		want := readCells(t, "arl.csv", 2)[row.name]
		for column, shift := range shifts {
			var n float64
			for range runs {
				chart := Cusum{K: 0.5, H: row.h}
				for n++; !chart.Add(d.NormFloat64() + shift); n++ {
				}
			}
			if got := n / runs; math.Abs(got/want[column]-1) > 0.08 {
				t.Errorf("h %g, %s: got %.4g, want %g", row.h, column, got, want[column])
			}
		}
	}
}

// Source: NIST/SEMATECH e-Handbook 6.3.2.2, individuals chart.
func TestIndividualsOfTheHandbook(t *testing.T) {
	c := NewMeterChart([]float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1})
	alike(t, "limits", []float64{c.Centre, c.High, c.Low}, []float64{50.81, 55.8041, 45.8159}, 0.00006)
	if c.Changed || !c.Enough {
		t.Errorf("got %+v, want enough and no change", c)
	}
}

func TestMeterChart(t *testing.T) {
	for _, tt := range []struct {
		name            string
		dips            []float64
		enough, changed bool
	}{
		{"none", nil, false, false},
		{"one", []float64{0.3}, false, false},
		{"four, the last far off", []float64{0, 0, 0, 0.9}, false, false},
		{"the last digit flickers", []float64{0, 0, 0, 0, 0.01}, true, false},
		{"steady, the last far off", []float64{0, 0.01, -0.01, 0, 0.01, 0, 0.2}, true, true},
		{"one bad dip, good since", []float64{0, 0.01, 0.3, 0, 0.01, 0, 0.01}, true, false},
		{"lasting shift", []float64{0, 0.01, -0.01, 0, 0.01, 0, 0.2, 0.21, 0.19, 0.2}, true, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if c := NewMeterChart(tt.dips); c.Enough != tt.enough || c.Changed != tt.changed {
				t.Errorf("got %+v, want enough %t, changed %t", c, tt.enough, tt.changed)
			}
		})
	}
}

func TestBlame(t *testing.T) {
	quiet, changed := BathChart{Points: make([]Point, 3)}, BathChart{Points: make([]Point, 3), Changed: true}
	good, off := MeterChart{Enough: true}, MeterChart{Enough: true, Changed: true}
	for _, tt := range []struct {
		name  string
		bath  BathChart
		meter MeterChart
		want  Change
	}{
		{"nothing known", BathChart{}, MeterChart{}, TooFew},
		{"no buffer checks", quiet, MeterChart{}, TooFew},
		{"no readings", BathChart{}, good, TooFew},
		{"quiet", quiet, good, BothQuiet},
		{"bath", changed, good, BathChanged},
		{"meter", quiet, off, MeterChanged},
		{"both signal", changed, off, MeterChanged},
		{"bath signals, meter not checked", changed, MeterChart{}, OneChanged},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := Blame(tt.bath, tt.meter); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

// made is a fill read every 2 to 5 days for readings, with by added to all after
// the eighth.
func made(d dice, v variant, readings int, by float64) Input {
	days, t := make([]float64, readings), 0.0
	for i := range days {
		t += d.uniform(2, 5)
		days[i] = t
	}
	b := newBath(d, v)
	b.refill(d, t)
	in := b.read(d, days)
	for i := 8; i < readings; i++ {
		in.Offsets[i] += by
	}
	return in
}

// signals is the share of fills whose chart signals within so many readings.
func signals(t *testing.T, v variant, readings int, by float64) float64 {
	t.Helper()
	const fills = 250
	d := newDice(8)
	var n float64
	for range fills {
		chart, err := made(d, v, readings, by).BathChart()
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range chart.Points {
			if p.Signal {
				n++
				break
			}
		}
	}
	return n / fills
}

// Source: a simulation outside this project: .017 falsely within 8, .79 within
// three readings of a step of -0.30. Its baths are not known in full.
func TestBathChartOnMadeUpBaths(t *testing.T) {
	clean := variants[0]
	falsely, found := signals(t, clean, 8, 0), signals(t, clean, 11, -0.30)
	if falsely > 0.05 || found < 0.7 {
		t.Errorf("got %.3f falsely, %.2f found; want about 0.02 and 0.8", falsely, found)
	}
}

func TestBathChartNamesTheDay(t *testing.T) {
	in := steady(12)
	for i := 8; i < 12; i++ {
		in.Offsets[i] -= 0.35
	}
	chart, err := in.BathChart()
	if err != nil {
		t.Fatal(err)
	}
	last := chart.Points[len(chart.Points)-1]
	if !chart.Changed || chart.Since < in.Days[8] || chart.Since > in.Days[10] || last.Low <= last.High {
		t.Errorf("got %+v, want a fall from day %g on", chart, in.Days[8])
	}
	if len(chart.Points) != 11 {
		t.Errorf("got %d points, want one for every reading but the first", len(chart.Points))
	}
}

// One doubtful reading is a signal by itself, but counts as 4 at most.
func TestBathChartAndOneBlunder(t *testing.T) {
	in := steady(9)
	in.Offsets[8] = -5
	chart, err := in.BathChart()
	if err != nil {
		t.Fatal(err)
	}
	if last := chart.Points[7]; last.Residual != -4 || !last.Signal {
		t.Errorf("got %+v, want a residual of -4 and a signal", last)
	}
}

// A top-up that was logged is no change of the bath.
func TestBathChartKnowsTopUps(t *testing.T) {
	in := steady(12)
	for i := 6; i < 12; i++ {
		in.Offsets[i] += 0.35
	}
	unlogged, err := in.BathChart()
	if err != nil {
		t.Fatal(err)
	}
	in.TopUps = TopUps{{Day: in.Days[6] - 0.5}}
	logged, err := in.BathChart()
	if err != nil {
		t.Fatal(err)
	}
	signals := func(c BathChart) (any bool) {
		for _, p := range c.Points {
			any = any || p.Signal
		}
		return any
	}
	if !signals(unlogged) || signals(logged) {
		t.Errorf("signals: unlogged %t, logged %t; want only the first", signals(unlogged), signals(logged))
	}
}
