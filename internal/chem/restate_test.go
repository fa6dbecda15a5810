package chem

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

// Source: temperature_shift_by_family.csv, computed independently with the same
// equations, printed to 0.001.
func TestRestateAgreesWithTheTable(t *testing.T) {
	ref := readReference(t, "temperature_shift_by_family.csv")
	worst, tooStrong := 0.0, 0
	for _, line := range ref.lines {
		f, ok := tableFamilies[line["family"]]
		if !ok {
			t.Fatalf("no family for %q", line["family"])
		}
		at, ph := ref.number(t, line, "t_measured_C"), ref.number(t, line, "pH_measured")
		for column, cell := range line {
			to, err := strconv.ParseFloat(strings.TrimPrefix(column, "pH_"), 64)
			if err != nil {
				continue
			}
			got, _, err := Restate(f, units.PH(ph), units.Temperature(at), units.Temperature(to))
			if errors.Is(err, ErrTooStrong) && f.Name == "soda-ash" && ph == 11 && at >= 50 {
				tooStrong++
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			off := math.Abs(float64(got) - must(strconv.ParseFloat(cell, 64)))
			worst = max(worst, off)
			if off > 0.002 {
				t.Errorf("%s, %.2f at %g °C: got %.4f at %g °C, want %s", f.Name, ph, at, float64(got), to, cell)
			}
		}
	}
	t.Logf("%d rows, largest error %.4f", len(ref.lines), worst)
	if tooStrong != 10 {
		t.Errorf("%d cells are too strong to reckon with, want the 10 of soda ash at pH 11 and 50 or 55 °C, but for where they were read", tooStrong)
	}
}

// Source: testdata/chem/temperature_shift_by_family.csv.
func TestSodaAshCooled(t *testing.T) {
	got, u, err := Restate(family("soda-ash", 0), 10.10, 50, 25)
	if err != nil || math.Abs(float64(got)-10.615) > 0.005 {
		t.Errorf("10.10 at 50 °C: got %.3f, %v at 25 °C, want 10.615", float64(got), err)
	}
	if u < 0.015 || u > 0.15 {
		t.Errorf("u of 25 K with a family is %.3f, want above the model's 0.015 and below the 0.15 of an unknown soap", u)
	}
}

// Source: the middle and spread of testdata/chem/temperature_shift_by_family.csv.
func TestUnknownSoapIsRestatedByTheAverage(t *testing.T) {
	got, u, err := Restate(Family{}, 10.10, 50, 45)
	if err != nil || math.Abs(float64(got)-10.18) > 1e-9 || math.Abs(u-0.0275) > 1e-9 {
		t.Errorf("got %.4f, u %.4f, %v; want 10.18, u 0.0275", float64(got), u, err)
	}
}

// anyFamily draws a family or none.
func anyFamily(t *rapid.T) Family {
	return rapid.SampledFrom(append([]Family{{}}, Families...)).Draw(t, "family")
}

func TestRestateWhereItWasReadIsTheReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFamily(t)
		ph := units.PH(rapid.Float64Range(9, 11).Draw(t, "ph"))
		at := units.Temperature(rapid.Float64Range(15, 60).Draw(t, "at"))
		got, u, err := Restate(f, ph, at, at)
		if err != nil || got != ph || u != 0 {
			t.Fatalf("%q: got %v, u %v, %v; want %v, 0", f.Name, got, u, err, ph)
		}
	})
}

// A warmer sample reads lower; farther is less certain; there and back is
// where one was.
func TestRestateGoesOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFamily(t)
		ph := units.PH(rapid.Float64Range(9.3, 10.8).Draw(t, "ph"))
		at := units.Temperature(rapid.Float64Range(20, 45).Draw(t, "at"))
		near, u1, err1 := Restate(f, ph, at, at+5)
		far, u2, err2 := Restate(f, ph, at, at+15)
		if err1 != nil || err2 != nil {
			t.Skip(err1, err2)
		}
		if !(ph > near && near > far && 0 < u1 && u1 < u2) {
			t.Fatalf("%q: %.4f, then %.4f ± %.4f, then %.4f ± %.4f", f.Name, float64(ph), float64(near), u1, float64(far), u2)
		}
		if back, _, err := Restate(f, far, at+15, at); err != nil || math.Abs(float64(back-ph)) > 1e-6 {
			t.Fatalf("%q: there and back gives %.4f for %.4f, %v", f.Name, float64(back), float64(ph), err)
		}
	})
}

