package chem

import (
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: the worked example of the model's description, reckoned outside this
// project from the same published constants; PHREEQC 3.8.9 has pH 10.0026.
func TestSolveStepByStep(t *testing.T) {
	s := mustSolve(t, Mix{Sodium: 0.06, Carbon: 0.02, Silicon: 0.01, Acid: 0.02}, 50)
	tests := []struct {
		what              string
		got, want, within float64
	}{
		{"pH", float64(s.PH), 9.9951, 0.00005},
		{"ionic strength", s.Ionic, 0.07131, 0.000005},
		{"γ of H+", s.Gamma[H], 0.8331, 0.0001},
		{"γ of OH-", s.Gamma[OH], 0.7782, 0.0001},
		{"γ of Na+", s.Gamma[Na], 0.7963, 0.0001},
		{"γ of HCO3-", s.Gamma[HCO3], 0.8018, 0.0001},
		{"γ of CO3--", s.Gamma[CO3], 0.4113, 0.0001},
		{"γ of H3SiO4-", s.Gamma[H3SiO4], 0.7847, 0.0001},
		{"OH-", s.Molal[OH], 6.9537e-4, 1e-7},
		{"HCO3-", s.Molal[HCO3], 8.7328e-3, 1e-6},
		{"CO3--", s.Molal[CO3], 1.12659e-2, 1e-6},
		{"H4SiO4", s.Molal[H4SiO4], 2.0015e-3, 1e-6},
		{"H3SiO4-", s.Molal[H3SiO4], 7.9570e-3, 1e-6},
		{"H2SiO4--", s.Molal[H2SiO4], 4.16e-5, 1e-7},
		{"CO2", s.Molal[CO2], 1.353e-6, 1e-9},
	}
	for _, tt := range tests {
		if math.Abs(tt.got-tt.want) > tt.within {
			t.Errorf("%s: got %.6g, want %.6g", tt.what, tt.got, tt.want)
		}
	}
	if s.Gamma[PO4] != 0 || s.Molal[PO4] != 0 {
		t.Errorf("phosphate, which is not there: got γ %g and %g mol/kg", s.Gamma[PO4], s.Molal[PO4])
	}
}

func TestSolveRefusals(t *testing.T) {
	const cold = " is outside what the chemistry is known for: give a temperature from 0 °C to 80 °C (32 °F to 176 °F)"
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		name string
		mix  Mix
		at   units.Temperature
		want string
	}{
		{"frozen", Mix{}, -0.5, "-0.5 °C" + cold},
		{"boiling", Mix{}, 81, "81 °C" + cold},
		{"no temperature", Mix{}, units.Temperature(nan), "not known" + cold},
		{"negative", Mix{Sodium: 0.01, Carbon: -0.01}, 50, "an amount of -0.01 mol per kg is none of a bath: give 0 to 10"},
		{"grams for moles", Mix{Sodium: 40}, 50, "an amount of 40 mol per kg is none of a bath: give 0 to 10"},
		{"NaN", Mix{Silicon: nan}, 50, "an amount of NaN mol per kg is none of a bath: give 0 to 10"},
		{"infinite", Mix{Acid: inf}, 50, "an amount of +Inf mol per kg is none of a bath: give 0 to 10"},
		{"acid alone", Mix{Acid: 5}, 25, ErrNoRoot.Error()},
		{"lye alone", Mix{Sodium: 10}, 5, ErrNoRoot.Error()},
		{"strong", Mix{Sodium: 0.6}, 25, ErrTooStrong.Error()},
		{"salt", Mix{Sodium: 9, Acid: 9}, 25, ErrTooStrong.Error()},
		{"everything", Mix{9, 1, 9, 9, 9, 9}, 25, ErrTooStrong.Error()},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if s, err := Solve(tt.mix, tt.at); err == nil || err.Error() != tt.want || s != (Solution{}) {
				t.Errorf("got pH %.2f, %v, want %q", float64(s.PH), err, tt.want)
			}
		})
	}
}

// The first guess of the ionic strength takes all carbon for carbonate.
func TestSolveComesBackFromAStrongGuess(t *testing.T) {
	s := mustSolve(t, Mix{Carbon: 5}, 25)
	if s.Ionic > 0.01 || s.PH > 4 || s.Doubtful() {
		t.Errorf("carbonic acid: got pH %.2f, ionic strength %g", float64(s.PH), s.Ionic)
	}
}

// The charges of salt cancel but for those of water, a millionth of them: hard
// to balance to the last digit. Salt is neutral, and its pH near that of water.
func TestSaltIsNearlyNeutral(t *testing.T) {
	for _, salt := range []float64{0.003, 0.03, 0.1, 0.3, 0.37, 0.49} {
		got, water := mustSolve(t, Mix{Sodium: salt, Acid: salt}, 25).PH, mustSolve(t, Mix{}, 25).PH
		if math.Abs(float64(got-water)) > 0.1 {
			t.Errorf("%g mol/kg: got %.3f, want %.3f within 0.1", salt, float64(got), float64(water))
		}
	}
}

