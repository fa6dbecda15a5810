package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"bathside/internal/bath"
	"bathside/internal/journal"
	"bathside/internal/units"
)

// evil holds what does harm in a terminal: it clears the screen, writes to the
// clipboard, rings, turns text around, climbs over other rows, and is long.
const evil = "\x1b[2J\x1b]52;c;aGk=\x07\u009b31m\u202eשלום\u2066👩\u200d🚒\r\n\x00\u200b e\u0301\u0302\u0303\u0304\u0305\u0306\u0307\u0308"

// hostileStation is one whose lines came past the door, as an import may bring
// them, with harm in every text.
func hostileStation(t *testing.T) string {
	t.Helper()
	path := newStationFile(t)
	say := func(what string) string { return what + evil + strings.Repeat(" very"+what, 60) }
	mask := []bath.Load{{Item: "mask", Count: 2, Name: say("mask"), Limit: say("limit"), Source: say("source"), Paper: say("paper")}}
	j, err := journal.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	err = j.Update(func(tx *journal.Tx) error {
		for i, body := range []bath.Body{
			&bath.Member{Name: say("Zoe"), Role: bath.Officer, Initials: say("Z")},
			&bath.Setting{Station: say("Mill Road")},
			&bath.Tank{Name: say("Bay"), Mark: say("rim"), Product: say("soap"), Container: say("jug"), Sewer: say("permit")},
			&bath.Fill{VolumeL: units.Gallons(60)},
			&bath.Dose{VolumeL: 5, Product: say("soap")},
			&bath.Reading{PH: 10.4, SampleC: 49, Meter: say("M"), Baseline: true},
			&bath.Reading{PH: 9.98, SampleC: 49, Meter: say("M")},
			&bath.Gear{Tag: say("T"), Item: "mask", Model: say("face"), Serial: say("=S"), IssuedTo: say("rig")},
			&bath.GearHold{Tag: say("T"), Why: say("lens")},
			&bath.Procedure{Item: "mask", State: bath.PaperPending, Model: say("face"), Title: say("care"), Accepted: say("Zoe")},
			&bath.Basket{Name: say("deep"), Make: "deep", Holds: mask},
			&bath.Wash{Items: mask, Soil: "normal", Time: 240, BathC: 40, Result: "again", Note: say("black"), Outside: []string{say("outside")}},
			&bath.Decision{Choice: bath.ChoiceKeep, Why: say("good"), Evidence: &bath.Evidence{Reasons: []string{say("why")}}},
			&bath.Handover{Note: say("packs")},
		} {
			text, err := json.Marshal(body)
			if err != nil {
				return err
			}
			e := bath.Entry{Body: body}
			at := time.Now().Add(time.Duration(i-60) * time.Minute).Truncate(time.Second)
			line := journal.Entry{ID: fmt.Sprint("hostile-", i), At: at, Logged: at, By: say("Zoe"), Kind: string(e.Kind()), Body: text}
			if spec, _ := bath.SpecOf(e.Kind()); spec.Scope != bath.OfStation || e.Kind() == "tank" {
				line.Bath = "main"
			}
			if _, err := tx.Append(line); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// TestHostileTextIsHarmlessInEveryCommand runs what writes text, on a station
// and with words whose every text means harm: no byte of it reaches a terminal,
// in text or in JSON, in an answer or in a refusal.
func TestHostileTextIsHarmlessInEveryCommand(t *testing.T) {
	path := hostileStation(t)
	list := filepath.Join(t.TempDir(), "gear"+"\u202e.csv")
	if err := os.WriteFile(list, []byte("tag,item,model\n\"N"+evil+"\",mask,\"face"+evil+"\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	commands := [][]string{
		{}, {"status"}, {"handover"}, {"tally"}, {"log"}, {"decide"}, {"plan", "mask=4", "helmet=2"}, {"cycle", "mask"}, {"gear", "list"}, {"gear", "export"}, {"gear", "import", list},
		{"guide"}, {"guide", "filter"}, {"guide", "mask"}, {"paths"}, {"man"}, {"--help"}, {"log", "reading", "--help"}, {"calc", "restate", "--help"},
		{"log", "handover", "--note", "packs" + evil, "--as", "Ana"}, {"log", "member", "--name", "Kim" + evil, "--as", "Ana"},
		{"log", "handover", "--note", strings.Repeat("long "+evil, 50), "--as", "Ana"},
		{evil}, {"log", evil}, {"log", "reading", evil}, {"--" + evil}, {"status", "--bath", evil}, {"log", "temp", "--bath", evil, "--as", "Ana"}, {"log", "temp", "--bath", "48C", "--as", evil},
		{"log", "temp", "--bath", "48C", "--as", "Ana", "--at", evil}, {"cycle", evil}, {"cycle", "mask", "--soil", evil}, {"plan", evil + "=2"}, {"guide", evil}, {"calc", "dose", "--volume", evil},
		{"status", "--now", evil}, {"status", "--units", evil}, {"status", "--color", evil}, {"import", evil}, {"gear", "import", evil}, {"--data", path + evil, "status"}, {"--catalog", evil, "cycle", "mask"},
		{"setup", "--station", evil, "--tank", evil}, {"decide", "--choice", evil},
	}
	for _, args := range commands {
		for _, more := range [][]string{nil, {"--json"}} {
			args := append(append([]string{}, args...), more...)
			code, out, said := run(t, path, args...)
			if strings.Contains(said, "mistake in bathside") || strings.TrimSpace(out+said) == "" {
				t.Errorf("%.80q: code %d, %.300q", args, code, said)
			}
			for _, s := range []string{out, said} {
				if i := strings.IndexFunc(s, harmful); i >= 0 {
					t.Errorf("%.80q writes %q", args, s[max(0, i-40):min(len(s), i+20)])
				}
			}
		}
	}
	// What verify starts is another process, so it is one itself.
	if out, err := exec.Command("bathside", "--data", path, "verify").CombinedOutput(); err != nil || strings.ContainsFunc(string(out), harmful) {
		t.Errorf("verify writes %q (%v)", out, err)
	}
	if _, out, _ := run(t, path, "status"); !strings.Contains(out, "Mill Road[2J") || !strings.Contains(out, "שלום") {
		t.Errorf("the station's name is not in its status:\n%s", out)
	}
}

// harmful lets the mark by that ends right-to-left text.
func harmful(r rune) bool {
	return r != '\u200e' && (r != '\n' && r != '\t' && r != '\f' && unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == unicode.ReplacementChar)
}

// TestTextIsInTheLettersOfTheLocale: where the locale is not of UTF-8, text is
// ASCII; JSON is for programs and stays as it is.
func TestTextIsInTheLettersOfTheLocale(t *testing.T) {
	path := hostileStation(t)
	in := func(locale string, args ...string) string {
		var out, said strings.Builder
		p := process(path, nil, nil, args...)
		p.Out, p.Err = &out, &said
		p.Getenv = func(name string) string { return map[string]string{"LANG": locale}[name] }
		if code := Main(p); code > 2 {
			t.Errorf("%q: code %d, %s", args, code, said.String())
		}
		return out.String() + said.String()
	}
	for _, args := range [][]string{{"status"}, {"handover"}, {"log"}, {"cycle", "mask"}, {"guide", "filter"}, {"plan", "mask=4"}, {"gear", "list"}, {"log", "--help"}, {"cycle", "Zoë"}, {"calc", "restate", "--ph", "9.8", "--at", "70F", "--to", "120F"}} {
		if s := in("C", args...); strings.ContainsFunc(s, func(r rune) bool { return r > 0x7e }) {
			t.Errorf("%q writes %q", args, s)
		}
	}
	if s := in("C.UTF-8", "status"); !strings.Contains(s, "°F") || !strings.Contains(s, "שלום") {
		t.Errorf("in UTF-8 the status is\n%s", s)
	}
	if s := in("C", "status", "--json"); !strings.Contains(s, "שלום") {
		t.Errorf("JSON lost its letters:\n%s", s)
	}
}
