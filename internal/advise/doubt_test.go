package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
)

// A reading by a meter that failed is kept and decides nothing.
func TestAFailedMeterIsKeptAndNotTrusted(t *testing.T) {
	b := started().add("8 08:00", dip(10.20)).add("8 09:00", sample(9.40, 50, "M1"))
	j := b.look(t, "8 09:05").PH
	if j.State != advise.PHOK || j.Last.Is.PH != 10.10 || j.Latest.Is.PH != 9.40 {
		t.Errorf("got %s, last %.2f, latest %.2f", j.State, float64(j.Last.Is.PH), float64(j.Latest.Is.PH))
	}
	const why = "M1 had failed on 8 Mar: carbonate reads 10.20 and should read 10.01, 0.19 off: rinse, take fresh buffer, try again; then calibrate with two buffers"
	if d := j.Doubtful(); len(d) != 1 || d[0].Doubt != (advise.Doubt{Kind: advise.DoubtMeter, Why: "meter " + why}) {
		t.Errorf("doubtful: %+v", d)
	}
	put := b.add("8 10:00", twoBuffers()).add("8 11:00", sample(9.55, 50, "M1")).look(t, "8 11:05").PH
	if put.State != advise.PHAtLimit || len(put.Doubtful()) != 1 {
		t.Errorf("put right: got %s, %d doubtful; what was read meanwhile stays in doubt", put.State, len(put.Doubtful()))
	}
}

func TestAFirstReadingByAFailedMeter(t *testing.T) {
	b := warmed().add("2 10:15", dip(10.20)).add("2 10:30", first(10.10))
	const failed = "meter M1 had failed on 2 Mar: carbonate reads 10.20 and should read 10.01, 0.19 off: rinse, take fresh buffer, try again; then calibrate with two buffers"
	right := b.add("3 08:00", twoBuffers()).add("3 09:00", sample(10.00, 50, "M1"))
	for name, tt := range map[string]struct {
		book book
		why  string
	}{
		"alone":                {b, "no reading that can be trusted: read again"},
		"the meter put right":  {right, "the first reading cannot be trusted: " + failed + "; cross it out and name another"},
		"a reading by another": {b.add("3 09:00", sample(10.00, 50, "M2")), "the first reading cannot be trusted: " + failed + "; cross it out and name another"},
	} {
		j := tt.book.look(t, "3 09:05").PH
		if j.State != advise.PHUnknown || j.Drop != nil || j.Why != tt.why {
			t.Errorf("%s: got %s, %q, want %q", name, j.State, j.Why, tt.why)
		}
	}
}

// The cooled pair was read after the meter had failed: a cold reading is held
// against the hot one, and nobody is told to cross that out.
func TestADoubtedPairIsLeftOut(t *testing.T) {
	b := started().add("2 11:00", dip(10.20)).
		add("2 12:00", &bath.Reading{PH: 10.80, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true}).
		add("3 08:00", twoBuffers()).add("3 09:00", sample(10.50, 22, "M1"))
	j := b.look(t, "3 09:05").PH
	if j.State == advise.PHUnknown || j.Last.Against.Is.PH != 10.10 || !j.Last.Restated || j.Last.How == "this bath's own slope" {
		t.Errorf("got %s, %q, against %v by %q", j.State, j.Why, j.Last.Against, j.Last.How)
	}
}

// Source: ruling of the trade: strips show the trend only.
func TestStripsDecideNothing(t *testing.T) {
	for _, name := range []string{"strip", "strips", "Strips"} {
		j := started().add("8 08:00", sample(9.0, 50, name)).look(t, "8 08:05").PH
		if j.State != advise.PHOK || j.Last.Is.PH != 10.10 || j.Latest.Doubt.Kind != advise.DoubtStrip || j.Latest.Standing.Trust != chem.Strip {
			t.Errorf("%s: got %s, last %.2f, %+v", name, j.State, float64(j.Last.Is.PH), j.Latest.Doubt)
		}
		if len(j.Doubtful()) != 0 {
			t.Errorf("%s: a strip is no doubtful reading", name)
		}
	}
}

// Source: ruling of the trade: a rise of more than 0.12 with no soap logged is
// kept, not trusted, and the trend does not turn. A reading at another
// temperature must rise by more: by what restating may be out at 95 %, which is
// 1.645 × 0.055 for 10 K of an unknown soap. Restated it is lower by 0.16.
func TestARiseWithoutSoapIsNotTrusted(t *testing.T) {
	low := started().add("4 08:00", sample(9.80, 50, "M1"))
	soap := low.add("4 12:00", &bath.Dose{VolumeL: 0.5})
	rose := sample(9.93, 50, "M1")
	rose.Rose = bath.RoseRefill
	tests := []struct {
		name    string
		book    book
		reading *bath.Reading
		doubt   string
	}{
		{"up 0.12", low, sample(9.92, 50, "M1"), ""},
		{"up 0.13", low, sample(9.93, 50, "M1"), "up 0.13 since 4 Mar with no soap logged"},
		{"up 0.13, by another meter", low, sample(9.93, 50, "M2"), "up 0.13 since 4 Mar with no soap logged"},
		{"up 0.13 after soap", soap, sample(9.93, 50, "M1"), ""},
		{"up 0.13, answered", low, rose, ""},
		{"up 0.4 in a cooler cup, as any bath is", low, sample(10.20, 22, "M1"), ""},
		{"restated, up 0.21", low, sample(10.17, 40, "M1"), ""},
		{"restated, up 0.22", low, sample(10.18, 40, "M1"), "up 0.22 since 4 Mar with no soap logged"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			j := tt.book.add("5 08:00", tt.reading).look(t, "5 08:05").PH
			if j.Latest.Is.PH != tt.reading.PH || j.Latest.Doubt.Why != tt.doubt {
				t.Fatalf("got %.2f, %q, want %q", float64(j.Latest.Is.PH), j.Latest.Doubt.Why, tt.doubt)
			}
			if trusted := j.Last.Seq == j.Latest.Seq; trusted != (tt.doubt == "") {
				t.Errorf("trusted %v", trusted)
			}
			if tt.doubt != "" && j.State != advise.PHWatch {
				t.Errorf("got %s: the trend turned without an answer", j.State)
			}
		})
	}
}

// Soap poured before the first of two readings, or after the second, explains
// nothing; and a rise is measured from the last reading that is trusted.
func TestOnlySoapBetweenTwoReadingsExplainsARise(t *testing.T) {
	b := started().
		add("4 07:00", &bath.Dose{VolumeL: 0.5}).
		add("4 08:00", sample(9.70, 50, "M1")).
		add("5 08:00", sample(9.90, 50, "M1")).
		add("6 08:00", sample(9.95, 50, "M1")).
		add("6 09:00", &bath.Dose{VolumeL: 0.5})
	if j := b.look(t, "6 10:00").PH; len(j.Doubtful()) != 2 || j.Last.Is.PH != 9.70 {
		t.Errorf("got %d doubtful, last %.2f, want 2 and 9.70", len(j.Doubtful()), float64(j.Last.Is.PH))
	}
	b = b.add("6 10:00", sample(9.95, 50, "M1"))
	if j := b.look(t, "6 11:00").PH; len(j.Doubtful()) != 2 || j.Last.Is.PH != 9.95 || j.Last.Doubt != (advise.Doubt{}) {
		t.Errorf("after the soap: got %d doubtful, last %.2f, want 2 and 9.95", len(j.Doubtful()), float64(j.Last.Is.PH))
	}
}
