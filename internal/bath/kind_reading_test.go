package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
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
