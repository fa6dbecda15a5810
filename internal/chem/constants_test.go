package chem

import (
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: constants_vs_T.csv, the published coefficients evaluated outside this
// project from 0 to 80 °C, four or five decimals. Debye-Hückel is a fit of ours
// to the forms of the table, so it has the bound of the fit.
func TestConstantsAgreeWithTheTable(t *testing.T) {
	p := func(n int) func(float64) float64 {
		return func(k float64) float64 {
			p1, p2, p3 := phosphoric(k)
			return []float64{p1, p2, p3}[n-1]
		}
	}
	celsius := func(f func(float64) float64) func(float64) float64 {
		return func(k float64) float64 { return f(k - 273.15) }
	}
	tests := []struct {
		column string
		got    func(k float64) float64
		within float64
	}{
		{"pKw_phreeqc.dat", func(k float64) float64 { return -logKw(k) }, 0.5e-4},
		{"pK1_carbonic_PB82", func(k float64) float64 { return -logK1(k) }, 0.5e-4},
		{"pK2_carbonic_PB82", func(k float64) float64 { return -logK2(k) }, 0.5e-4},
		{"logKH_PB82", logKH, 0.5e-4},
		{"pKa1_silicic_phreeqc.dat", func(k float64) float64 { return -logSilicic1(k) }, 0.5e-4},
		{"pKa2_silicic_phreeqc.dat", func(k float64) float64 { return logSilicic1(k) - logSilicic2(k) }, 0.5e-4},
		{"pKa_boric_Manov1944", func(k float64) float64 { return -logBoric(k) }, 0.5e-4},
		{"pK1_phosphoric_Bates1951", p(1), 0.5e-4},
		{"pK2_phosphoric_BatesAcree1943", p(2), 0.5e-4},
		{"pK3_phosphoric_phreeqc.dat", p(3), 1e-4}, // our coefficient has four digits
		{"DH_A_BP", celsius(debyeA), 2.5e-5},
		{"DH_B_BP", celsius(debyeB), 3.5e-5},
		{"nernst_mV_per_pH", celsius(func(c float64) float64 { return NernstSlope(units.Temperature(c)) }), 0.5e-4},
	}
	ref := readReference(t, "constants_vs_T.csv")
	for _, tt := range tests {
		t.Run(tt.column, func(t *testing.T) {
			for _, line := range ref.lines {
				c := ref.number(t, line, "t_C")
				got, want := tt.got(c+273.15), ref.number(t, line, tt.column)
				if math.Abs(got-want) > tt.within+1e-9 {
					t.Errorf("%g °C: got %.5f, want %.5f within %g", c, got, want, tt.within)
				}
			}
		})
	}
}

// Source: check values K1 to K4 and K9 to K14.
func TestConstantsMeetTheCheckValues(t *testing.T) {
	at25, at50 := 298.15, 323.15
	tests := []struct {
		id     string
		got    []float64
		within float64
	}{
		{"K1", []float64{NernstSlope(25)}, 0.0005},
		{"K2", []float64{NernstSlope(50)}, 0.0005},
		{"K3", []float64{-logKw(at25)}, 0.0001},
		{"K4", []float64{-logKw(at50)}, 0.0001},
		{"K9", []float64{-logK2(at25), -logK2(at50)}, 0.0002},
		{"K10", []float64{-logK1(at25), -logK1(at50)}, 0.0002},
		{"K11", []float64{logKH(at25), logKH(at50)}, 0.0002},
		{"K12", []float64{-logSilicic1(at25), -logSilicic1(at50)}, 0.0002},
		{"K13", []float64{debyeA(25), debyeB(25)}, 0.0001},
		{"K14", []float64{debyeA(50), debyeB(50)}, 0.0001},
	}
	for _, tt := range tests {
		want := checkValues(t, tt.id)
		if len(want) != len(tt.got) {
			t.Fatalf("%s: the table has %v", tt.id, want)
		}
		for i := range want {
			if math.Abs(tt.got[i]-want[i]) > tt.within {
				t.Errorf("%s: got %.5f, want %.5f within %g", tt.id, tt.got[i], want[i], tt.within)
			}
		}
	}
}

// iapws is the ionization of water by Bandura & Lvov, J. Phys. Chem. Ref. Data
// 35, 15 (2006), with the coefficients of a release of IAPWS.
type iapws struct{ a, b [3]float64 }

var (
	r1107 = iapws{[3]float64{-0.864671, 8659.19, -22786.2}, [3]float64{0.642044, -56.8534, -0.375754}}
	r1124 = iapws{[3]float64{-0.702132, 8681.05, -24145.1}, [3]float64{0.813876, -51.4471, -0.469920}}
)

// pKw is at k kelvin and d g/cm³.
func (r iapws) pKw(k, d float64) float64 {
	z := d * math.Exp(r.a[0]+r.a[1]/k+r.a[2]*math.Cbrt(d*d)/(k*k))
	gasPhase := 0.61415 + 48251.33/k - 67707.93/(k*k) + 10102100/(k*k*k)
	return -12*(math.Log10(1+z)-z/(1+z)*d*(r.b[0]+r.b[1]/k+r.b[2]*d)) + gasPhase + 2*math.Log10(0.018015268)
}

// Source: the tables for checking programs in IAPWS R11-07(2019) and R11-24;
// check values K5 to K7. It holds the tests' own formula, by which the next
// test judges ours.
func TestIAPWSFormulaIsWrittenRight(t *testing.T) {
	tests := []struct {
		r          iapws
		k, d, want float64
	}{
		{r1107, 300, 1, 13.906565},
		{r1107, 600, 0.7, 11.203153},
		{r1107, 600, 0.07, 21.048874},
		{r1107, 800, 0.2, 15.089765},
		{r1124, 300, 1, 13.906672},
		{r1124, 600, 0.07, 20.161651},
		{r1124, 600, 0.7, 11.147093},
		{r1124, 800, 0.2, 14.487671},
		{r1124, 800, 1.2, 6.4058649},
	}
	for _, tt := range tests {
		if got := tt.r.pKw(tt.k, tt.d); math.Abs(got-tt.want) > 2e-6 {
			t.Errorf("%g K, %g g/cm³: got %.6f, want %.6f", tt.k, tt.d, got, tt.want)
		}
	}
}

// Source: IAPWS R11-24 at the density of Wagner & Pruss (2002), from the table.
func TestIonizationOfWaterIsNearIAPWS(t *testing.T) {
	ref := readReference(t, "constants_vs_T.csv")
	for _, line := range ref.lines {
		c := ref.number(t, line, "t_C")
		want := r1124.pKw(c+273.15, ref.number(t, line, "rho_sat_kg_m3")/1000)
		within := 0.011
		if c >= 10 && c <= 50 {
			within = 0.0034
		}
		if got := -logKw(c + 273.15); math.Abs(got-want) > within {
			t.Errorf("%g °C: got %.4f, want %.4f within %g", c, got, want, within)
		}
	}
}
