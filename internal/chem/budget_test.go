package chem

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Source: uncertainty_budget.csv. Only its numbers and classes are compared.
func TestBudgetIsTheTable(t *testing.T) {
	ref := readReference(t, "uncertainty_budget.csv")
	if len(ref.lines) != len(Budget) {
		t.Fatalf("got %d components, want %d", len(Budget), len(ref.lines))
	}
	classes := map[string]Class{"rep": PerReading, "cal": PerCalibration, "sys": PerBath}
	for i, line := range ref.lines {
		c := Budget[i]
		for column, cell := range line {
			if class, ok := classes[cell]; ok && strings.HasPrefix(column, "class") && class != c.Class {
				t.Errorf("%s: got class %d, want %s", c.Name, c.Class, cell)
			}
		}
		wantNear(t, c.Name, c.U, ref.number(t, line, "standard_uncertainty_pH"), 0.00005)
	}
}

// The standings of the reference tables.
var (
	fresh  = Standing{"M1", Calibrated, 7}
	again  = Standing{"M1", Calibrated, 9}
	other  = Standing{"M2", Calibrated, 8}
	strip  = Standing{"strip", Strip, 0}
	stale  = Standing{"M1", Unchecked, 7}
	failed = Standing{"M1", Failed, 9}
)

// Source: check_values.csv, U1.
func TestUncertaintyOfOneAndTwo(t *testing.T) {
	want := checkValues(t, "U1")
	wantNear(t, "single", Single(), want[0], 0.001)
	wantNear(t, "same calibration", Difference(fresh, fresh), want[1], 0.001)
	wantNear(t, "recalibrated", Difference(fresh, again), want[2], 0.001)
}

// Source: the ruling on meters (checked 0.07, unchecked 0.14); a rectangle of
// 0.5 has 0.5/sqrt(12).
func TestTrust(t *testing.T) {
	for trust, want := range map[Trust]float64{Calibrated: 0.060, Checked: 0.07, Unchecked: 0.14, Strip: 0.144} {
		wantNear(t, trust.String(), trust.U(), want, 0.0005)
	}
	if u := Failed.U(); !math.IsInf(u, 1) {
		t.Errorf("failed: got %g, want no end", u)
	}
	if got := (Standing{}).Trust; got != Unchecked {
		t.Errorf("the zero trust is %s", got)
	}
}

// Source: difference_power.csv, computed in Python from the same budget. The
// rows with a difference of temperature add what it says in quadrature.
func TestDifferencePower(t *testing.T) {
	ref := readReference(t, "difference_power.csv")
	us := []float64{
		Difference(fresh, fresh),
		Difference(fresh, again),
		math.Hypot(Difference(fresh, again), 0.030),
		math.Hypot(Difference(fresh, again), 0.153),
		Difference(fresh, other),
		Difference(strip, strip),
	}
	if len(us) != len(ref.lines) {
		t.Fatalf("got %d situations, want %d", len(us), len(ref.lines))
	}
	below := func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
	for i, line := range ref.lines {
		t.Run(line["situation"], func(t *testing.T) {
			u := us[i]
			column := func(name string, got, within float64) {
				wantNear(t, name, got, ref.number(t, line, name), within)
			}
			column("u_difference", u, 0.0006)
			column("critical_drop_95pct_one_sided", Real(u), 0.0055)
			column("0.5_in_units_of_u", 0.5/u, 0.06)
			column("drop_needed_to_state_>=0.5_at_95pct", Stated(0.5, u), 0.0055)
			column("P(flag>=0.5 | true 0.3)", below((0.3-0.5)/u), 0.003)
			column("P(|0.4)", below((0.4-0.5)/u), 0.003)
			column("P(|0.6)", below((0.6-0.5)/u), 0.003)
			column("power_to_see_true_0.5_as_nonzero", below((0.5-Real(u))/u), 0.003)
		})
	}
}

func TestDifference(t *testing.T) {
	drift := math.Sqrt(0.14*0.14 - 0.07*0.07)
	later := Standing{"M1", Unchecked, 9}
	tests := []struct {
		name string
		a, b Standing
		want float64
	}{
		{"checked by one dip", Standing{"M1", Checked, 9}, Standing{"M1", Checked, 9}, 0.058},
		{"dips apart", Standing{"M1", Checked, 7}, Standing{"M1", Checked, 9}, 0.073},
		{"one unchecked since", fresh, stale, math.Hypot(0.058, drift)},
		{"both unchecked since the same", stale, stale, math.Hypot(0.058, drift)},
		{"both unchecked, nothing known", Standing{Meter: "M1"}, Standing{Meter: "M1"}, math.Hypot(0.058, drift)},
		{"one unchecked, calibrated between", stale, again, math.Hypot(0.073, drift)},
		{"both unchecked, calibrated between", stale, later, math.Hypot(0.073, math.Sqrt2*drift)},
		{"another meter, unchecked", other, stale, 0.198},
		{"two meters nobody knows", Standing{}, Standing{}, 0.198},
		{"strip and meter", strip, fresh, math.Hypot(0.144, 0.14)},
	}
	for _, tt := range tests {
		wantNear(t, tt.name, Difference(tt.a, tt.b), tt.want, 0.0006)
	}
	if u := Difference(failed, fresh); !math.IsInf(u, 1) {
		t.Errorf("a failed meter: got %g, want no end", u)
	}
}

func anyStanding(t *rapid.T, label string) Standing {
	return Standing{
		Meter:       rapid.SampledFrom([]string{"", "M1", "M2"}).Draw(t, label+" meter"),
		Trust:       rapid.SampledFrom([]Trust{Unchecked, Checked, Calibrated, Strip, Failed}).Draw(t, label+" trust"),
		Calibration: rapid.Uint64Range(0, 2).Draw(t, label+" calibration"),
	}
}

// TestDifferenceIsFair: it is the same both ways, never less than for one
// calibration, and less trust never makes it smaller.
func TestDifferenceIsFair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyStanding(t, "a"), anyStanding(t, "b")
		u := Difference(a, b)
		if back := Difference(b, a); u != back {
			t.Errorf("there %g, back %g", u, back)
		}
		if least := Difference(fresh, fresh); u < least {
			t.Errorf("got %g, less than %g", u, least)
		}
		worse := a
		worse.Trust = Unchecked
		if a.Trust == Checked || a.Trust == Calibrated {
			if w := Difference(worse, b); w < u {
				t.Errorf("unchecked %g, checked %g", w, u)
			}
		}
		worse.Trust = Failed
		if w := Difference(worse, b); w < u {
			t.Errorf("failed %g, before %g", w, u)
		}
	})
}
