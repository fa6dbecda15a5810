package bath_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// odd are texts that do harm where nobody looks at what they hold.
var odd = []string{
	"", "\x00", "\x1b[2J\x1b]52;c;aGk=\x07", "\u202Etxet\u2066\u2069", "\u009b31m", "1e309", "-0", "NaN", "\xed\xa0\x80\xff", "٣",
	strings.Repeat("👩\u200d🚒", 200), "שלום עליכם", strings.Repeat("long ", 400), "a\u0301\u0301\u0301\u0301\u0301\u0301", "=cmd()", "\n\r\t", "M-1,,M-1", "1/0",
}

// FuzzTyped: whatever is typed for a field of any kind is taken as something
// that can be shown and typed again, or is refused in one line that can be.
func FuzzTyped(f *testing.F) {
	specs := bath.Specs()
	for i, spec := range specs {
		for j, field := range spec.Fields {
			f.Add(byte(i), byte(j), field.Example)
			f.Add(byte(i), byte(j), odd[(i*7+j)%len(odd)])
		}
	}
	f.Fuzz(func(t *testing.T, i, j byte, text string) {
		spec := specs[int(i)%len(specs)]
		if len(spec.Fields) == 0 {
			return
		}
		field := spec.Fields[int(j)%len(spec.Fields)]
		body := spec.New()
		if err := field.Set(body, units.US.Scan, text); err != nil {
			oneLine(t, err.Error())
			return
		}
		is := field.Get(body, units.SI)
		oneLine(t, is)
		again := spec.New()
		if err := field.Set(again, units.SI.Scan, is); is != "" && err != nil {
			t.Errorf("%s %s: %q became %q, which is refused: %v", spec.Kind, field.Name, text, is, err)
		}
		e := bath.Entry{By: crew, Body: body}
		oneLine(t, e.Say(units.US))
		if _, err := json.Marshal(e); err != nil {
			t.Errorf("%s %s: %q cannot be written: %v", spec.Kind, field.Name, text, err)
		}
	})
}

// oneLine holds what is shown to one line without a sign that does harm.
func oneLine(t *testing.T, s string) {
	t.Helper()
	if strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) {
		t.Errorf("it shows %q", s)
	}
}

// FuzzEntry: a line of JSON that is read is an entry that writes as it reads,
// by the quick way and by the plain one, and is harmless once scrubbed.
func FuzzEntry(f *testing.F) {
	for _, body := range examples(f) {
		line, err := json.Marshal(bath.Entry{Seq: 7, ID: "x", At: monday, Logged: monday, By: crew, Bath: main, Body: body})
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(line))
	}
	for _, text := range odd {
		note, _ := json.Marshal(text) // a string always can
		f.Add(`{"kind":"handover","by":` + string(note) + `,"body":{"note":` + string(note) + `}}`)
	}
	f.Add(`{"kind":"reading","body":{"ph":1e309}}`)
	f.Add(`{"kind":"reading","body":{"ph":9,"ph":8},"kind":"dose"}`)
	f.Add(`{"body":{"note":"\ud800"},"kind":"handover"}`)
	f.Add(`{"kind":"foam","body":` + strings.Repeat("[", 300) + strings.Repeat("]", 300) + `}`)
	f.Fuzz(func(t *testing.T, line string) {
		var e bath.Entry
		if json.Unmarshal([]byte(line), &e) != nil {
			return
		}
		written, err := json.Marshal(e)
		if err != nil {
			return // a year that no date can be written with
		}
		var again bath.Entry
		if err := json.Unmarshal(written, &again); err != nil {
			t.Fatalf("%s was written as %s, which cannot be read: %v", line, written, err)
		}
		twice, err := json.Marshal(again)
		if err != nil || string(twice) != string(written) {
			t.Errorf("%s, then %s (%v)", written, twice, err)
		}
		e.Scrub()
		oneLine(t, e.By)
		oneLine(t, e.Say(units.US))
		oneLine(t, e.Say(units.SI))
	})
}

// FuzzWhen: a time is read to a moment that can be, never later than now but
// where its date is spelled out, or refused in one line.
func FuzzWhen(f *testing.F) {
	for _, s := range append(odd, "now", "07:05", "yesterday 07:05", "tue 07:05", "2026-03-08 02:30", "2026-11-01 01:30", "2h ago", "999d ago", "2026-03-01T07:05:00Z", "9999-12-31 23:59", "0000-01-01 00:00", "2026-03-01T07:05:00+99:99", "24:00", "monday07:05") {
		f.Add(s, int64(0))
		f.Add(s, int64(6*24*3600+3*3600))
	}
	f.Fuzz(func(t *testing.T, text string, after int64) {
		now := monday.Add(time.Duration(after%(400*24*3600)) * time.Second)
		got, err := bath.ParseWhen(text, now, units.Times{})
		if err != nil {
			if !errors.As(err, new(*bath.Refusal)) {
				t.Errorf("%q: %v is a %T", text, err, err)
			}
			oneLine(t, err.Error())
			return
		}
		s := strings.ToLower(text)
		spelled := strings.Contains(s, "-") || strings.HasPrefix(strings.TrimSpace(s), "today")
		if got.After(now) && !spelled {
			t.Errorf("%q at %v is %v, which is ahead", text, now, got)
		}
	})
}
