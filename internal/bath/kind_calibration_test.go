package bath_test

import (
	"encoding/json"
	"math"
	"slices"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// point is a buffer at 25 °C.
func point(buffer string, mv units.Potential) bath.Point {
	return bath.Point{Buffer: buffer, AtC: 25, MV: mv}
}

// twoBuffers is a calibration with a good electrode: check value C1, computed
// from the buffers of IUPAC 2002.
func twoBuffers() *bath.Calibration {
	return &bath.Calibration{Meter: "M1", Points: bath.Points{point("phosphate", 8), point("carbonate", -175)}}
}

// shown is what a meter shows after two buffers.
func shown(slope float64, offset units.Potential, at units.Temperature) *bath.Calibration {
	return &bath.Calibration{Meter: "M1", SlopePct: &slope, OffsetMV: &offset, AtC: &at}
}

// dipped is one dip at 25 °C, where carbonate is 10.01 (Staples & Bates 1969).
func dipped(read units.PH) *bath.Calibration {
	return &bath.Calibration{Meter: "M1", Check: &bath.Dip{Buffer: "carbonate", AtC: 25, PH: read}}
}

func TestCalibrationRefused(t *testing.T) {
	with := func(c *bath.Calibration, change func(*bath.Calibration)) *bath.Calibration { change(c); return c }
	points := func(p ...bath.Point) *bath.Calibration { return &bath.Calibration{Meter: "M1", Points: p} }
	hot := func(buffer string, mv units.Potential) bath.Point {
		return bath.Point{Buffer: buffer, AtC: 55, MV: mv}
	}
	checkRefusals(t, []refusal{
		{name: "no meter", body: with(dipped(10), func(c *bath.Calibration) { c.Meter = "" }), id: "missing", say: "which meter is it? Give it like --meter M2"},
		{name: "strips", body: with(dipped(10), func(c *bath.Calibration) { c.Meter = "Strips" }), id: "input", say: "strips cannot be calibrated"},
		{name: "a meter that cannot be shown", body: with(dipped(10), func(c *bath.Calibration) { c.Meter = "M\x1b[31m" }), id: "input", say: "holds signs that cannot be shown"},
		{name: "nothing measured", body: &bath.Calibration{Meter: "M1", NewElectrode: true}, id: "missing", say: "One dip, like --check carbonate@25C=9.98, or two buffers"},
		{name: "one buffer", body: points(point("phosphate", 8)), id: "input", say: "a calibration needs two or three buffers"},
		{name: "four buffers", body: points(point("phosphate", 8), point("7.00", 0), point("borax", -126), point("carbonate", -175)), id: "input", say: "there are 4: leave some out"},
		{name: "a buffer twice", body: points(point("phosphate", 8), point("phosphate", 9), point("carbonate", -175)), id: "input", say: "phosphate is there twice"},
		{name: "a buffer twice, by its bottle", body: points(point("6.86", 8), point("phosphate", 9), point("carbonate", -175)), id: "input", say: "phosphate is there twice"},
		{name: "all below the bath", body: points(point("phthalate", 170), point("phosphate", 8)), id: "input", say: "a bath reads 9 to 11.5: take borax (9.18) or carbonate (10.01)"},
		{name: "all at the bath", body: points(point("borax", -128), point("carbonate", -175)), id: "input", say: "too near the bath to give a slope"},
		// Staples & Bates, J. Res. NBS 73A, 37 (1969), measured it from 0 to 50 °C.
		{name: "carbonate above 50 °C", body: points(hot("phosphate", 8), hot("carbonate", -170)), id: "input", say: "the carbonate buffer at 55 °C has no known value"},
		{name: "dip in carbonate above 50 °C", body: with(dipped(9.8), func(c *bath.Calibration) { c.Check.AtC = 50.1 }), id: "input", say: "the carbonate buffer at 50.1 °C has no known value"},
		{name: "two temperatures", body: points(bath.Point{Buffer: "phosphate", AtC: 15, MV: 8}, point("carbonate", -175)), id: "input", say: "too far apart for one slope"},
		{name: "a lost minus", body: points(point("phosphate", 8), point("carbonate", 60)), id: "input", say: "60.0 mV in carbonate at 25 °C has the wrong sign"},
		{name: "a lost point", body: points(point("phosphate", 8), point("carbonate", -1750)), id: "input", say: "-1750.0 mV in carbonate at 25 °C is none of an electrode"},
		{name: "no such buffer", body: points(point("phosphate", 8), point("carb", -175)), id: "input", say: `"carb" is no buffer we know`},
		{name: "a buffer that cannot be shown", body: points(point("phosphate", 8), point("carbonate\n", -175)), id: "input", say: `buffer: "carbonate" holds signs that cannot be shown`},
		{name: "slope without the rest", body: &bath.Calibration{Meter: "M1", SlopePct: p(98.3)}, id: "missing", say: "slope, offset and the buffers' temperature go together"},
		{name: "offset without slope", body: &bath.Calibration{Meter: "M1", OffsetMV: p(units.Potential(1)), Check: dipped(10).Check}, id: "missing", say: "go together"},
		{name: "both ways", body: with(shown(98, 1, 25), func(c *bath.Calibration) { c.Points = twoBuffers().Points }), id: "input", say: "not both"},
		{name: "slope of no electrode", body: shown(5.8, 1, 25), id: "input", say: "a slope of 5.8 % is none of an electrode"},
		{name: "slope below nothing", body: shown(-98, 1, 25), id: "input", say: "slope of -98 is not possible"},
		{name: "slope that is no number", body: shown(math.NaN(), 1, 25), id: "input", say: "slope of NaN is not possible"},
		{name: "offset in volts", body: shown(98, 1000, 25), id: "input", say: "an offset of 1000.0 mV is none of an electrode"},
		{name: "buffers boiling", body: shown(98, 1, 95), id: "input", say: "buffers at 95 °C have no known values"},
		{name: "dip of 14.1", body: dipped(14.1), id: "input", say: "a pH of 14.10 is outside 0 to 14: read it again"},
		{name: "dip below 0", body: dipped(-1), id: "input", say: "a pH of -1.00 is outside 0 to 14"},
		{name: "dip in nothing", body: with(dipped(10), func(c *bath.Calibration) { c.Check.Buffer = "" }), id: "input", say: "no buffer was named"},
		{name: "30 February", body: with(dipped(10), func(c *bath.Calibration) { c.Expires = "2027-02-30" }), id: "input", say: `"2027-02-30" is not a date: write it like 2027-03-31`},
		{name: "day first", body: with(dipped(10), func(c *bath.Calibration) { c.Expires = "31.03.2027" }), id: "input", say: `"31.03.2027" is not a date`},
	})
}

// A poor electrode is what a calibration is there to find, and is written down.
func TestACalibrationThatFailsIsRecorded(t *testing.T) {
	b := newBook(t) // no fill is needed: a meter belongs to the station
	b.log(crew, shown(80, 45, 25))
	b.log(crew, dipped(9.2))
	if n := len(b.state.Checks); n != 2 {
		t.Errorf("%d checks are kept, want 2", n)
	}
}

// Source: check value C1, +8.0 mV at 6.865 and -175.0 mV at 10.012 (IUPAC 2002)
// are -58.151 mV/pH, 98.29 % and +0.150 mV at pH 7.
func TestLineOfBuffersIsThatOfTheMeter(t *testing.T) {
	for _, c := range []*bath.Calibration{twoBuffers(), shown(98.29, 0.150, 25)} {
		line, err := c.Line()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "slope, mV", line.SlopeMV, -58.151, 0.01)
		near(t, "slope, %", line.SlopePct, 98.29, 0.01)
		near(t, "offset, mV", line.OffsetMV, 0.150, 0.01)
	}
}

