package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// The limits below (0.3 and 0.5 pH; 0.62 with the meter of the first reading,
// 0.83 with another; 3 °C; a rise of 0.12) are common practice, no source.

func TestTheDropDecidesTheState(t *testing.T) {
	tests := []struct {
		name  string
		ph    units.PH // the first was 10.10
		meter string
		want  bath.PHState
	}{
		{"as at first", 10.10, "M1", bath.PHOK},
		{"up a little", 10.20, "M1", bath.PHOK},
		{"down 0.29", 9.81, "M1", bath.PHOK},
		{"down 0.30", 9.80, "M1", bath.PHWatch},
		{"down 0.49", 9.61, "M1", bath.PHWatch},
		{"down 0.50", 9.60, "M1", bath.PHAtLimit},
		{"down 0.61", 9.49, "M1", bath.PHAtLimit},
		{"down 0.62", 9.48, "M1", bath.PHPast},
		{"down 0.62, another meter", 9.48, "M2", bath.PHAtLimit},
		{"down 0.82, another meter", 9.28, "M2", bath.PHAtLimit},
		{"down 0.83, another meter", 9.27, "M2", bath.PHPast},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			b.log(crew, &bath.Reading{PH: tt.ph, SampleC: 50, Meter: tt.meter})
			j := b.life().Judge(0.5)
			if j.State != tt.want {
				t.Errorf("got %s, want %s", j.State, tt.want)
			}
			near(t, "drop", *j.Drop, 10.10-float64(tt.ph), 1e-9)
		})
	}
}

// The common example of the trade: from 10.10 a reading of 9.60 at the same
// temperature is at the limit. Common practice, no source.
func TestTheStationsOwnLimitCounts(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Reading{PH: 9.60, SampleC: 50, Meter: "M1"})
	for limit, want := range map[float64]bath.PHState{0.5: bath.PHAtLimit, 0.8: bath.PHOK, 0.7: bath.PHWatch, 0.38: bath.PHPast} {
		if got := b.life().Judge(limit).State; got != want {
			t.Errorf("limit %v: got %s, want %s", limit, got, want)
		}
	}
}

func TestLikeIsComparedWithLike(t *testing.T) {
	tests := []struct {
		name    string
		pair    bool // a cooled cup at 22 °C was read at the start
		sample  units.Temperature
		want    bath.PHState
		against units.PH // of the first readings, 0 for neither
	}{
		{"within 3 °C", false, 47, bath.PHOK, 10.10},
		{"just over 3 °C", false, 46.9, bath.PHUnknown, 0},
		{"warmer by 3 °C", false, 53, bath.PHOK, 10.10},
		{"cold, no cooled pair", false, 22, bath.PHUnknown, 0},
		{"cold, with the cooled pair", true, 22, bath.PHAtLimit, 10.60},
		{"cold by 3 °C, with the pair", true, 25, bath.PHAtLimit, 10.60},
		{"hot, with the pair", true, 50, bath.PHOK, 10.10},
		{"between the two", true, 35, bath.PHUnknown, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			if tt.pair {
				b.log(crew, &bath.Reading{PH: 10.60, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true})
			}
			b.log(crew, &bath.Reading{PH: 10.05, SampleC: tt.sample, Meter: "M1"})
			j := b.life().Judge(0.5)
			if j.State != tt.want {
				t.Errorf("got %s, want %s", j.State, tt.want)
			}
			if (j.Against == nil) != (tt.against == 0) || j.Against != nil && j.Against.Is.PH != tt.against {
				t.Errorf("compared with %+v, want %v", j.Against, tt.against)
			}
			if tt.want == bath.PHUnknown && (j.Why == "" || j.Drop != nil) {
				t.Errorf("unknown without a reason, or with a drop: %+v", j)
			}
		})
	}
}

