package jsonline_test

import (
	"encoding/json"
	"strings"
	"testing"

	"bathside/internal/jsonline"
)

func TestCheck(t *testing.T) {
	deep := func(n int) string { return `{"a":` + strings.Repeat("[", n-1) + strings.Repeat("]", n-1) + "}" }
	for text, want := range map[string]string{
		`{}`: "", `{"a":1,"b":{"a":[{"a":1},{"a":2}]}}`: "", deep(jsonline.MaxDepth): "",
		`{"ph":9.8,"ph":9.1}`:                `"ph" stands in it twice`,
		`{"ph":9.8,"PH":9.1}`:                `"PH" stands in it twice`,
		`{"Kind":"a","\u212aind":"b"}`:       "stands in it twice", // the Kelvin sign is a k in another case
		`{"b":{"x":1,"y":[{"z":1,"z":2}]}}`:  `"z" stands in it twice`,
		"{\"a\u202e\x1b\":1,\"a\u202e\":2}":  "it is not JSON",
		"{\"a\u202e\":1,\"a\u202e\":2}":      `"a\u202e" stands in it twice`,
		deep(jsonline.MaxDepth + 1):          "nested more than 32 deep",
		deep(100_000):                        "nested more than 32 deep",
		strings.Repeat(`{"a":`, 9_000) + "1": "nested more than 32 deep",
		``:                                   "it is cut off", `{"a":1`: "it is cut off", `{"a":`: "it is cut off",
		`[1]`: "not a JSON object", `1`: "not a JSON object", `{} {}`: "more than one value", `{"a":1}x`: "more than one value",
		`{a:1}`: "it is not JSON", `{"a":NaN}`: "it is not JSON",
	} {
		err := jsonline.Check([]byte(text))
		if got := say(err); want == "" && err != nil || !strings.Contains(got, want) {
			t.Errorf("%.60s: got %q, want %q", text, got, want)
		}
	}
}

func say(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// FuzzCheck: what is let through is an object to the standard decoder too, and
// writing it again keeps every name.
func FuzzCheck(f *testing.F) {
	for _, s := range []string{`{"a":1,"b":[true,null,{"c":"d"}]}`, `{"a":1,"A":2}`, `{"\ud800":1,"\udfff":2}`, `{"a":1e309,"b":-0}`, `{"a":{"b":{"c":{}}}}`, "{\"\xff\":1}", `{"K":1,"k":2}`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if jsonline.Check([]byte(s)) != nil {
			return
		}
		var top map[string]json.RawMessage
		if err := json.Unmarshal([]byte(s), &top); err != nil {
			t.Fatalf("%q was let through: %v", s, err)
		}
		again, err := json.Marshal(top)
		if err != nil {
			t.Fatal(err)
		}
		if err := jsonline.Check(again); err != nil {
			t.Errorf("%q became %q: %v", s, again, err)
		}
	})
}
