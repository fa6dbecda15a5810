package chem

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

// Source: check values D1 and D2: pH 10.10 at 50 °C, reckoned outside this
// project.
func TestAmountMeetsTheCheckValues(t *testing.T) {
	got, err := Amount(Mix{}, sodaAshBath(1), 10.10, 50)
	if want := checkValues(t, "D1")[0]; err != nil || math.Abs(got/want-1) > 0.02 {
		t.Errorf("D1, soda ash: got %.6f, %v, want %g mol/kg within 2 %%", got, err, want)
	}
	const carbon = 0.02
	got, err = Amount(Mix{Carbon: carbon}, Mix{Sodium: 1}, 10.10, 50)
	if ratio := got / carbon; err != nil || ratio < 1.636-0.01 || ratio > 1.640+0.01 {
		t.Errorf("D2, sodium to carbon: got %.4f, %v, want 1.636 to 1.640 within 0.01", ratio, err)
	}
}

// TestAmountUndoesSolve: alkali or acid in any mix, and each builder alone.
func TestAmountUndoesSolve(t *testing.T) {
	builders := []Mix{sodaAshBath(1), {Sodium: 2, Silicon: 1}, {Sodium: 3, Phosphorus: 1}}
	rapid.Check(t, func(t *rapid.T) {
		base, unit := Mix{}, rapid.SampledFrom(builders).Draw(t, "unit")
		if rapid.Bool().Draw(t, "in a mix") {
			base, unit = drawMix(t, 0.3), rapid.SampledFrom([]Mix{{Sodium: 1}, {Acid: 1}}).Draw(t, "unit")
		}
		at := units.Temperature(rapid.Float64Range(0, 80).Draw(t, "at"))
		want := 0.3 * math.Pow(10, -rapid.Float64Range(0, 4).Draw(t, "amount"))
		s, err := Solve(base.Plus(unit, want), at)
		if err != nil || s.PH > 14 {
			t.Skip("beyond the model")
		}
		got, err := Amount(base, unit, s.PH, at)
		if err != nil || math.Abs(got-want) > 1e-6*want+1e-9 {
			t.Fatalf("pH %.6f, ionic strength %.3f: got %g, %v, want %g", float64(s.PH), s.Ionic, got, err, want)
		}
	})
}

// Strong phosphate makes more ionic strength than went into the guess, so that
// passing it on from guess to guess only swings.
func TestAmountOfStrongPhosphateSettles(t *testing.T) {
	phosphate := Mix{Sodium: 3, Phosphorus: 1}
	s := mustSolve(t, Mix{}.Plus(phosphate, 0.053), 1)
	if got, err := Amount(Mix{}, phosphate, s.PH, 1); err != nil || math.Abs(got-0.053) > 1e-6 {
		t.Errorf("got %g, %v, want 0.053", got, err)
	}
}

func TestAmountIsNegativeWhereThereIsTooMuch(t *testing.T) {
	now := mustSolve(t, sodaAshBath(0.01), 50)
	got, err := Amount(sodaAshBath(0.02), sodaAshBath(1), now.PH, 50)
	if err != nil || math.Abs(got+0.01) > 1e-6 {
		t.Errorf("got %g, %v, want -0.01", got, err)
	}
}

func TestAmountRefusals(t *testing.T) {
	const range14 = " is outside 0 to 14: read it again"
	nan := math.NaN()
	tests := []struct {
		name       string
		base, unit Mix
		ph         units.PH
		at         units.Temperature
		want       string
	}{
		{"pH below 0", Mix{}, Mix{Sodium: 1}, -1, 50, "a pH of -1.00" + range14},
		{"pH above 14", Mix{}, Mix{Sodium: 1}, 101, 50, "a pH of 101.00" + range14},
		{"no pH", Mix{}, Mix{Sodium: 1}, units.PH(nan), 50, "a pH of NaN" + range14},
		{"no base", Mix{Carbon: -1}, Mix{Sodium: 1}, 10, 50, "an amount of -1 mol per kg is none of a bath: give 0 to 10"},
		{"too hot", Mix{}, Mix{Sodium: 1}, 10, 90,
			"90 °C is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)"},
		{"too much lye", Mix{}, Mix{Sodium: 1}, 14, 50, ErrTooStrong.Error()},
		{"salt moves no pH", Mix{}, Mix{Sodium: 1, Acid: 1}, 10, 50, ErrNoRoot.Error()},
		{"nothing moves no pH", Mix{}, Mix{}, 10, 50, ErrNoRoot.Error()},
		{"a unit of NaN", Mix{}, Mix{Sodium: nan}, 10, 50, ErrNoRoot.Error()},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if x, err := Amount(tt.base, tt.unit, tt.ph, tt.at); err == nil || err.Error() != tt.want || x != 0 {
				t.Errorf("got %g, %v, want %q", x, err, tt.want)
			}
		})
	}
}

// TestAmountIsNeverWild: whatever unit is and wherever it is nearly neutral, an
// amount that is given reads the pH that was asked for.
func TestAmountIsNeverWild(t *testing.T) {
	salts := []Mix{sodaAshBath(1), {Sodium: 1, Carbon: 1}, {Sodium: 1, Boron: 2}, {Sodium: 3, Phosphorus: 1}, {Acid: 1}}
	rapid.Check(t, func(t *rapid.T) {
		base, unit := drawMix(t, 0.3), rapid.SampledFrom(salts).Draw(t, "unit")
		at := units.Temperature(rapid.Float64Range(0, 80).Draw(t, "at"))
		ph := units.PH(rapid.Float64Range(3, 13).Draw(t, "pH"))
		x, err := Amount(base, unit, ph, at)
		if err != nil {
			t.Skip(err)
		}
		s, err := Solve(base.Plus(unit, x), at)
		if err != nil && x < 0 {
			t.Skip("more taken out than there is")
		}
		if err != nil || math.Abs(float64(s.PH-ph)) > 1e-6 {
			t.Fatalf("%g of it reads %.6f, %v, want %.6f", x, float64(s.PH), err, float64(ph))
		}
	})
}