func TestNothingIsEverPromotedToFirstReading(t *testing.T) {
	b := filled(t)
	b.log(crew, &bath.Reading{PH: 10.10, SampleC: 50})
	if j := b.life().Judge(0.5); j.State != bath.PHUnknown || j.First != nil || j.Why != "no first reading: name one" {
		t.Errorf("never named: got %s, first %v, %q", j.State, j.First, j.Why)
	}
	first := b.log(crew, &bath.Reading{PH: 10.12, SampleC: 50, Baseline: true})
	b.log(crew, &bath.Reading{PH: 10.00, SampleC: 50})
	b.late(crew, first.At.Add(-90*time.Second), &bath.Reading{PH: 10.15, SampleC: 50})
	if j := b.life().Judge(0.5); j.First == nil || j.First.Seq != first.Seq || j.State != bath.PHOK {
		t.Errorf("a back-dated reading changed the first: %+v", j.First)
	}
	if err := b.strike(officer, first, nil); err != nil {
		t.Fatal(err)
	}
	j := b.life().Judge(0.5)
	if j.State != bath.PHUnknown || j.First != nil || j.Drop != nil {
		t.Errorf("first one crossed out: got %s, first %+v", j.State, j.First)
	}
	if j.Latest == nil || j.Latest.Is.PH != 10.00 {
		t.Errorf("the readings themselves are gone: %+v", j.Latest)
	}
	b.log(crew, &bath.Reading{PH: 10.01, SampleC: 50, Baseline: true})
	if j := b.life().Judge(0.5); j.State != bath.PHOK || j.First.Is.PH != 10.01 {
		t.Errorf("named again: got %s, first %+v", j.State, j.First)
	}
}

func TestNoReadingIsUnknownNotOK(t *testing.T) {
	if j := filled(t).life().Judge(0.5); j.State != bath.PHUnknown || j.Why == "" {
		t.Errorf("got %s, %q", j.State, j.Why)
	}
}

func TestARiseWithoutSoapIsNotTrusted(t *testing.T) {
	tests := []struct {
		name     string
		ph       units.PH // after 9.70
		soap     bool
		reading  bath.Reading
		doubtful bool
	}{
		{name: "up 0.12", ph: 9.82},
		{name: "up 0.13", ph: 9.83, doubtful: true},
		{name: "up 0.13 after soap", ph: 9.83, soap: true},
		{name: "up 0.13, answered", ph: 9.83, reading: bath.Reading{Rose: bath.RoseSoap}},
		{name: "up 0.5 in a cooler cup", ph: 10.20, reading: bath.Reading{SampleC: 22}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			b.log(crew, &bath.Reading{PH: 9.70, SampleC: 50, Meter: "M1"})
			if tt.soap {
				b.log(crew, &bath.Dose{VolumeL: 0.5})
			}
			r := tt.reading
			r.PH, r.Meter = tt.ph, "M1"
			if r.SampleC == 0 {
				r.SampleC = 50
			}
			e := b.log(crew, &r)
			j := b.life().Judge(0.5)
			if got := len(j.Doubtful) > 0; got != tt.doubtful {
				t.Fatalf("doubtful: got %v, want %v", got, tt.doubtful)
			}
			trusted := j.Last.Seq == e.Seq
			if trusted == tt.doubtful || j.Latest.Seq != e.Seq {
				t.Errorf("last trusted is line %d, latest %d, this one %d", j.Last.Seq, j.Latest.Seq, e.Seq)
			}
			if tt.doubtful && (j.Doubtful[0].Why != "up 0.13 since 2 Mar with no soap logged" || j.State != bath.PHWatch) {
				t.Errorf("got %s, %q: the trend does not turn without an answer", j.State, j.Doubtful[0].Why)
			}
		})
	}
}

// Soap poured before the first of two readings, or after the second, explains
// nothing; and a rise is measured from the last reading that is trusted.
func TestOnlySoapBetweenTwoReadingsExplainsARise(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Dose{VolumeL: 0.5})
	b.log(crew, &bath.Reading{PH: 9.70, SampleC: 50, Meter: "M1"})
	b.log(crew, &bath.Reading{PH: 9.90, SampleC: 50, Meter: "M1"})
	b.log(crew, &bath.Reading{PH: 9.95, SampleC: 50, Meter: "M1"})
	b.log(crew, &bath.Dose{VolumeL: 0.5})
	if j := b.life().Judge(0.5); len(j.Doubtful) != 2 || j.Last.Is.PH != 9.70 {
		t.Errorf("got %d doubtful, last %v, want 2 and 9.70", len(j.Doubtful), j.Last.Is.PH)
	}
	b.log(crew, &bath.Reading{PH: 9.95, SampleC: 50, Meter: "M1"})
	if j := b.life().Judge(0.5); len(j.Doubtful) != 2 || j.Last.Is.PH != 9.95 {
		t.Errorf("after the soap: got %d doubtful, last %v, want 2 and 9.95", len(j.Doubtful), j.Last.Is.PH)
	}
}
