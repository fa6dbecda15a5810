package report

import (
	"bytes"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/units"
)

// typed draws what people and broken files put into a log book.
var typed = rapid.StringOfN(rapid.RuneFrom([]rune("ab é漢🚒\x1b[31m\a\n\t\r\u009b\u200b\u202e\u2028\ufe0f\u0301…·°-")), 0, 120, -1)

// Nothing that is typed puts an escape into the output, or makes a line wider
// than the page.
func TestNothingTypedBreaksTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		say := func(what string) string { return typed.Draw(t, what) }
		name := say("name")
		b := inUse().
			add("26 01:00", "Ilse Varga", &bath.Setting{Station: say("station")}).
			add("26 01:00", "Ilse Varga", &bath.Tank{Name: say("bath"), Mark: say("mark"), Sewer: say("sewer"), Container: say("container")}).
			add("26 01:00", "Ilse Varga", &bath.Tank{VolumeL: units.Gallons(20)}).last(func(e *bath.Entry) { e.Bath = "x" + say("id") }).
			add("26 01:05", "Ilse Varga", &bath.Member{Name: "Y" + name}).
			add("26 02:00", name, &bath.Reading{PH: 10.02, SampleC: 49, Meter: say("meter")}).
			add("26 03:00", name, &bath.Hold{Cause: "other", Why: say("why")}).
			add("26 04:00", name, &bath.Handover{Note: say("note")}).
			add("26 05:00", name, &bath.Decision{Choice: bath.ChoiceKeep, Why: say("reason")})
		x := b.look(t, "26 06:52")
		item := catalog.Item{Name: say("item"), Plural: say("items"), Limit: catalog.Limit{At: 43, Printed: say("limit")}}
		item.Minutes = catalog.Minutes{Light: 3, Normal: 4, Heavy: 5, Longest: 6}
		item.Checks = []catalog.Check{{Say: say("check")}}
		var out bytes.Buffer
		for _, err := range []error{
			WriteStatus(&out, x), WriteHandover(&out, x, *b), WriteTally(&out, x, []catalog.Item{item}, seal),
			WriteDecision(&out, x, decide(t, x), x.TopUp(1)),
		} {
			if err != nil {
				t.Fatal(err)
			}
		}
		checkText(t, out.String())
	})
}

func TestHang(t *testing.T) {
	for name, c := range map[string]struct{ label, say, want string }{
		"beside its label": {"  now", "one two", "  now   one two\n"},
		"wrapped":          {"x", strings.Repeat("word ", 20), "x" + strings.Repeat(" ", 7) + strings.Repeat("word ", 13) + "word\n" + strings.Repeat(" ", 8) + strings.TrimSpace(strings.Repeat("word ", 6)) + "\n"},
		"label too long":   {"a long label", "one", "a long label\n        one\n"},
		"nothing to say":   {"x", "", "x\n"},
	} {
		t.Run(name, func(t *testing.T) {
			var got text
			got.hang(c.label, 8, c.say)
			if got.String() != c.want {
				t.Errorf("got  %q\nwant %q", got.String(), c.want)
			}
		})
	}
}
