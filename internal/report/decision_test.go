package report

import (
	"bytes"
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

func decide(t reporter, x *advise.Snapshot) advise.Decision {
	t.Helper()
	d, err := x.Decide()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// down is the bath in use with a sure reading at the limit, by a meter
// calibrated that morning. The prices are invented.
func down() *book {
	soap, refill, hour := 48.0, 39.0, 27.0
	return inUse().
		add("26 05:00", "Ilse Varga", &bath.Setting{SoapPrice: &soap, RefillPrice: &refill, HourPrice: &hour}).
		add("26 06:00", "Teo Lund", &bath.Calibration{Meter: "M2", Points: bath.Points{
			{Buffer: "phosphate", AtC: units.Fahrenheit(77), MV: 8}, {Buffer: "carbonate", AtC: units.Fahrenheit(77), MV: -175},
		}}).
		add("26 06:30", "Teo Lund", &bath.Reading{PH: 9.90, SampleC: units.Fahrenheit(121), Meter: "M2", Again: new(units.PH(9.91))})
}

func TestWriteDecision(t *testing.T) {
	for name, b := range map[string]*book{
		"keep":         inUse(),
		"at-limit":     down(),
		"contaminated": down().add("26 06:40", "Amari Boone", &bath.Hold{Cause: bath.HoldContaminated, Why: "a battery leaked into it"}),
	} {
		t.Run(name, func(t *testing.T) {
			x := b.look(t, "26 06:52")
			golden(t, "decision-"+name+".golden", written(t, func(b *bytes.Buffer) error {
				return WriteDecision(b, x, decide(t, x), nil)
			}))
		})
	}
}

func TestADoseThatIsAskedAboutStandsBesideTheAdvice(t *testing.T) {
	x := down().look(t, "26 06:52")
	d := decide(t, x)
	got := string(written(t, func(b *bytes.Buffer) error { return WriteDecision(b, x, d, x.TopUp(units.Gallons(0.5))) }))
	asked, advised := strings.Index(got, "  top up    0.5 gal"), strings.Index(got, "  top up    "+x.Amount(d.TopUp.DoseL))
	if asked < 0 || advised < asked {
		t.Errorf("0.5 gal stands at %d, the advised dose at %d of\n%s", asked, advised, got)
	}
	same := string(written(t, func(b *bytes.Buffer) error { return WriteDecision(b, x, d, x.TopUp(d.TopUp.DoseL)) }))
	if n := strings.Count(same, "  top up    "); n != 1 {
		t.Errorf("the advised dose, asked about, is told %d times", n)
	}
}

// No money stands where the station gave no prices.
func TestADecisionWithoutPrices(t *testing.T) {
	x := inUse().look(t, "26 06:52")
	got := string(written(t, func(b *bytes.Buffer) error { return WriteDecision(b, x, decide(t, x), nil) }))
	if strings.Contains(got, "costs") || strings.Contains(got, "a day,") {
		t.Errorf("money is told:\n%s", got)
	}
}

func TestASignedDecisionIsTold(t *testing.T) {
	sign := func(t *testing.T, b *book) *book {
		d := &bath.Decision{Choice: bath.ChoiceDrain, Why: "the hauler comes today"}
		if err := b.look(t, "26 06:40").Sign(d); err != nil {
			t.Fatal(err)
		}
		return b.add("26 06:40", "Ilse Varga", d)
	}
	reading := uint64(len(*down()))
	for name, c := range map[string]struct {
		book   *book
		shaken bool
	}{
		"as it was signed":                 {sign(t, down()), false},
		"what it rests on is struck":       {sign(t, down()).add("26 06:45", "Teo Lund", &bath.Strike{Target: reading, Why: "rinse cup"}), true},
		"something else is crossed out":    {sign(t, down()).add("26 06:45", "Teo Lund", &bath.Strike{Target: reading - 4, Why: "not so"}), false},
		"a new reading comes on top of it": {sign(t, down()).add("26 06:50", "Teo Lund", &bath.Reading{PH: 9.92, SampleC: units.Fahrenheit(121), Meter: "M2"}), false},
	} {
		t.Run(name, func(t *testing.T) {
			x := c.book.look(t, "26 06:52")
			got := string(written(t, func(b *bytes.Buffer) error { return WriteDecision(b, x, decide(t, x), nil) }))
			if !strings.Contains(got, "\nSigned by Ilse Varga, 06:40 (line ") || !strings.Contains(got, "drain and refill") {
				t.Errorf("the decision is not told:\n%s", got)
			}
			if told := strings.Contains(got, "crossed out since: decide again"); told != c.shaken {
				t.Errorf("shaken: got %t, want %t:\n%s", told, c.shaken, got)
			}
		})
	}
}

// At the limit the last reading says all: no date is set beside it.
func TestNoDateBesideAReadingAtTheLimit(t *testing.T) {
	for name, c := range map[string]struct {
		book *book
		told bool
	}{
		"getting close": {inUse(), true},
		"at the limit":  {down(), false},
		"empty":         {inUse().add("26 01:00", "Ilse Varga", &bath.Drain{VolumeL: units.Gallons(75), Route: bath.RouteHauler}), false},
	} {
		t.Run(name, func(t *testing.T) {
			x := c.book.look(t, "26 06:52")
			got := string(written(t, func(b *bytes.Buffer) error { return WriteStatus(b, x) }))
			if told := strings.Contains(got, "\n  how long"); told != c.told {
				t.Errorf("got %t, want %t:\n%s", told, c.told, got)
			}
			f := NewStatus(x).Forecast
			if said := f != nil && strings.HasPrefix(f.Note, "at the limit by the last reading; by all of them together likely about "); said != (name == "at the limit") {
				t.Errorf("got %+v", f)
			}
		})
	}
}

// Without a date no number is written: absent means unknown.
func TestForecastWithoutADate(t *testing.T) {
	started := (*inUse())[:12] // up to the first reading and its cooled cup
	x := started.look(t, "4 07:00")
	var got struct{ Forecast map[string]any }
	decode(t, NewStatus(x), &got)
	if len(got.Forecast) != 2 || got.Forecast["state"] != "no-date" || got.Forecast["note"] != "no date yet" {
		t.Errorf("got %v", got.Forecast)
	}
}