// Quantities in the log book are SI and say their unit in the key.
func TestCalibrationAsJSON(t *testing.T) {
	whole := twoBuffers()
	whole.NewElectrode, whole.Expires = true, "2027-03-31"
	for want, c := range map[string]*bath.Calibration{
		`{"meter":"M1","points":[{"buffer":"phosphate","at_c":25,"mv":8},{"buffer":"carbonate","at_c":25,"mv":-175}],"new_electrode":true,"expires":"2027-03-31"}`: whole,
		`{"meter":"M1","slope_pct":98.3,"offset_mv":0,"at_c":25}`:           shown(98.3, 0, 25),
		`{"meter":"M1","check":{"buffer":"carbonate","at_c":25,"ph":9.98}}`: dipped(9.98),
	} {
		got, err := json.Marshal(c)
		if err != nil || string(got) != want {
			t.Errorf("got  %s, %v\nwant %s", got, err, want)
		}
	}
}

// What Get prints of a body can be typed into an empty one, and the two are the
// same, whatever the units.
func TestACalibrationCanBeTypedAgain(t *testing.T) {
	full := twoBuffers()
	full.Points = append(full.Points, bath.Point{Buffer: "7.00", AtC: units.Fahrenheit(75.3), MV: -0.25})
	full.Check, full.Expires, full.NewElectrode = dipped(9.984).Check, "2027-03-31", true
	for _, want := range []*bath.Calibration{full, shown(98.34, -0.5, 25), shown(98, 0, 0), dipped(10)} {
		for _, sys := range []units.System{units.US, units.SI} {
			if got := typedAgain(t, want, sys); asText(t, got) != asText(t, want) {
				t.Errorf("%s:\ngot  %s\nwant %s", sys, asText(t, got), asText(t, want))
			}
		}
	}
}

