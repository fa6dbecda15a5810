package heat

import (
	"math"

	"bathside/internal/units"
)

// The properties of water hold from 0 to 80 °C at sea level. Soap at the
// strength of a bath changes them by less than their bounds matter here.

// Density is that of water in kg/m³, within 0.002 %.
// Source: Kell, J. Chem. Eng. Data 20 (1975) 97.
func Density(at units.Temperature) float64 {
	t := float64(at)
	return polynomial(t, 999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12) /
		(1 + 16.879850e-3*t)
}

// SpecificHeat is that of water in J/(kg·K), within 0.04 %.
// Source: our own fit to IAPWS-97 at 101.325 kPa.
func SpecificHeat(at units.Temperature) float64 {
	return polynomial((float64(at)-40)/40, 4178.674, 1.3042, 17.0410, -12.1846, 11.4138)
}

// VapourPressure is that of air saturated over water in kPa, within 0.08 %.
// Source: Buck 1981, as revised in 1996.
func VapourPressure(at units.Temperature) float64 {
	t := float64(at)
	return 0.61121 * math.Exp((18.678-t/234.5)*t/(257.14+t))
}

// HeatOfEvaporation is that of water in J/kg, within 300 J/kg.
// Source: our own fit to IAPWS-97.
func HeatOfEvaporation(at units.Temperature) float64 {
	return 1000 * polynomial(float64(at), 2500.617, -2.32761, -0.000945692)
}

// polynomial is c[0] + c[1]·x + c[2]·x² and so on.
func polynomial(x float64, c ...float64) float64 {
	var sum float64
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}
