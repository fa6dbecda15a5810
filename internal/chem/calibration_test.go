package chem

import (
	"math"
	"testing"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

// points reads what is typed; a slip in it is the test's.
func points(texts ...string) []Point {
	var all []Point
	for _, text := range texts {
		all = append(all, must(ParsePoint(text)))
	}
	return all
}

// twoBuffers is the calibration of check values C1 and C2.
func twoBuffers() Calibration {
	return must(Calibrate(points("phosphate@25C=8mV", "carbonate@25C=-175mV")))
}

func wantNear(t rapid.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.4f, want %g within %g", what, got, want, within)
	}
}

// Source: check_values.csv, C1: arithmetic on 8 mV at 6.865 and -175 mV at
// 10.012.
func TestTwoBuffers(t *testing.T) {
	want, c := checkValues(t, "C1"), twoBuffers()
	wantNear(t, "slope, mV", c.SlopeMV, want[0], 0.001)
	wantNear(t, "slope, %", c.SlopePct, want[1], 0.01)
	wantNear(t, "offset, mV", c.OffsetMV, want[2], 0.001)
	wantNear(t, "pH at 0 mV", float64(c.Zero), want[3], 0.0001)
	if c.At != 25 || c.Odd != (Odd{}) {
		t.Errorf("got at %g °C and odd %v, want 25 °C and none", float64(c.At), c.Odd)
	}
}

// Source: check_values.csv, C2: the electrode of C1 gives -185 mV in a bath of
// 50 °C.
func TestCalibrationReadsAHotBath(t *testing.T) {
	got := twoBuffers().Reads(-185, 50, true)
	wantNear(t, "pH", float64(got), checkValues(t, "C2")[0], 0.001)
}

// Source: check_values.csv, C4: a perfect electrode in 10.10 at 50 °C.
func TestWithoutCompensation(t *testing.T) {
	want := checkValues(t, "C4")[0]
	mv := -NernstSlope(50) * (10.10 - 7)
	c := must(FromMeter(100, 0, 25))
	wantNear(t, "pH with", float64(c.Reads(mv, 50, true)), 10.10, 1e-9)
	wantNear(t, "pH without", float64(c.Reads(mv, 50, false)), want, 0.001)
	wantNear(t, "trap", float64(withoutATC(10.10, 50)), want, 0.001)
}

// Source: trade figures for 7.00 to 10.01 at 25 °C: 178.1 mV at 100 %, and the
// bounds of what is accepted.
func TestMillivoltsFrom7To10(t *testing.T) {
	for _, tt := range []struct{ pct, mv float64 }{{100, 178.1}, {95, 169.2}, {102, 181.6}, {105, 187.0}, {92, 163.8}} {
		c := must(FromMeter(tt.pct, 0, 25))
		wantNear(t, "mV", -c.SlopeMV*(10.01-7.00), tt.mv, 0.05)
		wantNear(t, "pH", float64(c.Reads(-tt.mv, 25, true)), 10.01, 0.001)
	}
}

func TestMeterAndMillivoltsAgree(t *testing.T) {
	a := twoBuffers()
	b := must(FromMeter(a.SlopePct, a.OffsetMV, 25))
	if a.SlopeMV != b.SlopeMV || a.Zero != b.Zero {
		t.Errorf("by millivolts %g mV, %g; by the meter %g mV, %g", a.SlopeMV, float64(a.Zero), b.SlopeMV, float64(b.Zero))
	}
}

