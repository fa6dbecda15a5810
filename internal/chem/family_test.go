package chem

import (
	"math"
	"strings"
	"testing"

	"bathside/internal/units"
)

// tableFamilies are the families of the tables in testdata/chem, by the names
// there.
var tableFamilies = map[string]Family{
	"hydroxide":                                   family("hydroxide", 0),
	"carbonate Na2CO3":                            family("soda-ash", 0),
	"metasilicate Na2SiO3":                        family("metasilicate", 0),
	"silicate 0.01 Si":                            family("silicate", 0.01),
	"borate 0.02 B":                               family("borate", 0.02),
	"phosphate 0.01 P":                            family("phosphate", 0.01),
	"carbonate/bicarbonate 0.01 C":                family("buffered-carbonate", 0.01),
	"carbonate/bicarbonate 0.03 C":                family("buffered-carbonate", 0.03),
	"mixed C:Si 2:1 (0.02/0.01) part-neutralised": family("mixed", 0),

	"NaOH only (unbuffered)":                     family("hydroxide", 0),
	"Na2CO3 only":                                family("soda-ash", 0),
	"Na2SiO3 (meta) only":                        family("metasilicate", 0),
	"carbonate+bicarbonate, 0.01 total C":        family("buffered-carbonate", 0.01),
	"carbonate+bicarbonate, 0.02 total C":        family("buffered-carbonate", 0.02),
	"carbonate+bicarbonate, 0.05 total C":        family("buffered-carbonate", 0.05),
	"Na silicate, 0.005 SiO2":                    family("silicate", 0.005),
	"Na silicate, 0.01 SiO2":                     family("silicate", 0.01),
	"0.01 Na2CO3+0.005 Na2SiO3 part-neutralised": family("mixed", 0.01),
	"0.02 Na2CO3+0.01 Na2SiO3 part-neutralised":  family("mixed", 0.02),
	"borate, 0.02 B":                             family("borate", 0.02),
}

// family is a family by name, with so much builder where that is not 0.
func family(name string, builder float64) Family {
	f := must(FindFamily(name))
	if builder == 0 {
		return f
	}
	return must(f.With(builder))
}

// Source: inverse_strength_from_pH.csv, computed independently with the same
// equations, and check value D1.
func TestFreshIsTheInverseOfAReading(t *testing.T) {
	ref := readReference(t, "inverse_strength_from_pH.csv")
	of := map[string]struct {
		family Family
		x      func(Mix) float64
	}{
		"hydroxide":                      {family("hydroxide", 0), func(m Mix) float64 { return m.Sodium }},
		"Na2CO3":                         {family("soda-ash", 0), func(m Mix) float64 { return m.Carbon }},
		"Na2SiO3":                        {family("metasilicate", 0), func(m Mix) float64 { return m.Silicon }},
		"carbonate buffer, total C=0.02": {family("buffered-carbonate", 0), func(m Mix) float64 { return m.Sodium / m.Carbon }},
		"silicate SiO2=0.01":             {family("silicate", 0), func(m Mix) float64 { return m.Sodium / m.Silicon }},
	}
	tooStrong, worst := 0, 0.0
	for _, line := range ref.lines {
		for column, off := range map[string]units.PH{"x_at_pH-0.10": -0.1, "x_at_pH-0.05": -0.05, "x": 0, "x_at_pH+0.05": 0.05, "x_at_pH+0.10": 0.1} {
			want := ref.number(t, line, column)
			c, ok := of[line["family"]]
			if !ok {
				t.Fatalf("no family for %q", line["family"])
			}
			read := Sample{units.PH(ref.number(t, line, "baseline_pH")) + off, units.Temperature(ref.number(t, line, "t_C"))}
			m, err := c.family.fresh(read)
			if err != nil {
				tooStrong++ // soda ash at pH 11 and 50 °C: above MostIonic
				continue
			}
			part := math.Abs(c.x(m)/want - 1)
			worst = max(worst, part)
			if part > 0.02 {
				t.Errorf("%s at %v: got %.4g, want %.4g", line["family"], read, c.x(m), want)
			}
		}
	}
	t.Logf("largest error %.2f %%, %d too strong", 100*worst, tooStrong)
	if tooStrong > 4 {
		t.Errorf("%d readings are refused as too strong, want 4 at most", tooStrong)
	}
}

func TestFamiliesByName(t *testing.T) {
	for _, f := range Families {
		if got, err := FindFamily(" " + strings.ToUpper(f.Name)); err != nil || got != f {
			t.Errorf("FindFamily(%q) = %v, %v", f.Name, got, err)
		}
	}
	for _, name := range []string{"", Unknown} {
		if f, err := FindFamily(name); err != nil || f.Known() {
			t.Errorf("FindFamily(%q) = %v, %v; want the zero Family", name, f, err)
		}
	}
	want := `"sodaash" is not a soap type: write hydroxide, metasilicate, soda-ash, buffered-carbonate, silicate, borate, phosphate, mixed or unknown, as its data sheet has it`
	if _, err := FindFamily("sodaash"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// Source: molar masses, by arithmetic: 8 % of Na2CO3 (105.99 g/mol) at 30 to 1.
func TestLabelGivesTheBuilder(t *testing.T) {
	f := must(family("buffered-carbonate", 0).Label(8, 30))
	if got, want := f.base.Carbon, 80/105.99/31; math.Abs(got-want) > 1e-9 {
		t.Errorf("8 %% at 30 to 1: got %.5f mol of carbon per kg, want %.5f", got, want)
	}
	if f := must(family("hydroxide", 0).Label(8, 30)); f != family("hydroxide", 0) {
		t.Errorf("hydroxide takes a label: %+v", f)
	}
	if f := must((Family{}).Label(8, 30)); f.Known() {
		t.Errorf("a label makes %+v of an unknown soap", f)
	}
	if _, err := family("borate", 0).Label(120, 30); err == nil {
		t.Error("120 % of borate is taken")
	}
}

func TestBuilderRefused(t *testing.T) {
	tests := []struct {
		name    string
		family  Family
		builder float64
		want    string
	}{
		{"unknown", Family{}, 0.02, "an amount of builder says nothing while the soap type is unknown: name the type as well"},
		{"hydroxide", family("hydroxide", 0), 0.02, "hydroxide has no builder beside its alkali: leave the amount out"},
		{"none", family("borate", 0), 0, "0 mol of boron per kg is not a working bath: give more than 0 and at most 1, like 0.02"},
		{"not a number", family("borate", 0), math.NaN(), "NaN mol of boron per kg is not a working bath: give more than 0 and at most 1, like 0.02"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := tt.family.With(tt.builder); err == nil || err.Error() != tt.want {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
		})
	}
}