// Source: Davies (1962) by hand at 25 °C, A = 0.510: -0.510 (√0.1/(1+√0.1) - 0.3
// 0.1) = -0.1072 at an ionic strength of 0.1, and -0.1347 at 0.5.
func TestBorateIsByDavies(t *testing.T) {
	k := at(25)
	for ionic, want := range map[float64]float64{0.1: -0.1072, 0.5: -0.1347} {
		if got := math.Log10(k.activity(ionic).of(H2BO3)); math.Abs(got-want) > 0.0001 {
			t.Errorf("at %g: got log γ %.4f, want %.4f", ionic, got, want)
		}
	}
}

func TestFalling(t *testing.T) {
	tests := []struct {
		name   string
		lo, hi float64
		f      func(float64) float64
		want   float64
		ok     bool
	}{
		{"square", 0, 14.8, func(x float64) float64 { return 2 - x*x }, math.Sqrt2, true},
		{"steep", 0, 14.8, func(x float64) float64 { return 1 - math.Exp(20*(x-9)) }, 9, true},
		{"flat", 0, 14.8, func(x float64) float64 { return -math.Pow(x-3, 9) }, 3, true},
		{"root at the lower end", 1, 2, func(x float64) float64 { return 1 - x }, 1, true},
		{"root at the upper end", 1, 2, func(x float64) float64 { return 2 - x }, 2, true},
		{"above", 0, 1, func(x float64) float64 { return 2 - x }, 0, false},
		{"below", 0, 1, func(x float64) float64 { return -1 - x }, 0, false},
		{"rises", 0, 2, func(x float64) float64 { return x - 1 }, 0, false},
		{"no number", 0, 2, func(float64) float64 { return math.NaN() }, 0, false},
	}
	for _, tt := range tests {
		if x, ok := falling(tt.lo, tt.hi, tt.f); ok != tt.ok || math.Abs(x-tt.want) > 2e-12 {
			t.Errorf("%s: got %.14g, %v, want %.14g, %v", tt.name, x, ok, tt.want, tt.ok)
		}
	}
}

func TestDoubtfulFromTwoTenths(t *testing.T) {
	for _, tt := range []struct {
		sodium float64
		want   bool
	}{{0, false}, {0.199, false}, {0.201, true}, {0.499, true}} {
		if s := mustSolve(t, Mix{Sodium: tt.sodium}, 50); s.Doubtful() != tt.want {
			t.Errorf("%g mol/kg of lye, ionic strength %.3f: got %v, want %v", tt.sodium, s.Ionic, s.Doubtful(), tt.want)
		}
	}
}

// Source: phreeqc_na2co3.csv gives log pCO2 -5.2615 over 0.02 mol/kg of soda ash
// at 50 °C: with air of just that, open and closed are one.
func TestOpenToItsOwnAirIsClosed(t *testing.T) {
	open, err := SolveOpen(sodaAshBath(0.02), 50, math.Pow(10, -5.2615))
	closed := mustSolve(t, sodaAshBath(0.02), 50)
	if err != nil || math.Abs(float64(open.PH-closed.PH)) > 0.01 {
		t.Errorf("got %.4f, %v, want %.4f within 0.01", float64(open.PH), err, float64(closed.PH))
	}
}

func TestSolveOpenRefusesWhatIsNoAir(t *testing.T) {
	for air, want := range map[float64]string{
		-1e-6:       "carbon dioxide at -1e-06 atm is none of air: give 0 to 1, 0.00042 outdoors",
		420:         "carbon dioxide at 420 atm is none of air: give 0 to 1, 0.00042 outdoors",
		math.Inf(1): "carbon dioxide at +Inf atm is none of air: give 0 to 1, 0.00042 outdoors",
	} {
		if _, err := SolveOpen(Mix{Sodium: 0.01}, 25, air); err == nil || err.Error() != want {
			t.Errorf("%g: got %v, want %q", air, err, want)
		}
	}
	lye, err := SolveOpen(Mix{Sodium: 0.01, Carbon: 0.01}, 25, 0)
	if want := mustSolve(t, Mix{Sodium: 0.01}, 25); err != nil || lye.PH != want.PH {
		t.Errorf("air without carbon dioxide: got %.4f, %v, want %.4f", float64(lye.PH), err, float64(want.PH))
	}
}

func TestSolvingAllocatesNothing(t *testing.T) {
	for name, f := range map[string]func(){
		"Solve":     func() { _, _ = Solve(mixedBath(0.02), 50) },
		"SolveOpen": func() { _, _ = SolveOpen(mixedBath(0.02), 50, 420e-6) },
		"Amount":    func() { _, _ = Amount(mixedBath(0), Mix{Acid: 1}, 10.1, 50) },
	} {
		if n := testing.AllocsPerRun(20, f); n != 0 {
			t.Errorf("%s: got %g allocations a run, want none", name, n)
		}
	}
}
