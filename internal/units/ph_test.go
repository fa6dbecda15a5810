package units_test

import (
	"testing"

	"bathside/internal/units"
)

// TestPHKeys: the point may be left out at the bath where that reads one way.
func TestPHKeys(t *testing.T) {
	for keys, want := range map[string]units.PH{
		"982":   9.82,
		" 982 ": 9.82,
		"1010":  10.10,
		"0982":  9.82,
		"1400":  14,
		"700":   7,
		"999":   9.99,
		"150":   1.50, // 15.0 is no pH
		"000":   0,
		"9.8":   9.8,
		"10.10": 10.10,
		"10.":   10,
		".5":    0.5,
		"14.0":  14,
	} {
		t.Run(keys, func(t *testing.T) {
			if got, err := units.ParsePHKeys(keys); err != nil || got != want {
				t.Errorf("got %v, %v, want %v", got, err, want)
			}
		})
	}
}

func TestPHAcceptsItsWholeRange(t *testing.T) {
	for text, want := range map[string]units.PH{"0": 0, "14": 14, "10.10": 10.1, "7.004": 7.004} {
		if got, err := units.ParsePH(text); err != nil || float64(got) != float64(want) {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
}
