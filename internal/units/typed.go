package units

// Volume returns v as Text does: "1.5 gal", "5.7 L".
func (sys System) Volume(v Volume) string { return sys.Text(v) }

// Pour returns v as a measuring jug shows it: "85.3 fl oz", "64 mL".
func (sys System) Pour(v Volume) string {
	if sys == SI {
		return withUnit(rounded(v.ML(), 1, 0), mL)
	}
	return withUnit(rounded(v.FlOz(), 0.1, 1), flOz)
}

// Temp returns t as Text does: "122 °F", "50.5 °C".
func (sys System) Temp(t Temperature) string { return sys.Text(t) }

// TempFine returns t to a tenth of a degree: "109.6 °F".
func (sys System) TempFine(t Temperature) string { return sys.tempTo(t, 0.1) }

// TempPair returns two temperatures rounded alike and only so far that they
// still print differently: a refusal never shows a bath at 110 °F and a limit
// of 110 °F. Closer than a hundredth of a degree they do print the same.
func (sys System) TempPair(a, b Temperature) (string, string) {
	for _, step := range []float64{temperatures.face(sys).step, 0.1} {
		if x, y := sys.tempTo(a, step), sys.tempTo(b, step); x != y {
			return x, y
		}
	}
	return sys.tempTo(a, 0.01), sys.tempTo(b, 0.01)
}

func (sys System) tempTo(t Temperature, step float64) string {
	u := temperatures.face(sys).unit
	return withUnit(rounded(u.shown(float64(t)), step, -1), u)
}

// Delta returns a difference of temperatures as Text does: 3 °C is "5.4 °F".
func (sys System) Delta(d Delta) string { return sys.Text(d) }