// TestElectrodeIsFoundAgain: the millivolts of any fair electrode give back its
// slope and offset, with two buffers or three, and it then reads them right.
func TestElectrodeIsFoundAgain(t *testing.T) {
	sets := [][]string{{"7.00", "carbonate"}, {"phosphate", "borax"}, {"phthalate", "7.00", "carbonate"}, {"7.00", "borax", "carbonate"}}
	rapid.Check(t, func(t *rapid.T) {
		pct := rapid.Float64Range(70, 110).Draw(t, "slope")
		offset := rapid.Float64Range(-60, 60).Draw(t, "offset")
		at := units.Temperature(rapid.Float64Range(5, 50).Draw(t, "at"))
		truth := must(FromMeter(pct, offset, at))
		var ps []Point
		for _, name := range rapid.SampledFrom(sets).Draw(t, "buffers") {
			b := must(FindBuffer(name))
			ps = append(ps, Point{b, at, offset + truth.SlopeMV*float64(b.at(at)-7)})
		}
		// Turned round, they are the same calibration.
		c := must(Calibrate(ps))
		ps[0], ps[1] = ps[1], ps[0]
		d := must(Calibrate(ps))
		wantNear(t, "slope", c.SlopePct, pct, 1e-6)
		wantNear(t, "offset", c.OffsetMV, offset, 1e-6)
		wantNear(t, "odd one", float64(c.Odd.Off), 0, 1e-6)
		wantNear(t, "slope turned round", d.SlopePct, c.SlopePct, 1e-9)
		for _, p := range ps {
			wantNear(t, p.Buffer.Name, float64(c.Reads(p.MV, at, true)), float64(p.ph()), 1e-6)
		}
	})
}

// Source: the slope by Python's statistics.linear_regression on (4.005, 6.865, 10.012) and (180, 6,
// -178) mV, outside this project.
func TestThreeBuffersByLeastSquares(t *testing.T) {
	c := must(Calibrate(points("phthalate@25C=180mV", "phosphate@25C=6mV", "carbonate@25C=-178mV")))
	wantNear(t, "slope", c.SlopeMV, -59.5783, 0.0005)
	wantNear(t, "offset", c.OffsetMV, 0.3233, 0.0005)
}

// The odd one is that of three whose millivolts were changed.
func TestOddOneOfThree(t *testing.T) {
	right := points("phthalate@25C=177.2mV", "7.00@25C=0mV", "carbonate@25C=-178.2mV")
	for i, p := range right {
		three := append([]Point(nil), right...)
		three[i].MV -= 0.2 * NernstSlope(25) // reads 0.2 too high
		odd := must(Calibrate(three)).Odd
		if odd.Buffer != p.Buffer.Name {
			t.Errorf("%s is 0.2 off, and %s is named", p.Buffer.Name, odd.Buffer)
		}
		wantNear(t, p.Buffer.Name, float64(odd.Off), 0.2, 0.001)
	}
}