func TestRestateRefuses(t *testing.T) {
	tests := []struct {
		name   string
		family Family
		ph     units.PH
		at, to units.Temperature
		want   string
	}{
		{"too hot", Family{}, 10, 50, 95, "95 °C is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"no temperature", Family{}, 10, units.Temperature(math.NaN()), 50, "not known is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"no pH", Family{}, 15, 50, 25, "a pH of 15.00 is outside 0 to 14: read it again"},
		{"not its pH", family("soda-ash", 0), 5, 50, 25, "no bath of soda-ash reads pH 5.00 at 50 °C: check the reading and the soap type"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, _, err := Restate(tt.family, tt.ph, tt.at, tt.to); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}

// ageing calls f with the first pair of a bath of every family, and with what
// it reads later, before and after a change of temperature.
func ageing(t *testing.T, f func(hot, cool, later, restated Sample)) {
	for _, soap := range Families {
		for _, ph := range []units.PH{9.8, 10.1, 10.5, 11} {
			hot := Sample{ph, 50}
			m, err := soap.fresh(hot)
			if err != nil {
				continue
			}
			cool := Sample{mustSolve(t, m, 22).PH, 22}
			for _, down := range []units.PH{0, 0.25, 0.5} {
				was := Sample{ph - down, 50}
				used := must(m.soured(was))
				for _, at := range []units.Temperature{35, 40, 45, 55} {
					f(hot, cool, Sample{mustSolve(t, used, at).PH, at}, was)
				}
			}
		}
	}
}

// The two numbers that OwnSlope adds to a pair are what the model itself says
// of its families.
func TestOwnSlopeDriftsAsSaid(t *testing.T) {
	n, sum, squares := 0.0, 0.0, 0.0
	ageing(t, func(hot, cool, later, was Sample) {
		local := float64(later.PH-was.PH) / float64(later.At-was.At)
		off := local - float64(hot.PH-cool.PH)/float64(hot.At-cool.At)
		n, sum, squares = n+1, sum+off, squares+off*off
	})
	mean := sum / n
	spread := math.Sqrt(squares/n - mean*mean)
	t.Logf("flatter by %.4f, spread %.4f per K", mean, spread)
	if math.Abs(mean-ownFlatter) > 0.0005 || math.Abs(spread-ownDrift) > 0.0005 {
		t.Errorf("flatter by %.4f, spread %.4f; OwnSlope says %.4f and %.4f", mean, spread, ownFlatter, ownDrift)
	}
}

func TestOwnSlope(t *testing.T) {
	got, err := OwnSlope(Sample{10.10, 50}, Sample{10.60, 25})
	if err != nil || math.Abs(got.PerK-(-0.020+ownFlatter)) > 1e-9 || math.Abs(got.U-math.Hypot(0.058/25, ownDrift)) > 1e-9 {
		t.Errorf("got %+v, %v", got, err)
	}
	if got.U >= anySlopeU {
		t.Errorf("a pair 25 K apart is no better than none: u %.4f", got.U)
	}
	_, err = OwnSlope(Sample{10.10, 50}, Sample{10.25, 41})
	want := "50 °C and 41 °C do not make a pair: let the cup cool by at least 10 °C (18 °F) and read it again"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// With its pair a belief restates a used bath better than the straight line
// does, and no worse than it says.
func TestBeliefRestatesBetterThanALine(t *testing.T) {
	n, line, belief, said := 0.0, 0.0, 0.0, 0.0
	known := map[Sample]Belief{} // by the cool half
	ageing(t, func(hot, cool, later, was Sample) {
		b, ok := known[cool]
		if !ok {
			b = must(must(NewBelief(Family{}, hot)).LearnPair(hot, cool))
			known[cool] = b
		}
		x, _ := must(OwnSlope(hot, cool)).Restate(later.PH, later.At, was.At)
		y, u, err := b.Restate(later, was.At)
		if err != nil {
			t.Fatal(err)
		}
		n, line, belief, said = n+1, line+math.Pow(float64(x-was.PH), 2), belief+math.Pow(float64(y-was.PH), 2), said+u*u
	})
	line, belief, said = math.Sqrt(line/n), math.Sqrt(belief/n), math.Sqrt(said/n)
	t.Logf("off by %.4f along a line, by %.4f as believed, which says %.4f", line, belief, said)
	if !(belief < line && belief < 1.2*said) {
		t.Errorf("off by %.4f along a line, by %.4f as believed, which says %.4f", line, belief, said)
	}
}
