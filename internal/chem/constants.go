package chem

import (
	"math"

	"bathside/internal/units"
)

// constants are the model at one temperature.
type constants struct {
	a, b float64 // Debye-Hückel, kg^½/mol^½ and per ångström

	// The equilibrium constant of each rung, counted from the first of its
	// ladder; for OH that of water.
	k [speciesCount]float64
}

// at gives the constants at a temperature.
func at(t units.Temperature) constants {
	k, c := t.K(), float64(t)
	k1, k2 := logK1(k), logK2(k)
	p1, p2, p3 := phosphoric(k)
	return constants{a: debyeA(c), b: debyeB(c), k: [speciesCount]float64{
		OH:  tenTo(logKw(k)),
		CO2: 1, HCO3: tenTo(k1), CO3: tenTo(k1 + k2),
		H4SiO4: 1, H3SiO4: tenTo(logSilicic1(k)), H2SiO4: tenTo(logSilicic2(k)),
		H3BO3: 1, H2BO3: tenTo(logBoric(k)),
		H3PO4: 1, H2PO4: tenTo(-p1), HPO4: tenTo(-p1 - p2), PO4: tenTo(-p1 - p2 - p3),
	}}
}

// debyeA and debyeB are least squares over 0 to 80 °C on the Truesdell & Jones
// forms (J. Res. USGS 2, 233, 1974) with the water of Wagner & Pruss (2002) and
// Bradley & Pitzer (1979); off by at most 2e-5 and 3e-5.
func debyeA(t float64) float64 { return 0.490816 + 6.5977e-4*t + 4.3022e-6*t*t }
func debyeB(t float64) float64 { return 0.324642 + 1.4576e-4*t + 2.965e-7*t*t }

// analytic is the form in which equilibrium constants are published, with the
// temperature k in kelvin.
func analytic(k, a, b, c, d, e, f float64) float64 {
	return a + b*k + c/k + d*math.Log10(k) + e/(k*k) + f*k*k
}

// logKw: the USGS file phreeqc.dat 3.8.9; within 0.0034 of IAPWS R11-24 from 10
// to 50 °C and 0.011 at 80 °C.
func logKw(k float64) float64 {
	return analytic(k, 293.29227, 0.1360833, -10576.913, -123.73158, 0, -6.996455e-5)
}

// logKH is carbon dioxide from the air into water, mol/(kg·atm): Plummer &
// Busenberg, Geochim. Cosmochim. Acta 46, 1011 (1982), as are logK1 and logK2.
func logKH(k float64) float64 {
	return analytic(k, 108.3865, 0.01985076, -6919.53, -40.45154, 669365, 0)
}

// logK1: CO2 + H2O = HCO3- + H+.
func logK1(k float64) float64 {
	return analytic(k, -356.3094, -0.06091964, 21834.37, 126.8339, -1684915, 0)
}

// logK2: HCO3- = CO3-- + H+.
func logK2(k float64) float64 {
	return analytic(k, -107.8871, -0.03252849, 5151.79, 38.92561, -563713.9, 0)
}

// logSilicic1: H4SiO4 = H3SiO4- + H+, phreeqc.dat 3.8.9, as is logSilicic2.
// Silica is taken as single molecules: above 0.01 mol/kg it is not.
func logSilicic1(k float64) float64 {
	return analytic(k, -302.3724, -0.050698, 15669.69, 108.18466, -1119669, 0)
}

// logSilicic2: H4SiO4 = H2SiO4-- + 2 H+.
func logSilicic2(k float64) float64 {
	return analytic(k, -294.0184, -0.07265, 11204.49, 108.18466, -1119669, 0)
}

// logBoric: Manov, DeLollis & Acree, J. Res. NBS 33, 287 (1944), from memory
// and checked against the NIST borax buffer.
func logBoric(k float64) float64 { return -(2237.94/k + 0.016883*k - 3.305) }

// phosphoric gives pK1 (Bates, J. Res. NBS 47, 127, 1951), pK2 (Bates & Acree,
// 30, 129, 1943) and pK3 (phreeqc.dat 3.8.9, constant enthalpy).
func phosphoric(k float64) (pk1, pk2, pk3 float64) {
	return 799.31/k - 4.5535 + 0.013486*k,
		1979.5/k - 5.3541 + 0.01984*k,
		12.346 - 771.5*(1/298.15-1/k)
}

func tenTo(x float64) float64 { return math.Exp(math.Ln10 * x) }
