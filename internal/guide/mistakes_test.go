package guide_test

import (
	"errors"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/catalog"
	"bathside/internal/guide"
)

// whole is a guide without a mistake: eight lines.
const whole = `name = "Rinse"
for = "after every wash"

[[step]]
what = "Rinse it"
why = "soap must not dry on"
check = "rinsed"
`

func TestMistakesAreNamedWithTheirLine(t *testing.T) {
	step := func(way string) string { return strings.Replace(whole, `check = "rinsed"`, way, 1) }
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"none", whole, nil},
		{"no TOML", "name = Rinse\n", []string{"guides/x.toml:1: this is not TOML as a guide has it: "}},
		{"no step", "name = \"Rinse\"\nfor = \"x\"\n", []string{"guides/x.toml:1: there is no [[step]]: write at least one"}},
		{"no name", strings.Replace(whole, "name = \"Rinse\"\n", "", 1), []string{`guides/x.toml:1: "name" is missing or empty: write words in quotes`}},
		{"a field nobody knows", whole + "reason = \"x\"\n", []string{`guides/x.toml:8: "step.reason" is not known here: a guide has name, for and [[step]]; a step has what, why, caution, do, preset, repeat, check, wait`}},
		{"a number for words", step("check = 4"), []string{"guides/x.toml:7: this is not TOML as a guide has it: "}},
		{"no why", strings.Replace(whole, `why = "soap must not dry on"`, "", 1), []string{`guides/x.toml:4: "why" is missing or empty: write words in quotes`}},
		{"too long for the screen", strings.Replace(whole, "Rinse it", strings.Repeat("rinse ", 16), 1), []string{`guides/x.toml:5: "what" has 96 letters: at most 90 fit on the screen; say it shorter`}},
		{"signs that move the cursor", strings.Replace(whole, "Rinse it", `Rinse\u001b[2J`, 1), []string{`guides/x.toml:5: "what" holds signs that cannot be shown: write it in one line without them`}},
		{"nothing lets it pass", step(""), []string{"guides/x.toml:4: step 1 has 0 of do, check and wait: write the one that lets it pass"}},
		{"two ways", whole + "wait = \"2 min\"\n", []string{"guides/x.toml:4: step 1 has 2 of do, check and wait: write the one that lets it pass"}},
		{"no span", step(`wait = "a while"`), []string{`guides/x.toml:7: "wait" is "a while": write how long, such as "15 min", or "wash" for the timer of the wash`}},
		{"no such kind", step(`do = "rinse"`), []string{`guides/x.toml:7: rinse: "rinse" is not a kind of entry here: use one of `}},
		{"no such field", step("do = \"filter\"\npreset = { minutes = \"30\" }"), []string{`guides/x.toml:8: filter: a filter has no "minutes": its fields are `}},
		{"what cannot be typed", step("do = \"filter\"\n\n[step.preset]\ntime = \"thirty\""), []string{`guides/x.toml:9: filter: `}},
		{"a preset for nothing", whole + "preset = { time = \"30min\" }\n", []string{`guides/x.toml:8: "preset" fills in an entry, and the step has none: write its kind as "do"`}},
		{"nothing to repeat", whole + "repeat = true\n", []string{`guides/x.toml:8: "repeat" asks for an entry again, and the step has none: write its kind as "do"`}},
		{"two at once, by line", strings.Replace(step(`wait = "x"`), `what = "Rinse it"`, "", 1), []string{`guides/x.toml:4: "what" is missing`, `guides/x.toml:7: "wait" is "x"`}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := guide.Load(fstest.MapFS{"guides/x.toml": {Data: []byte(c.text)}}, typed)
			var got catalog.Mistakes
			if errors.As(err, &got); len(got) != len(c.want) {
				t.Fatalf("got %v, want %d mistakes", err, len(c.want))
			}
			for i, want := range c.want {
				if !strings.HasPrefix(got[i].Error(), want) {
					t.Errorf("got  %s\nwant %s", got[i], want)
				}
			}
		})
	}
}

func TestReadsWhatIsWritten(t *testing.T) {
	const text = "\xef\xbb\xbf" + `name = "Filter"
for = "once a day"
[[step]]
what = "Let it run"
why = "it takes grit out"
caution = "Ultrasound off."
wait = "30 min"
[[step]]
what = "Log it"
why = "hours count"
do = "filter"
preset = { time = "30min" }
[[step]]
what = "Stay"
why = "it may rattle"
wait = "wash"
`
	got, err := guide.Load(fstest.MapFS{"guides/short.toml": {Data: []byte(text)}}, typed)
	if err != nil {
		t.Fatal(err)
	}
	want := []guide.Guide{{ID: "short", Name: "Filter", For: "once a day", Steps: []guide.Step{
		{What: "Let it run", Why: "it takes grit out", Caution: "Ultrasound off.", Wait: 1800},
		{What: "Log it", Why: "hours count", Do: "filter", Preset: map[string]string{"time": "30min"}},
		{What: "Stay", Why: "it may rattle", UntilWashed: true},
	}}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
