package chem

import (
	"math"
	"testing"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

func mL(x float64) units.Volume { return units.Volume(x / 1000) }

func acid(x float64) *units.Volume { v := mL(x); return &v }

// Source: arithmetic of Standard Methods 2320 B (alkalinity = mL x N x 50 000 /
// mL of sample) and its table of relations, from memory.
func TestTitrate(t *testing.T) {
	tests := []struct {
		name       string
		to83, to45 float64 // mL of 0.1 N in 10 mL
		caCO3      [2]float64
		shares     Shares
	}{
		{"hydroxide alone", 4, 4, [2]float64{2000, 2000}, Shares{Hydroxide: 0.04}},
		{"hydroxide and carbonate", 4, 6, [2]float64{2000, 3000}, Shares{Hydroxide: 0.02, Carbonate: 0.04}},
		{"carbonate alone", 3, 6, [2]float64{1500, 3000}, Shares{Carbonate: 0.06}},
		{"carbonate and bicarbonate", 2, 6, [2]float64{1000, 3000}, Shares{Carbonate: 0.04, Bicarbonate: 0.02}},
		{"bicarbonate alone", 0, 6, [2]float64{0, 3000}, Shares{Bicarbonate: 0.06}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := must(Titrate(mL(10), 0.1, mL(tt.to83), acid(tt.to45)))
			near := func(got, want float64) bool { return math.Abs(got-want) < 1e-9*max(1, want) }
			if !near(CaCO3(a.P), tt.caCO3[0]) || !near(CaCO3(a.T), tt.caCO3[1]) || !near(a.Drop, 0.0005) {
				t.Errorf("got %+v, want %v mg/L", a, tt.caCO3)
			}
			got := a.Shares()
			if !near(got.Hydroxide, tt.shares.Hydroxide) || !near(got.Carbonate, tt.shares.Carbonate) || !near(got.Bicarbonate, tt.shares.Bicarbonate) {
				t.Errorf("got %+v, want %+v", got, tt.shares)
			}
		})
	}
}

func TestTitrateRefuses(t *testing.T) {
	tests := []struct {
		name      string
		sample    float64
		normality float64
		to83      float64
		to45      *units.Volume
		want      string
	}{
		{"crossed", 10, 0.1, 6, acid(4), "4 mL to pH 4.5 is less than 6 mL to pH 8.3: count both from the start"},
		{"no sample", 0, 0.1, 4, nil, "a sample of 0 mL is none for a drop test: give its volume, like 10mL"},
		{"no acid in it", 10, 0, 4, nil, "acid of 0 N is none for a drop test: 0.001 to 2 are allowed, from the bottle"},
		{"strong acid", 10, 12, 4, nil, "acid of 12 N is none for a drop test: 0.001 to 2 are allowed, from the bottle"},
		{"not a number", 10, math.NaN(), 4, nil, "acid of NaN N is none for a drop test: 0.001 to 2 are allowed, from the bottle"},
		{"less than none", 10, 0.1, -1, nil, "-1 mL of acid to pH 8.3 is not believable in a sample of 10 mL: give it like 4.1mL"},
		{"a bucket", 10, 0.1, 1, acid(9000), "9000 mL of acid to pH 4.5 is not believable in a sample of 10 mL: give it like 6.0mL"},
		{"never pink", 10, 0.1, 0, nil, "no acid to pH 8.3 means the sample was never pink: go on to pH 4.5, or take a fresh sample"},
		{"water", 10, 0.1, 0, acid(0), "no acid at all means there is no soap in the sample: check what was sampled"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := Titrate(mL(tt.sample), tt.normality, mL(tt.to83), tt.to45); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}

// The shares add up to T, and none is below 0.
func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.Float64Range(1e-6, 10).Draw(t, "T")
		a := Alkalinity{P: all * rapid.Float64Range(0, 1).Draw(t, "P/T"), T: all}
		s := a.Shares()
		if min(s.Hydroxide, s.Carbonate, s.Bicarbonate) < 0 || math.Abs(s.Hydroxide+s.Carbonate+s.Bicarbonate-all) > 1e-9 {
			t.Fatalf("%+v has %+v", a, s)
		}
	})
}

// Source: a formulator's worked example of 2007: where a quarter of the free
// alkalinity is gone, 25 mL on a charge of 100 mL.
func TestRecharge(t *testing.T) {
	tests := []struct {
		name       string
		now, fresh float64
		want       float64
	}{
		{"a quarter gone", 0.03, 0.04, 25},
		{"all gone", 0, 0.04, 100},
		{"none gone", 0.04, 0.04, 0},
		{"stronger than fresh", 0.06, 0.04, 0},
	}
	for _, tt := range tests {
		got, err := Recharge(mL(100), tt.now, tt.fresh)
		if err != nil || math.Abs(got.ML()-tt.want) > 1e-9 {
			t.Errorf("%s: got %v mL, %v; want %v mL", tt.name, got.ML(), err, tt.want)
		}
	}
	_, err := Recharge(mL(100), 0.03, 0)
	if want := "an alkalinity of 0 when fresh gives nothing to compare with: do a drop test after the next fill"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestDisagree(t *testing.T) {
	tests := []struct {
		name      string
		ph, drops units.Volume
		want      string
	}{
		{"near", 3, 4, ""},
		{"pH asks for more", 5, 1, "pH asks for more soap than the drop test: air may have got at the bath, or the meter reads low; check the meter before adding"},
		{"drops ask for more", 1, 5, "the drop test asks for more soap than pH: soap went out on the gear, or the meter reads high; check the meter, then go by the drop test"},
	}
	for _, tt := range tests {
		if got := Disagree(tt.ph, tt.drops, 7.3); got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.name, got, tt.want)
		}
	}
}

// Air turns hydroxide to carbonate: pH falls, the acid to pH 4.5 does not, and
// less of it is free (MEBAK's methods for cleaning baths say so of the latter).
func TestCarbonDioxideHidesFromTheDropTest(t *testing.T) {
	m := Mix{Sodium: 0.06, Carbon: 0.02, Silicon: 0.01}
	aired := m.Plus(Mix{Carbon: 1}, 0.005)
	total := func(m Mix) float64 { return must(m.alkalinity(totalEnd)) }
	pink := func(m Mix) float64 { return must(m.alkalinity(pinkEnd)) }
	if a, b := mustSolve(t, m, 50).PH, mustSolve(t, aired, 50).PH; !(b < a-0.3) {
		t.Errorf("pH falls from %.2f to %.2f", float64(a), float64(b))
	}
	if a, b := total(m), total(aired); math.Abs(b/a-1) > 0.01 {
		t.Errorf("total alkalinity goes from %.5f to %.5f", a, b)
	}
	if a, b := pink(m), pink(aired); !(b < a-0.004) {
		t.Errorf("alkalinity to pH 8.3 goes from %.5f to %.5f", a, b)
	}
}
