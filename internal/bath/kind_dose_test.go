package bath_test

import (
	"math"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The tank of these tests holds 60 US gal; its strongest is 15 to 1, 4 US gal
// of soap. 2 US gal are in it.
func TestDoseRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "nothing", body: &bath.Dose{}, id: "missing", say: "how much soap went in? Give the volume, like 2gal"},
		{name: "another product", body: &bath.Dose{VolumeL: 1, Product: "other"}, id: "product", say: `this bath runs on soap, not "other": never mix products`},
		{name: "too strong", body: &bath.Dose{VolumeL: units.Gallons(2.1)}, id: "too-strong", say: "2.1 gal is beyond the strongest ratio of this product, 15 to 1: at most 2.0 gal more may go in"},
		{name: "no fill", on: newBook, body: &bath.Dose{VolumeL: 1}, id: "no-fill", say: "Soap added: no fill is open"},
		{name: "no ratio known", on: ratioless, body: &bath.Dose{VolumeL: units.Gallons(31)}, id: "too-strong", say: "31.0 gal of soap in 60.0 gal of water is not believable"},
	})
}

func ratioless(t testing.TB) *book {
	b := bathless(t)
	b.log(officer, &bath.Tank{VolumeL: units.Gallons(60)})
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	return b
}

// Strength judges what is too strong, not the sum of the doses: when a quarter
// of the bath has gone out on gear, a quarter of the soap has too.
func TestDoseAfterCarryOutHasItsRoomBack(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	for range 2 { // 7.5 gal each: the heater's low mark leaves room for 12
		b.log(crew, &bath.Water{VolumeL: units.Gallons(7.5), Cause: bath.CauseCarryOut})
	}
	left := 4 * (1 - 7.5/60) * (1 - 7.5/60)
	near(t, "strength", b.life().Strength().Gal(), left, 1e-9)
	checkRefusal(t, b.try(b.draft(crew, b.now, &bath.Dose{VolumeL: units.Gallons(1)})), "too-strong", "at most 0.9 gal more")
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(4 - left)})
	if sum := b.life().DoseL().Gal(); sum <= 4 {
		t.Errorf("the doses add up to %.2f gal: they should be beyond 4, or this test shows nothing", sum)
	}
}

// 30 to 1 on 60 US gal is V/30 where the parts are of the whole, V/31 where
// they are of water: 256.0 and 247.7 US fl oz, 7.571 and 7.327 L. Arithmetic,
// with 1 US gal = 128 US fl oz = 3.785411784 L (NIST Handbook 44, App. C).
func TestChargeIsAPartOfTheWholeOrOfTheWater(t *testing.T) {
	for _, tt := range []struct {
		name         string
		inWater      bool
		flOz, litres float64
	}{
		{"of the whole", false, 256.0, 7.571},
		{"in water", true, 247.7, 7.327},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := bath.Charge(units.Gallons(60), 30, tt.inWater)
			near(t, "fl oz", got.FlOz(), tt.flOz, 0.1)
			near(t, "litres", float64(got), tt.litres, 0.0005)
		})
	}
	if got := bath.Charge(100, 0, true); got != 0 {
		t.Errorf("with no ratio: got %v, want 0", got)
	}
}

// Water for drag-out lowers the strength by (1 - V_w/V); 10 % by a factor of
// 0.9. Water for evaporation does not: nothing but water left. Mass balance.
func TestStrengthIsAMassBalance(t *testing.T) {
	for _, tt := range []struct {
		name, cause string
		factor      float64
	}{
		{"evaporation", bath.CauseEvaporation, 1},
		{"carry-out", bath.CauseCarryOut, 0.9},
		{"spill", bath.CauseSpill, 0.9},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			b.log(crew, &bath.Water{VolumeL: units.Gallons(6), Cause: tt.cause})
			near(t, "strength", b.life().Strength().Gal(), 2*tt.factor, 1e-9)
			b.log(crew, &bath.Dose{VolumeL: units.Gallons(0.5)})
			near(t, "strength after a top-up", b.life().Strength().Gal(), 2*tt.factor+0.5, 1e-9)
			if n := b.life().Topups(); n != 1 {
				t.Errorf("got %d top-ups, want 1", n)
			}
		})
	}
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}
