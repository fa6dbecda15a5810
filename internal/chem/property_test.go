package chem

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

// drawMix draws a mix of any of the totals, each over five powers of ten up to
// most.
func drawMix(t *rapid.T, most float64) Mix {
	some := func(name string) float64 {
		if rapid.Bool().Draw(t, "no "+name) {
			return 0
		}
		return most * math.Pow(10, -rapid.Float64Range(0, 5).Draw(t, name))
	}
	return Mix{
		Sodium: some("sodium"), Acid: some("acid"), Carbon: some("carbon"),
		Silicon: some("silicon"), Boron: some("boron"), Phosphorus: some("phosphorus"),
	}
}

// drawSolved draws a mix within the model, a temperature that leaves room for
// one kelvin more, and what Solve makes of them.
func drawSolved(t *rapid.T) (Mix, units.Temperature, Solution) {
	m, at := drawMix(t, 0.3), units.Temperature(rapid.Float64Range(0, 79).Draw(t, "at"))
	s, err := Solve(m, at)
	if err != nil {
		t.Skip(err)
	}
	return m, at, s
}

// textbook solves a mix the slow way: bisection at one ionic strength after
// another, from the same charges.
func textbook(m Mix, t units.Temperature) (ph, ionic float64) {
	ionic = (m.Sodium + m.Acid + 2*m.Carbon) / 2
	for range passes {
		var b balance
		b, ph = halvings(m, t, ionic)
		was := ionic
		if ionic = b.strength(); math.Abs(ionic-was) < settled {
			break
		}
	}
	return ph, ionic
}

// TestSolveIsTheTextbookFaster: the same root, and the same refusal of what is
// too strong, however far the passes wander.
func TestSolveIsTheTextbookFaster(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, at := drawMix(t, 1), units.Temperature(rapid.Float64Range(0, 80).Draw(t, "at"))
		s, err := Solve(m, at)
		ph, ionic := textbook(m, at)
		if strong := ionic > MostIonic; strong != (err != nil) {
			t.Fatalf("got %v where the ionic strength is %g", err, ionic)
		}
		if err == nil && (math.Abs(float64(s.PH)-ph) > 1e-6 || math.Abs(s.Ionic-ionic) > 1e-9) {
			t.Fatalf("got pH %.9f, ionic strength %.12f, want %.9f, %.12f", float64(s.PH), s.Ionic, ph, ionic)
		}
	})
}

func TestChargesBalanceAndNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, _, s := drawSolved(t)
		n := s.Molal
		sums := map[string]float64{
			"charge": n[H] + n[Na] - n[OH] - n[X] - n[HCO3] - 2*n[CO3] - n[H3SiO4] - 2*n[H2SiO4] -
				n[H2BO3] - n[H2PO4] - 2*n[HPO4] - 3*n[PO4],
			"carbon":     n[CO2] + n[HCO3] + n[CO3] - m.Carbon,
			"silicon":    n[H4SiO4] + n[H3SiO4] + n[H2SiO4] - m.Silicon,
			"boron":      n[H3BO3] + n[H2BO3] - m.Boron,
			"phosphorus": n[H3PO4] + n[H2PO4] + n[HPO4] + n[PO4] - m.Phosphorus,
		}
		for name, q := range sums {
			if math.Abs(q) > 1e-12 {
				t.Fatalf("%s: %g mol/kg over", name, q)
			}
		}
	})
}

// moved is how far a change moves the pH; a mix that grows too strong is left
// out.
func moved(t *rapid.T, from Solution, m Mix, at units.Temperature) float64 {
	s, err := Solve(m, at)
	if err != nil {
		t.Skip(err)
	}
	return float64(s.PH - from.PH)
}

func TestAcidLowersAndAlkaliRaises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, at, s := drawSolved(t)
		drop := 1e-3*s.Ionic + 1e-9
		if d := moved(t, s, m.Plus(Mix{Acid: 1}, drop), at); !(d < 0) {
			t.Fatalf("acid moves pH %.4f by %g", float64(s.PH), d)
		}
		if d := moved(t, s, m.Plus(Mix{Sodium: 1}, drop), at); !(d > 0) {
			t.Fatalf("alkali moves pH %.4f by %g", float64(s.PH), d)
		}
	})
}

func TestWarmthLowersAnAlkalineBath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, at, s := drawSolved(t)
		if s.PH <= 8.5 {
			t.Skip("not alkaline")
		}
		if d := moved(t, s, m, at+1); !(d < 0) {
			t.Fatalf("a kelvin moves pH %.4f at %g °C by %g", float64(s.PH), float64(at), d)
		}
	})
}

// TestStrengthMovesThePHLittle: one per cent more of all is worth 0.0045 at
// most. A solution of nothing but strong base or acid comes nearest, for its pH
// is a logarithm: 1/ln 10 is 0.434.
func TestStrengthMovesThePHLittle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, at, s := drawSolved(t)
		const e = 0.01
		if d := moved(t, s, Mix{}.Plus(m, 1+e), at); math.Abs(d) >= 0.45*e {
			t.Fatalf("one per cent more moves pH %.4f by %g", float64(s.PH), d)
		}
	})
}
