package bath_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// examples is a body of every kind with everything in it that a form asks for.
func examples(t testing.TB) []bath.Body {
	t.Helper()
	var all []bath.Body
	for _, spec := range bath.Specs() {
		body := spec.New()
		for _, f := range spec.Fields {
			if err := f.Set(body, units.Scan, f.Example); err != nil {
				t.Fatalf("%s: %v", spec.Kind, err)
			}
		}
		all = append(all, body)
	}
	return all
}

func TestEveryKindSurvivesJSON(t *testing.T) {
	for _, body := range examples(t) {
		in := bath.Entry{Seq: 7, ID: "01J0", At: monday, Logged: monday, By: crew, Bath: main, Body: body}
		t.Run(string(in.Kind()), func(t *testing.T) {
			data, err := json.Marshal(in)
			if err != nil {
				t.Fatal(err)
			}
			var out bath.Entry
			if err := json.Unmarshal(data, &out); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(in, out); diff != "" {
				t.Errorf("-wrote +read\n%s", diff)
			}
		})
	}
}

// A 0 and a no are answers, and differ from no answer.
func TestJSONKeepsZeroAndNo(t *testing.T) {
	body := &bath.Temp{BathC: 50, SetC: p(units.Temperature(0)), Heat: p(false)}
	data, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	back, err := bath.Decode("temp", data)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(bath.Body(body), back); diff != "" {
		t.Errorf("-wrote +read\n%s", diff)
	}
}

func TestAnUnknownKindIsKeptAndShown(t *testing.T) {
	const line = `{"seq":9,"id":"a","at":"2026-03-02T07:00:00-07:00","logged":"2026-03-02T07:00:00-07:00","by":"Ana Reyes","bath":"main","kind":"foam","body":{"depth":3,"why":"<odd>"}}`
	var e bath.Entry
	if err := json.Unmarshal([]byte(line), &e); err != nil {
		t.Fatal(err)
	}
	if got, want := e.Say(units.US), "written by a newer Bathside"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	b := begun(t)
	e.Seq = b.state.Seq + 1
	state, err := b.state.Apply(e)
	if err != nil {
		t.Fatal(err)
	}
	kept := bath.Of[*bath.Unknown](state.Baths[0].Entries)
	if len(kept) != 1 || string(kept[0].Is.Raw) != `{"depth":3,"why":"<odd>"}` {
		t.Errorf("got %v", kept)
	}
}

// FuzzDecode: whatever can be decoded can be shown, checked and folded, and
// comes out of JSON as it went in.
func FuzzDecode(f *testing.F) {
	for _, body := range examples(f) {
		e := bath.Entry{Body: body}
		f.Add(string(e.Kind()), string(raw(f, body)))
	}
	for _, kind := range []string{"reading", "strike", "wash", "drain", "fill", "media", "foam"} {
		f.Add(kind, "null")
		f.Add(kind, "{}")
	}
	f.Add("strike", `{"target":6,"why":"x","instead":null}`)
	f.Add("strike", `{"target":6,"why":"x","instead":{"volume_l":1},"at":"0001-01-01T00:00:00Z"}`)
	f.Add("strike", `{"target":10,"why":"x","instead":7}`)
	f.Add("wash", `{"items":[{}],"outside":["x"]}`)
	f.Fuzz(func(t *testing.T, kind, text string) {
		body, err := bath.Decode(bath.Kind(kind), []byte(text))
		if err != nil {
			return
		}
		b := begun(t)
		for _, e := range []bath.Entry{b.draft(officer, b.now, body), b.draft(crew, monday, body), {Seq: b.state.Seq + 1, Body: body}} {
			_ = e.Say(units.US)
			_ = bath.Outside(b.state, e)
			_ = bath.Check(b.state, e, b.now)
			foldAnyway(t, b.entries, e)
		}
	})
}

// foldAnyway folds e after entries, as an import would, though no rule may
// have allowed it, and something after it.
func foldAnyway(t *testing.T, entries []bath.Entry, e bath.Entry) {
	after := bath.Entry{Seq: e.Seq + 1, At: monday, Logged: monday, By: crew, Bath: main, Body: &bath.Fill{VolumeL: 200}}
	state, err := bath.Fold(append(append([]bath.Entry{}, entries...), e, after))
	if err != nil {
		return // a correction that cannot be read
	}
	for _, tub := range state.Baths {
		for _, l := range tub.Lives() {
			l.Poured()
			l.Strength()
		}
	}
	if strike, ok := e.Body.(*bath.Strike); ok && strike.Target > 0 && strike.Target < e.Seq {
		_ = bath.CheckStrike(state, e, entries[strike.Target-1], entries[strike.Target:])
	}
}
