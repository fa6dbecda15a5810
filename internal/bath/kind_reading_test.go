package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestReadingRefused(t *testing.T) {
	first := func() *bath.Reading { return &bath.Reading{PH: 10.2, SampleC: 50, Baseline: true} }
	checkRefusals(t, []refusal{
		{name: "below 0", body: &bath.Reading{PH: -0.01, SampleC: 50}, id: "input", say: "a pH of -0.01 is outside 0 to 14: read it again"},
		{name: "above 14", body: &bath.Reading{PH: 14.01, SampleC: 50}, id: "input", say: "a pH of 14.01 is outside 0 to 14"},
		{name: "no sample temperature", body: &bath.Reading{PH: 10}, id: "not-liquid", say: "a sample of 32 °F is not that of a bath of water"},
		{name: "°F typed as °C", body: &bath.Reading{PH: 10, SampleC: 121}, id: "not-liquid", say: "a sample of 250 °F"},
		{name: "no fill", on: newBook, body: &bath.Reading{PH: 10, SampleC: 50}, id: "no-fill", say: "Record a pH reading: no fill is open in bath main"},
		{name: "waited a day", body: &bath.Reading{PH: 10, SampleC: 50, Waited: 86400}, id: "input", say: "a wait of 24 h is not believable"},
		{name: "first before any soap", on: justFilled, body: first(), id: "no-soap", say: "no soap is logged in this fill"},
		{name: "first dated before the soap", on: filled, ago: 150 * time.Second, body: first(), id: "no-soap", say: "no soap is logged in this fill before Mon 2 Mar 07:06"},
		{name: "first by a strip", on: filled, body: &bath.Reading{PH: 10, SampleC: 50, Meter: "Strips", Baseline: true}, id: "strip", say: "a strip is too coarse for a first reading: take it with a meter"},
		{name: "first read twice, 0.06 apart", on: filled, body: &bath.Reading{PH: 10.10, SampleC: 50, Baseline: true, Again: p(units.PH(10.16))}, id: "apart", say: "10.10 and 10.16 are 0.06 apart, and two readings of one sample must be within 0.05"},
		{name: "again above 14", body: &bath.Reading{PH: 10.1, SampleC: 50, Again: p(units.PH(14.1))}, id: "input", say: "a pH of 14.10 is outside 0 to 14"},
		{name: "again below 0", body: &bath.Reading{PH: 10.1, SampleC: 50, Again: p(units.PH(-1))}, id: "input", say: "a pH of -1.00 is outside 0 to 14"},
		{name: "another first", body: first(), id: "baseline", say: "this fill has its first reading already: 10.10 on Mon 2 Mar 07:09 (line 9); cross that one out first"},
		{name: "rose for a reason of its own", body: &bath.Reading{PH: 10, SampleC: 50, Rose: "magic"}, id: "input", say: `why it rose: "magic" is not one of soap, refill, unmixed`},
	})
}

func TestReadingTakesTheEndsOfTheScale(t *testing.T) {
	b := begun(t)
	b.log(crew, &bath.Reading{PH: 0, SampleC: 50})
	b.log(crew, &bath.Reading{PH: 14, SampleC: 50})
	b.log(crew, &bath.Reading{PH: 10.5, SampleC: 22, Baseline: true, Cooled: true}) // the pair of the first one
}

// Two readings of one sample within 0.05 are one (common practice, no source);
// floating point must not make 0.05 more than that. Only a first reading must
// agree: any other is kept as it was.
func TestReadAgain(t *testing.T) {
	for _, tt := range []struct {
		name string
		r    bath.Reading
		want string
	}{
		{"0.05 above", bath.Reading{PH: 10.10, SampleC: 50, Baseline: true, Again: p(units.PH(10.15))}, "pH 10.10 at 122 °F, first reading, again 10.15"},
		{"0.05 below", bath.Reading{PH: 10.10, SampleC: 50, Baseline: true, Again: p(units.PH(10.05))}, "pH 10.10 at 122 °F, first reading, again 10.05"},
		{"apart, and not the first", bath.Reading{PH: 9.80, SampleC: 50, Meter: "M1", Again: p(units.PH(9.90))}, "pH 9.80 at 122 °F, again 9.90, meter M1"},
		{"a strip, and not the first", bath.Reading{PH: 9.5, SampleC: 50, Meter: "strips"}, "pH 9.50 at 122 °F, meter strips"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := filled(t).log(crew, &tt.r).Say(units.US); got != tt.want {
				t.Errorf("got %s, want %s", got, tt.want)
			}
		})
	}
}