func TestCalibrateRefusals(t *testing.T) {
	tests := []struct {
		name   string
		points []Point
		want   string
	}{
		{"none", nil,
			"a calibration needs two or three buffers and there are fewer than two: give each like carbonate@25C=-175mV; one dip alone is a check, like carbonate@25C=9.98"},
		{"four", points("phthalate@25C=177mV", "7.00@25C=0mV", "borax@25C=-129mV", "carbonate@25C=-178mV"),
			"a calibration needs two or three buffers and there are 4: leave some out"},
		{"no buffer", []Point{{At: 25, MV: 0}, points("carbonate@25C=-178mV")[0]},
			"no buffer was named: write phthalate (4.01), phosphate (6.86), 7.00, borax (9.18) or carbonate (10.01)"},
		{"twice", points("10.01@25C=-178mV", "carbonate@25C=-175mV"),
			"carbonate is there twice: give two different buffers, like 7.00 and 10.01"},
		{"carbonate hot", points("7.00@52C=1mV", "carbonate@52C=-180mV"),
			"the carbonate buffer at 52 °C has no known value: use it from 0 °C to 50 °C (32 °F to 122 °F)"},
		{"too hot for all", points("7.00@81C=1mV", "borax@81C=-120mV"),
			"the 7.00 buffer at 81 °C has no known value: use it from 0 °C to 60 °C (32 °F to 140 °F)"},
		{"apart", points("7.00@20C=1mV", "carbonate@25.1C=-175mV"),
			"the buffers are at 20 °C and 25.1 °C, too far apart for one slope: bring them within 5 °C (9 °F) of each other, then calibrate again"},
		{"below the bath", points("4.01@25C=177mV", "7.00@25C=1mV"),
			"the highest of these buffers is 7.00 at pH 7.00 and a bath reads 9 to 11.5: take borax (9.18) or carbonate (10.01) for one of them"},
		{"near the bath only", points("9.18@25C=-127mV", "10.01@25C=-175mV"),
			"the lowest of these buffers is borax at pH 9.18, too near the bath to give a slope: take 7.00 or phosphate (6.86) for one of them"},
		{"wrong sign", points("7.00@25C=1mV", "carbonate@25C=175mV"),
			"175.0 mV in carbonate at 25 °C has the wrong sign: a pH electrode gives about -178.2 mV there, below 0 where the pH is above 7; check the minus"},
		{"wrong sign by less", points("7.00@25C=60mV", "carbonate@25C=40mV"),
			"40.0 mV in carbonate at 25 °C has the wrong sign: a pH electrode gives about -178.2 mV there, below 0 where the pH is above 7; check the minus"},
		{"a digit too many", points("7.00@25C=1mV", "carbonate@25C=-1750mV"),
			"-1750.0 mV in carbonate at 25 °C is none of an electrode, which gives about -178.2 mV there: check the digits and the minus"},
		{"rising", points("7.00@25C=-20mV", "carbonate@25C=-3mV"),
			"the millivolts must fall as the pH rises, and 7.00 gave -20.0 mV, carbonate gave -3.0 mV: look for a lost minus sign, then for a cracked or unplugged electrode"},
		{"the same in both", points("7.00@25C=-3mV", "carbonate@25C=-3mV"),
			"the millivolts must fall as the pH rises, and 7.00 gave -3.0 mV, carbonate gave -3.0 mV: look for a lost minus sign, then for a cracked or unplugged electrode"},
		{"not a number", []Point{{Buffers[2], 25, math.NaN()}, {Buffers[4], 25, -178}},
			"not known in 7.00 at 25 °C is none of an electrode, which gives about 0.0 mV there: check the digits and the minus"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := Calibrate(tt.points); err == nil || err.Error() != tt.want {
				t.Errorf("\n got %v\nwant %s", err, tt.want)
			}
		})
	}
}

func TestFiveDegreesApartIsNear(t *testing.T) {
	c, err := Calibrate(points("7.00@20C=1mV", "carbonate@25C=-175mV"))
	if err != nil || c.At != 22.5 {
		t.Errorf("got at %g °C, %v; want 22.5 °C", float64(c.At), err)
	}
}

func TestFromMeterRefusals(t *testing.T) {
	tests := []struct {
		name          string
		slope, offset float64
		at            units.Temperature
		want          string
	}{
		{"a ratio", 0.983, 0, 25, "a slope of 0.983 % is none of an electrode: give it in percent, like 98.3"},
		{"mV with its sign", -58.2, 0, 25, "a slope of -58.2 % is none of an electrode: give it in percent, like 98.3"},
		{"no number", math.NaN(), 0, 25, "a slope of NaN % is none of an electrode: give it in percent, like 98.3"},
		{"offset", 98.3, 1750, 25, "an offset of 1750.0 mV is none of an electrode: give it in mV, like 0.2mV; good ones are within 30 mV of 0"},
		{"too hot", 98.3, 0.2, 60.1, "buffers at 60.1 °C have no known values: calibrate from 0 °C to 60 °C (32 °F to 140 °F)"},
		{"frozen", 98.3, 0.2, -1, "buffers at -1 °C have no known values: calibrate from 0 °C to 60 °C (32 °F to 140 °F)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := FromMeter(tt.slope, tt.offset, tt.at); err == nil || err.Error() != tt.want {
				t.Errorf("\n got %v\nwant %s", err, tt.want)
			}
		})
	}
}
