package advise_test

import (
	"slices"
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// soapOf is a station with fresh water, its soap in and its meter calibrated.
func soapOf(family string) book {
	return setUp().add("1 10:00", &bath.Tank{Family: family}).
		add("2 08:00", &bath.Fill{VolumeL: units.Gallons(70)}).
		add("2 08:10", &bath.Dose{VolumeL: units.Gallons(2)}).
		add("2 09:50", twoBuffers())
}

// raw is the state that the two numbers alone would have, by the rulings of the
// trade: watch from 0.3, at the limit from 0.5, past it from 0.62.
func raw(first, now units.PH) advise.PHState {
	switch drop := first - now; {
	case drop > 0.6199:
		return advise.PHPast
	case drop > 0.4999:
		return advise.PHAtLimit
	case drop > 0.2999:
		return advise.PHWatch
	}
	return advise.PHOK
}

// Source: testdata/chem/temperature_shift_by_family.csv: soda ash that reads
// 10.10 at 50 °C reads 10.615 at 25 °C. The crew took its first reading from a
// cold cup and reads in the bath a week later: nothing happened, and the two
// numbers are 0.5 apart.
func TestAColdFirstReadingDoesNotCondemnAHotBath(t *testing.T) {
	ref := readChem(t, "temperature_shift_by_family.csv")
	fresh := ref.line(t, map[string]string{"family": "carbonate Na2CO3", "t_measured_C": "50", "pH_measured": "10.1"})
	near(t, "what the table says at 25 °C", ref.number(t, fresh, "pH_25"), 10.62, 0.006)

	for family, want := range map[string]struct{ drop, within float64 }{
		"soda-ash": {0, 0.015},
		"unknown":  {0.12, 0.001}, // 25 K × 0.016 leave that much
	} {
		t.Run(family, func(t *testing.T) {
			before := soapOf(family).add("2 10:30", &bath.Reading{PH: 10.62, SampleC: 25, Meter: "M1", Baseline: true})
			now := sample(10.10, 50, "M1")
			if got := raw(10.62, now.PH); got != advise.PHAtLimit {
				t.Fatalf("the raw numbers say %s: no story", got)
			}
			say := before.look(t, "8 08:00").PreviewBody(now)
			x := before.add("8 08:00", now).look(t, "8 08:05")

			near(t, "drop", *x.PH.Drop, want.drop, want.within)
			if x.PH.U > 0.15 { // 25 K × 0.0055 and the meter's own 0.058
				t.Errorf("u of the drop %.3f", x.PH.U)
			}
			if x.PH.State != advise.PHOK || advise.StateWord(x.PH.State) != "OK" {
				t.Errorf("got %s, %s", x.PH.State, x.DropSay())
			}
			if !strings.HasPrefix(say, "Would read 10.") || !strings.Contains(say, "at 77 °F") || strings.Contains(say, "limit") {
				t.Errorf("before it is kept: %q", say)
			}
			if equivalent := x.EquivalentSay(*x.PH.Last); !strings.HasPrefix(equivalent, "would read 10.") || !strings.Contains(equivalent, " at 77 °F, by ") {
				t.Errorf("beside it: %q", equivalent)
			}
			if sure := x.SureSay(); !strings.HasSuffix(sure, ": could be noise") {
				t.Errorf("how sure: %q", sure)
			}
			for _, a := range x.Next {
				if a.ID == "limit" || a.ID == "read-again" || a.ID == "cool" {
					t.Errorf("the crew is told %q for nothing: %s", a.Say, a.Why)
				}
			}
		})
	}
}

// Source: the same table: soda ash that reads 9.50 at 50 °C reads 10.106 at 25
// °C. The first reading was hot; months of washing later a cold cup reads what
// the bath did when it was fresh.
func TestAColdReadingDoesNotHideADrop(t *testing.T) {
	ref := readChem(t, "temperature_shift_by_family.csv")
	spent := ref.line(t, map[string]string{"family": "carbonate Na2CO3", "t_measured_C": "50", "pH_measured": "9.5"})
	near(t, "what the table says at 25 °C", ref.number(t, spent, "pH_25"), 10.11, 0.006)

	tests := []struct {
		name, family string
		ph           units.PH
		drop, within float64
		state        advise.PHState
		say          string
	}{
		{"soda ash, reads what it read at first", "soda-ash", 10.11, 0.60, 0.015, advise.PHAtLimit, "At the limit: rinse, read again"},
		{"soda ash, reads 0.15 less", "soda-ash", 9.95, 0.75, 0.05, advise.PHPast, "Over the limit: tell the gear officer"},
		{"unknown, reads 0.15 less", "unknown", 9.95, 0.55, 0.001, advise.PHAtLimit, "At the limit: rinse, read again"}, // 0.15 + 25 K × 0.016
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			now := sample(tt.ph, 25, "M1")
			if got := raw(10.10, now.PH); got != advise.PHOK {
				t.Fatalf("the raw numbers say %s: no story", got)
			}
			before := soapOf(tt.family).add("2 10:30", first(10.10))
			say := before.look(t, "8 08:00").PreviewBody(now)
			x := before.add("8 08:00", now).look(t, "8 08:05")

			near(t, "drop", *x.PH.Drop, tt.drop, tt.within)
			if x.PH.State != tt.state {
				t.Errorf("got %s, %s", x.PH.State, x.SureSay())
			}
			if !strings.HasPrefix(say, "Would read 9.") || !strings.Contains(say, "at 122 °F. Down 0.") || !strings.Contains(say, "limit of 0.50") {
				t.Errorf("before it is kept: %q", say)
			}
			for _, a := range x.Next {
				if a.ID == "limit" && a.Say != tt.say {
					t.Errorf("got %q, want %q", a.Say, tt.say)
				}
			}
			if ids := ids(x); !slices.Contains(ids, "limit") {
				t.Errorf("nothing is said of the limit in %v", ids)
			}
		})
	}
}

// The cold reading of that bath, and a hot one an hour later: both say the same.
func TestTheHotReadingBearsTheColdOneOut(t *testing.T) {
	cold := soapOf("soda-ash").add("2 10:30", first(10.10)).add("8 08:00", sample(10.11, 25, "M1"))
	hotter := cold.add("8 09:00", sample(9.50, 50, "M1"))
	was, is := cold.look(t, "8 08:05").PH, hotter.look(t, "8 09:05").PH
	near(t, "drop by the hot reading", *is.Drop, 0.60, 1e-9)
	near(t, "drop by the cold one", *was.Drop, *is.Drop, 0.015)
	if is.State != advise.PHPast && is.State != advise.PHAtLimit || is.U >= was.U || len(is.Doubtful()) != 0 {
		t.Errorf("got %s, u %.3f after %.3f, doubtful %+v", is.State, is.U, was.U, is.Doubtful())
	}
}
