package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

// FuzzBook: a log book that was imported may hold any body that can be read.
// It is folded, judged and written down without a crash, and what is written
// is plain text.
func FuzzBook(f *testing.F) {
	for _, spec := range bath.Specs() {
		f.Add(string(spec.Kind), "{}")
	}
	for kind, body := range map[string]string{
		"handover":  `{"note":"\u001b[2J\u202ex\u0000\ud800"}`,
		"member":    `{"name":"\u200b \u202e","role":"officer"}`,
		"reading":   `{"ph":-0,"sample_c":1e308,"baseline":true,"meter":"\u009b"}`,
		"tank":      `{"volume_l":1e308,"ratio":-1,"heater_w":1e300}`,
		"wash":      `{"items":[{"item":"","count":-9}],"time_s":-1,"bath_c":1e308,"result":"x"}`,
		"setting":   `{"station":"\u2066","zone":"nowhere","shift":"9/9@99:99","units":"x"}`,
		"strike":    `{"target":3,"why":"\u0007","instead":{"name":""}}`,
		"start":     `{"items":[{"item":"mask","count":1}],"time_s":1e18,"bath_c":40}`,
		"gear":      `{"tag":"","item":"\u001b","made":"2021-06"}`,
		"procedure": `{"item":"mask","state":"pending","accepted":"\u202e"}`,
		"basket":    `{"bath":"main","name":"\u0000","holds":[{"item":"mask","count":2000000000}]}`,
	} {
		f.Add(kind, body)
	}
	f.Fuzz(func(t *testing.T, kind, text string) {
		body, err := bath.Decode(bath.Kind(kind), []byte(text))
		if err != nil {
			return
		}
		b := inUse()
		for _, by := range []string{"Ilse Varga", "\u202e\x00"} {
			b.add("26 05:00", by, &bath.Handover{Note: "before"}).last(func(e *bath.Entry) { e.Body = body })
			if _, known := bath.SpecOf(bath.Kind(kind)); known {
				(*b)[len(*b)-1].Bath = "main"
			}
		}
		for i := range *b {
			(*b)[i].Scrub()
		}
		state, err := bath.Fold(*b)
		if err != nil {
			return // a correction that cannot be read
		}
		x, err := advise.Assess(state, "main", at("26 06:52"))
		if err != nil {
			if !errors.As(err, new(*bath.Refusal)) { // the tank may be crossed out
				t.Fatal(err)
			}
			return
		}
		var out bytes.Buffer
		for _, err := range []error{WriteStatus(&out, x), WriteHandover(&out, x, *b), WriteTally(&out, x, nil, seal)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		checkText(t, out.String())
		if _, err := json.Marshal(NewStatus(x)); err != nil {
			t.Errorf("the status cannot be written as JSON: %v", err)
		}
	})
}