// typedAgain sets each field of an empty body to what that of b prints.
func typedAgain(t *testing.T, b bath.Body, sys units.System) bath.Body {
	t.Helper()
	spec, _ := bath.SpecOf(bath.Entry{Body: b}.Kind())
	again := spec.New()
	for _, f := range spec.Fields {
		printed := f.Get(b, sys)
		if printed == "" {
			continue
		}
		if err := f.Set(again, sys.Scan, printed); err != nil {
			t.Fatalf("%s %s: %v", spec.Kind, f.Name, err)
		}
	}
	return again
}

func asText(t *testing.T, v any) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Of several points typed at once all are taken, or none.
func TestPointsAreTakenWhole(t *testing.T) {
	spec, _ := bath.SpecOf("calibration")
	f, _ := spec.Field("point")
	c := new(bath.Calibration)
	for _, text := range []string{"phosphate@25C=8mV, carb@25C=-175mV", "phosphate@25C=8mV,", "phosphate@25C=6.86"} {
		checkRefusal(t, f.Set(c, units.Scan, text), "input", "buffers: ")
	}
	if len(c.Points) != 0 {
		t.Errorf("got %v, want none", c.Points)
	}
	for _, text := range []string{"phosphate@25C=8mV", "7.00@77F=-1mV, 10.01@25C=-175mV"} {
		if err := f.Set(c, units.Scan, text); err != nil {
			t.Fatal(err)
		}
	}
	if got, want := f.Get(c, units.SI), "phosphate@25C=8mV, 7.00@25C=-1mV, carbonate@25C=-175mV"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestCalibrationSaysWhatWasMeasured(t *testing.T) {
	whole := twoBuffers()
	whole.NewElectrode, whole.Expires = true, "2027-03-31"
	for want, c := range map[string]*bath.Calibration{
		"meter M1, phosphate at 77 °F 8.0 mV, carbonate at 77 °F -175.0 mV, new electrode, buffers expire 2027-03-31": whole,
		"meter M1, slope 98.3 %, offset 0.2 mV, buffers at 77 °F":                                                     shown(98.3, 0.2, 25),
		"meter M1, read 9.98 in carbonate at 77 °F":                                                                   dipped(9.98),
	} {
		if got := (bath.Entry{Body: c}).Say(units.US); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
}

// An imported log book may hold what the door refuses. It is shown, and reckons
// to an error.
func TestAnImportedCalibrationIsHarmless(t *testing.T) {
	for _, raw := range []string{
		`{"meter":"M1","slope_pct":98.3}`,
		`{"meter":"M1","slope_pct":98.3,"offset_mv":1}`,
		`{"slope_pct":98.3,"points":[{"buffer":"x"}]}`,
		`{"points":[{"buffer":"car\u001b[2Jb","at_c":900}],"check":{"buffer":"\u202ecarb"}}`,
		`{}`,
	} {
		body, err := bath.Decode("calibration", []byte(raw))
		if err != nil {
			t.Fatal(err)
		}
		e := bath.Entry{Body: body}
		e.Scrub()
		for _, r := range e.Say(units.US) {
			if r < ' ' || r == 0x202e {
				t.Errorf("%s: %q is left", raw, r)
			}
		}
		if _, err := body.(*bath.Calibration).Line(); err == nil {
			t.Errorf("%s: it has a line", raw)
		}
	}
}

func TestChecksAreKeptByTime(t *testing.T) {
	b := newBook(t)
	noon := b.now.Add(5 * time.Hour)
	b.wait(24 * time.Hour)
	second := b.log(crew, dipped(9.98))
	first := b.late(crew, noon, twoBuffers())
	same := b.late(crew, noon, dipped(9.97))
	checkSeqs(t, b.state.Checks, first.Seq, same.Seq, second.Seq)
}

func checkSeqs(t *testing.T, entries []bath.Entry, want ...uint64) {
	t.Helper()
	var got []uint64
	for _, e := range entries {
		got = append(got, e.Seq)
	}
	if !slices.Equal(got, want) {
		t.Errorf("got lines %v, want %v", got, want)
	}
}

// Four years of one a week are kept, the last ones, whether they are folded one
// by one or all at once.
func TestTheLast200ChecksAreKept(t *testing.T) {
	b := newBook(t)
	for i := range 203 {
		b.wait(7 * 24 * time.Hour)
		b.log(crew, dipped(units.PH(9.8+float64(i)/1000)))
	}
	checks := b.state.Checks
	if len(checks) != 200 || checks[0].Seq != 9 || checks[199].Seq != 208 {
		t.Fatalf("got %d checks, lines %d to %d, want 200, 9 to 208", len(checks), checks[0].Seq, checks[len(checks)-1].Seq)
	}
	b.late(crew, monday.Add(time.Hour), dipped(9)) // older than all of them
	if got := b.state.Checks[0].Seq; got != 9 {
		t.Errorf("the first is line %d, want 9", got)
	}
	if err := b.strike(officer, b.entries[207], nil); err != nil { // one that was let go comes back
		t.Fatal(err)
	}
	if got := b.state.Checks; len(got) != 200 || got[0].Seq != 8 {
		t.Errorf("got %d checks from line %d, want 200 from line 8", len(got), got[0].Seq)
	}
}

func TestACrossedOutCheckIsGone(t *testing.T) {
	b := newBook(t)
	first := b.log(crew, dipped(9.2))
	second := b.log(crew, dipped(9.98))
	if err := b.strike(crew, first, nil); err != nil {
		t.Fatal(err)
	}
	checkSeqs(t, b.state.Checks, second.Seq)
}

func TestACheckCanBeCorrected(t *testing.T) {
	b := newBook(t)
	e := b.log(crew, dipped(9.2))
	b.wait(time.Minute)
	bad := b.draft(crew, b.now, &bath.Strike{Target: e.Seq, Why: "wrong", Instead: []byte(`{"meter":"strips","check":{"buffer":"carbonate","at_c":25,"ph":9.98}}`)})
	checkRefusal(t, b.try(bad), "input", "strips cannot be calibrated")
	if err := b.strike(crew, e, dipped(9.98)); err != nil {
		t.Fatal(err)
	}
	checkSeqs(t, b.state.Checks, e.Seq)
	if got := b.state.Checks[0].Body.(*bath.Calibration).Check.PH; got != 9.98 {
		t.Errorf("got %v, want 9.98", got)
	}
}

// The meter that a reading is taken with, where nobody says, is the one last
// read with; before any reading, the one last held against a buffer.
func TestLastMeter(t *testing.T) {
	b := filled(t)
	want := func(when, meter string) {
		t.Helper()
		if got := b.state.LastMeter(main); got != meter {
			t.Errorf("%s: got %q, want %q", when, got, meter)
		}
	}
	want("before any", "")
	c := dipped(9.98)
	c.Meter = "M7"
	b.log(crew, c)
	want("after a dip", "M7")
	b.log(crew, &bath.Reading{PH: 10, SampleC: 50, Meter: "M2"})
	b.log(crew, c)
	want("read, then another dipped", "M2")
	b.log(crew, &bath.Reading{PH: 10, SampleC: 50, Meter: "strips"})
	want("after a strip", "M2")
	if got := b.state.LastMeter("elsewhere"); got != "M7" {
		t.Errorf("in no bath: got %q, want M7", got)
	}
}
