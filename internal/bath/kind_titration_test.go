package bath_test

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func burette(mL float64) bath.Burette { return bath.Burette(mL / 1000) }

// dropTest is 10 mL of the bath with 0.1 N acid.
func dropTest(to83 float64, to45 *float64) *bath.Titration {
	t := &bath.Titration{SampleL: burette(10), AcidN: 0.1, To83L: burette(to83)}
	if to45 != nil {
		t.To45L = p(burette(*to45))
	}
	return t
}

func TestTitrationRefused(t *testing.T) {
	with := func(change func(*bath.Titration)) *bath.Titration {
		d := dropTest(4, nil)
		change(d)
		return d
	}
	checkRefusals(t, []refusal{
		{name: "crew", body: dropTest(4, nil), id: "role", say: "is for a gear officer"},
		{name: "no fill", on: newBook, by: officer, body: dropTest(4, nil), id: "no-fill", say: "Log a drop test: no fill is open"},
		{name: "volumes that cross", by: officer, body: dropTest(6, p(4.0)), id: "input", say: "4 mL to pH 4.5 is less than 6 mL to pH 8.3: count both from the start"},
		{name: "never pink", by: officer, body: dropTest(0, nil), id: "input", say: "the sample was never pink"},
		{name: "no soap at all", by: officer, body: dropTest(0, p(0.0)), id: "input", say: "there is no soap in the sample"},
		{name: "no sample", by: officer, body: with(func(d *bath.Titration) { d.SampleL = 0 }), id: "input", say: "a sample of 0 mL is none for a drop test"},
		{name: "a bucket", by: officer, body: with(func(d *bath.Titration) { d.SampleL = 1.1 }), id: "input", say: "a sample of 1100 mL is none for a drop test"},
		{name: "acid off the shelf", by: officer, body: with(func(d *bath.Titration) { d.AcidN = 5 }), id: "input", say: "acid of 5 N is none for a drop test: 0.001 to 2 are allowed"},
		{name: "less than none", by: officer, body: dropTest(-1, nil), id: "input", say: "acid to pH 8.3 of -0.001 is not possible"},
		{name: "litres for millilitres", by: officer, body: with(func(d *bath.Titration) { d.To83L = 41 }), id: "input", say: "41000 mL of acid to pH 8.3 is not believable"},
	})
}

func TestTitrationFieldsRefused(t *testing.T) {
	for _, tt := range []struct{ field, text, say string }{
		{"acid", "0.1M", `"0.1M" is not the strength of an acid: write it like 0.1N`},
		{"acid", "0N", `"0N" is not the strength`},
		{"acid", "-0.1N", `"-0.1N" is not the strength`},
		{"acid", "NaN", `"NaN" is not the strength`},
		{"acid", "InfN", `"InfN" is not the strength`},
		{"acid", "12N", `"12N" is not the strength`},
		{"acid", "N", `"N" is not the strength`},
		{"acid", "weak\x1b[2J", `"weak[2J" is not the strength`},
		{"sample", "10", `"10" has no unit`},
		{"to-8.3", "4.1C", `is a temperature, not a volume`},
		{"to-4.5", "-6mL", `"-6`},
	} {
		spec, _ := bath.SpecOf("titration")
		f, ok := spec.Field(tt.field)
		if !ok {
			t.Fatalf("no field %s", tt.field)
		}
		checkRefusal(t, f.Set(spec.New(), units.Scan, tt.text), "input", tt.say)
	}
}

// Source: Standard Methods 2320 B, mL x N / mL of sample, from memory: 4.1 mL of
// 0.1 N in 10 mL are 0.041 equivalents to the litre.
func TestADropTestIsKeptWithItsFill(t *testing.T) {
	b := begun(t)
	e := b.log(officer, dropTest(4.1, p(6.0)))
	kept := bath.Of[*bath.Titration](b.life().Entries)
	if len(kept) != 1 || kept[0].Seq != e.Seq {
		t.Fatalf("got %d drop tests", len(kept))
	}
	a, err := kept[0].Is.Alkalinity()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "to 8.3", a.P, 0.041, 1e-9)
	near(t, "in all", a.T, 0.060, 1e-9)

	if err := b.strike(officer, e, dropTest(4.2, nil)); err != nil {
		t.Fatal(err)
	}
	if a, _ = bath.Of[*bath.Titration](b.life().Entries)[0].Is.Alkalinity(); a.T != 0 {
		t.Errorf("corrected: got %v in all, want none", a.T)
	}
	near(t, "corrected", a.P, 0.042, 1e-9)
	if err := b.strike(officer, e, nil); err != nil {
		t.Fatal(err)
	}
	if n := len(bath.Of[*bath.Titration](b.life().Entries)); n != 0 {
		t.Errorf("crossed out: %d are left", n)
	}
}

// A burette reads in millilitres in every system of units; the log book is SI.
func TestTitrationAsTextAndJSON(t *testing.T) {
	d := dropTest(4.125, p(6.0))
	for _, sys := range []units.System{units.US, units.SI} {
		if got, want := (bath.Entry{Body: d}).Say(sys), "drop test: 4.125 mL of 0.1N acid to pH 8.3, 6 mL to 4.5 in a sample of 10 mL"; got != want {
			t.Errorf("%s: got %s, want %s", sys, got, want)
		}
		if got := typedAgain(t, d, sys); asText(t, got) != asText(t, d) {
			t.Errorf("%s: typed again it is %s, not %s", sys, asText(t, got), asText(t, d))
		}
	}
	if got, want := asText(t, d), `{"sample_l":0.01,"acid_n":0.1,"to_8_3_l":0.004125,"to_4_5_l":0.006}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
