package chem

import (
	"math"
	"strings"
	"testing"

	"bathside/internal/units"
)

// Source: nist_iupac_buffers.csv, the primary values of IUPAC 2002 (Buck et
// al., Pure Appl. Chem. 74, 2169) and a table of the trade for 7.00.
func TestBuffersKeepToTheirTable(t *testing.T) {
	columns := map[string]string{
		"phthalate": "phthalate_0.05m",
		"phosphate": "phosphate_0.025_0.025m",
		"7.00":      "commercial_7.00_(0.041/0.026m phosphate)",
		"borax":     "borax_0.01m",
		"carbonate": "carbonate_0.025_0.025m",
	}
	ref := readReference(t, "nist_iupac_buffers.csv")
	for _, b := range Buffers {
		t.Run(b.Name, func(t *testing.T) {
			for _, line := range ref.lines {
				at := units.Temperature(ref.number(t, line, "t_C"))
				got, err := b.PH(at)
				if line[columns[b.Name]] == "" {
					if err == nil {
						t.Errorf("%g °C: got %.3f where the table is empty", float64(at), float64(got))
					}
					continue
				}
				want := ref.number(t, line, columns[b.Name])
				if err != nil || math.Abs(float64(got)-want) > 0.001+1e-9 {
					t.Errorf("%g °C: got %.3f, %v, want %.3f within 0.001", float64(at), float64(got), err, want)
				}
			}
		})
	}
}

// Source: the same table's row at 25 °C; check values B1 to B3.
func TestNominalIsTheTableAt25(t *testing.T) {
	want := map[string]units.PH{"phthalate": 4.005, "phosphate": 6.865, "7.00": 7, "borax": 9.18, "carbonate": 10.012}
	for _, b := range Buffers {
		if got := b.Nominal(); math.Abs(float64(got-want[b.Name])) > 1e-9 {
			t.Errorf("%s: got %v, want %v", b.Name, float64(got), float64(want[b.Name]))
		}
	}
}

func TestFindBuffer(t *testing.T) {
	tests := []struct{ name, want string }{
		{"carbonate", "carbonate"},
		{"Carbonate", "carbonate"},
		{" BORAX ", "borax"},
		{"4.01", "phthalate"},
		{"6.86", "phosphate"},
		{"7.00", "7.00"},
		{"9.18", "borax"},
		{"10.01", "carbonate"},
	}
	for _, tt := range tests {
		if got, err := FindBuffer(tt.name); err != nil || got.Name != tt.want {
			t.Errorf("%q: got %q, %v, want %s", tt.name, got.Name, err, tt.want)
		}
	}
}

func TestFindBufferRefusals(t *testing.T) {
	const list = "phthalate (4.01), phosphate (6.86), 7.00, borax (9.18) or carbonate (10.01)"
	const borate = " may be made with carbonate or with borate, which differ once warm: if the label says carbonate, write carbonate; if not, calibrate at 20 to 25 °C and write the slope and offset that the meter shows"
	tests := []struct{ name, want string }{
		{"", "no buffer was named: write " + list},
		{"8.00", `"8.00" is no buffer we know: write ` + list},
		{"carb", `"carb" is no buffer we know: write ` + list},
		{"10.00", "a buffer marked 10.00" + borate},
		{"10", "a buffer marked 10" + borate},
	}
	for _, tt := range tests {
		if b, err := FindBuffer(tt.name); err == nil || err.Error() != tt.want || b != (Buffer{}) {
			t.Errorf("%q:\n got %v %v\nwant %s", tt.name, b, err, tt.want)
		}
	}
}

// Source: Staples & Bates, J. Res. NBS 73A, 37 (1969), measured carbonate from
// 0 to 50 °C; the other tables go to 60 °C.
func TestBufferRefusesWhereItsTableEnds(t *testing.T) {
	carbonate, _ := FindBuffer("carbonate")
	shop, _ := FindBuffer("7.00")
	tests := []struct {
		b    Buffer
		at   units.Temperature
		want string
	}{
		{carbonate, 60, "the carbonate buffer at 60 °C has no known value: use it from 0 °C to 50 °C (32 °F to 122 °F)"},
		{carbonate, 50.1, "the carbonate buffer at 50.1 °C has no known value: use it from 0 °C to 50 °C (32 °F to 122 °F)"},
		{carbonate, -1, "the carbonate buffer at -1 °C has no known value: use it from 0 °C to 50 °C (32 °F to 122 °F)"},
		{shop, 70, "the 7.00 buffer at 70 °C has no known value: use it from 0 °C to 60 °C (32 °F to 140 °F)"},
		{shop, units.Temperature(math.NaN()), "the 7.00 buffer at not known has no known value: use it from 0 °C to 60 °C (32 °F to 140 °F)"},
	}
	for _, tt := range tests {
		if _, err := tt.b.PH(tt.at); err == nil || err.Error() != tt.want {
			t.Errorf("%s at %g:\n got %v\nwant %s", tt.b.Name, float64(tt.at), err, tt.want)
		}
	}
	if ph, err := (Buffer{}).PH(0); err == nil || !strings.HasPrefix(err.Error(), "no buffer was named") {
		t.Errorf("the zero Buffer: got %v, %v, want an error", ph, err)
	}
	if _, err := carbonate.PH(50); err != nil {
		t.Errorf("carbonate at 50 °C: %v", err)
	}
}
