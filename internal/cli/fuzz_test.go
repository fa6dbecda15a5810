package cli

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// said holds an error to a refusal in one line that is safe to show.
func said(t *testing.T, a *app, err error) {
	t.Helper()
	f := a.faultOf(err)
	if f.Kind != kindRefused && f.Kind != kindUsage {
		t.Errorf("%v is a %s, not a refusal", err, f.Kind)
	}
	if len(f.Say) > 4000 || strings.ContainsFunc(f.Say, func(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }) {
		t.Errorf("it is refused with %q", f.Say)
	}
}

// odd are texts that do harm where nobody looks at what they hold.
var odd = []string{
	"\x00", "\x1b[2J\x1b]52;c;aGk=\x07", "\u202Etxet", "\u009b31m", "1e309", "NaN", "\xed\xa0\x80\xff",
	strings.Repeat("👩\u200d🚒", 200), "שלום", strings.Repeat("x", 70_000), strings.Repeat("[", 40), "=cmd()", "'=cmd()", "\"", ";",
}

// FuzzGearCSV: a gear list is read into pieces that can be shown, or refused
// with its row.
func FuzzGearCSV(f *testing.F) {
	f.Add("tag,item,made\nM-1,mask,2021-06\n")
	f.Add("\uFEFFMade;Tag;Item\r\n06/2021;M-1;mask\r\n")
	f.Add("tag\n\"M-1\n")
	f.Add("tag,tag\nM-1,M-2\n")
	for _, text := range odd {
		f.Add("tag,model\nM-1," + text + "\n")
		f.Add(text + ",tag\n1,M-1\n")
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := readGear(strings.NewReader(text))
		if err != nil {
			said(t, &app{}, err)
			return
		}
		for _, row := range rows {
			e := bath.Entry{Body: &row.gear}
			before := row.gear
			if e.Scrub(); row.gear != before {
				t.Errorf("row %d holds what cannot be shown: %q", row.line, before)
			}
		}
	})
}

// FuzzStream: a line of log --stream is an entry without a name that is lost,
// or is refused.
func FuzzStream(f *testing.F) {
	for _, spec := range bath.Specs() {
		body := spec.New()
		text, err := json.Marshal(body)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(`{"kind":"` + string(spec.Kind) + `","by":"AR","at":"07:05","body":` + string(text) + `}`)
	}
	f.Add(`{"kind":"reading","body":{"ph":9.8,"PH":9.1}}`)
	f.Add(`{"kind":"reading","body":{"ph":1e309,"sample_c":-0}}`)
	f.Add(`{"kind":"temp","body":{"bath_c":48}} {}`)
	f.Add(`{"kind":"wash","body":{"items":` + strings.Repeat("[", 5000) + strings.Repeat("]", 5000) + `}}`)
	for _, text := range odd {
		word, _ := json.Marshal(text) // a string always can
		for _, name := range []string{"kind", "by", "at", "bath", "id"} {
			f.Add(`{"kind":"handover","` + name + `":` + string(word) + `,"body":{"note":` + string(word) + `}}`)
		}
		f.Add(text)
	}
	s := bath.NewState()
	s.Members = []bath.Member{{Name: "Ana Reyes", Role: bath.Officer, Initials: "AR"}}
	now := time.Date(2026, 3, 8, 3, 30, 0, 0, time.UTC)
	a := &app{Process: Process{Getenv: func(string) string { return "" }, Now: func() time.Time { return now }}}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := a.readDraft(s, []byte(text))
		if err != nil {
			said(t, a, err)
			return
		}
		if d.Body == nil {
			t.Fatalf("%q is an entry without a body", text)
		}
		e := bath.Entry{At: now, Logged: now, By: d.By, Bath: d.Bath, Body: d.Body}
		if err := bath.Check(s, e, now); err != nil && !errors.As(err, new(*bath.Refusal)) {
			t.Errorf("%q: the door says %v, a %T", text, err, err)
		} else if err != nil {
			said(t, a, err)
		}
	})
}

// FuzzImport: lines from anywhere make a station file that opens, or none.
func FuzzImport(f *testing.F) {
	path := newStationFile(f)
	st, err := station.Open(path, station.Options{})
	if err != nil {
		f.Fatal(err)
	}
	var lines strings.Builder
	if err := st.Export(&lines); err != nil {
		f.Fatal(err)
	}
	if err := st.Close(); err != nil {
		f.Fatal(err)
	}
	whole := lines.String()
	f.Add(whole)
	f.Add(whole[:len(whole)/2])
	f.Add(strings.Replace(whole, `"seq":2`, `"seq":2,"seq":2`, 1))
	f.Add(strings.ReplaceAll(whole, "\n", "\r\n\n"))
	for _, text := range odd {
		f.Add(text + "\n" + whole)
		f.Add(strings.Replace(whole, "Drill", text, 1))
	}
	f.Fuzz(func(t *testing.T, text string) {
		path := t.TempDir() + "/copy.db"
		n, err := station.Import(path, strings.NewReader(text))
		if err != nil {
			if _, open := station.Open(path, station.Options{}); !errors.Is(open, station.ErrNotExist) {
				t.Errorf("refused, and yet there is a file: %v", open)
			}
			return
		}
		st, err := station.Open(path, station.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = st.Close() }()
		var again strings.Builder
		if err := st.Export(&again); err != nil || uint64(strings.Count(again.String(), "\n")) != n {
			t.Errorf("%d lines were taken and %d come out (%v)", n, strings.Count(again.String(), "\n"), err)
		}
	})
}
