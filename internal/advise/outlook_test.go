package advise_test

import (
	"errors"
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// wide is how far apart a whole charge may take the bath.
func wide(o *advise.Outlook) float64 { return float64(o.Full.High - o.Full.Low) }

// soapAt is what more soap would do, which is known.
func (b book) soapAt(t *testing.T, now string) *advise.Outlook {
	t.Helper()
	x := b.look(t, now)
	if x.Soap == nil {
		t.Fatalf("nothing is known of more soap: %s, %s", x.PH.State, x.DropSay())
	}
	return x.Soap
}

func TestNoOutlook(t *testing.T) {
	low := tableLow("metasilicate")
	undosed := book{}.
		add("1 09:00", &bath.Member{Name: "Kim Vale", Role: bath.Officer}).
		add("1 09:00", &bath.Tank{VolumeL: 227, Ratio: 30}).
		add("2 08:00", &bath.Fill{VolumeL: 227}).
		add("2 10:30", first(10.10))
	foul := low.add("9 08:01", &bath.Hold{Cause: bath.HoldContaminated, Why: "unknown powder on a pack"})
	tests := []struct {
		name  string
		book  book
		known bool
	}{
		{"low", low, true},
		{"no fill", setUp(), false},
		{"no first dose", lowered(undosed), false},
		{"no first reading", warmed().add("9 08:00", sample(9.60, 50, "M1")), false},
		{"too unsure to compare", tableFill("unknown").add("9 08:00", sample(9.9, 15, "M2")), false},
		{"contaminated", foul, false}, // rulings of the trade: no top-up figure is shown
		{"the tag was lifted", foul.add("9 08:02", &bath.Release{Why: "it was flour"}), true},
		{"it leaks", low.add("9 08:01", &bath.Hold{Cause: bath.HoldLeak, Why: "drips"}), true},
		{"soap since the last reading", low.add("9 08:01", &bath.Dose{VolumeL: 2}), false},
		{"read since that soap", low.add("9 08:01", &bath.Dose{VolumeL: 2}).add("9 08:03", sample(9.72, 50, "M1")), true},
		{"drained", low.add("9 08:01", &bath.Drain{VolumeL: 227, Route: bath.RouteHold}), false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := tt.book.look(t, "9 08:05")
			_, err := x.Outlook()
			if (err == nil) != tt.known || err != nil && !errors.Is(err, advise.ErrNoOutlook) {
				t.Errorf("got %v, want known %v", err, tt.known)
			}
			if (x.Soap != nil) != tt.known {
				t.Errorf("said of more soap %v, want %v", x.Soap != nil, tt.known)
			}
			for _, a := range x.Next {
				if !tt.known && strings.Contains(a.Why, "more soap") {
					t.Errorf("%s: %q", a.ID, a.Why)
				}
			}
		})
	}
}

// It is reckoned once the bath is getting close, and can be asked for before.
func TestSoapIsSaidWhenItMatters(t *testing.T) {
	x := tableFill("metasilicate").add("9 08:00", sample(9.81, 50, "M1")).look(t, "9 08:05")
	if _, err := x.Outlook(); x.Soap != nil || err != nil {
		t.Errorf("down 0.29: said %v, %v", x.Soap != nil, err)
	}
	x = tableFill("metasilicate").add("9 08:00", sample(9.80, 50, "M1")).look(t, "9 08:05")
	if x.Soap == nil || strings.Contains(limitWhy(t, x), "more soap") {
		t.Errorf("down 0.30: known %v, and nothing is to be decided yet: %q", x.Soap != nil, limitWhy(t, x))
	}
}

// A cold reading is planned for as the hot one it stands for, and the litres of
// both are the same within what the table of temperatures is good for.
func TestAColdReadingAsksForAsMuchSoap(t *testing.T) {
	// Source: testdata/chem/temperature_shift_by_family.csv, metasilicate at 9.50:
	// its reading at 25 °C.
	ref := readChem(t, "temperature_shift_by_family.csv")
	line := ref.line(t, map[string]string{"family": "metasilicate Na2SiO3", "t_measured_C": "50", "pH_measured": "9.5"})
	cold := units.PH(ref.number(t, line, "pH_25"))
	read := func(r *bath.Reading) *advise.Outlook {
		return tableFill("metasilicate").add("9 07:00", twoBuffers()).add("9 08:00", r).soapAt(t, "9 08:05")
	}
	hot, cool := read(sample(9.50, 50, "M1")), read(sample(cold, 25, "M1"))
	near(t, "with a whole charge", float64(cool.Full.Mid), float64(hot.Full.Mid), 0.03)
	if cool.At() != 50 || wide(cool) <= wide(hot) {
		t.Errorf("the cold one is for %g °C, and good to %.2f after %.2f", float64(cool.At()), wide(cool), wide(hot))
	}
}
