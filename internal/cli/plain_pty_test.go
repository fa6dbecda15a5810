//go:build unix

package cli

import (
	"strings"
	"testing"
)

// aloud runs bathside in plain talk, by nobody in particular, and holds what it
// promises: it ends with code, leaves the terminal as it was, and moves no
// cursor and sets no colour.
func aloud(t *testing.T, data string, code int, answers []answer, args ...string) (screen string) {
	t.Helper()
	screen, got, shows := atTerminalWith(t, []string{"TERM=xterm-256color", "BATHSIDE_AS="}, data, answers, args...)
	if got != code {
		t.Errorf("got code %d, want %d:\n%s", got, code, screen)
	}
	if !shows {
		t.Error("the terminal is left without an echo")
	}
	if strings.ContainsRune(screen, '\x1b') {
		t.Errorf("an escape sequence was written: %q", screen)
	}
	return screen
}

const (
	toList = "Type its number, then enter: "
	toSave = "Enter saves; m changes or adds something: "
	toWho  = "who, number or name"
)

// The list is numbered by what is due, so the tests name jobs by their words.
func numberOf(t *testing.T, list, job string) string {
	t.Helper()
	for line := range strings.Lines(list) {
		if n, say, ok := strings.Cut(strings.TrimSpace(line), " "); ok && strings.HasPrefix(say, job) {
			return n + "\n"
		}
	}
	t.Fatalf("the list has no %q:\n%s", job, list)
	return ""
}

// list is what the list of data says now.
func list(t *testing.T, data string) string {
	t.Helper()
	return aloud(t, data, 0, []answer{{toList, "0\n"}}, "--plain")
}

func wantLine(t *testing.T, data string, words ...string) {
	t.Helper()
	out := shell(t, data, "export")
	for line := range strings.Lines(out) {
		all := true
		for _, w := range words {
			all = all && strings.Contains(line, w)
		}
		if all {
			return
		}
	}
	t.Errorf("no line has %q:\n%s", words, out)
}

// What a reading is and what is wrong with it is told line by line; what was
// typed before a wrong answer stays.
func TestPlainReading(t *testing.T) {
	data := tendedStation(t)
	reading := numberOf(t, list(t, data), "Take the weekly pH")
	screen := aloud(t, data, 0, []answer{
		{toList, reading},
		{"pH, like 10.10: ", "995\n"},
		{"Read as 9.95.", ""},
		{"sample at, like 121F: ", "warm\n"},
		{`Sample at: "warm" does not begin with a number`, ""},
		{"sample at, like 121F: ", "121\n"},
		{toWho + ": ", "x\n"},
		{`"x" is not one of them`, ""},
		{toWho + ": ", "2\n"},
		{"It will read: pH 9.95 at 121 °F, by Lee Tran.\r\nDown 0.25", ""},
		{toSave, "m\n"},
		{"12 when: now", ""},
		{"enter goes back: ", "when\n"},
		{"when [now]: ", "25:00\n"},
		{`"25:00" is not a time`, ""},
		{"when [now]: ", "2026-03-01 7:05am\n"},
		{"Read as Sun 1 Mar 07:05.", ""},
		{toSave, "m\n"},
		{"enter goes back: ", "12\n"},
		{"when [Sun 1 Mar 07:05]: ", "now\n"},
		{"Read as now.", ""},
		{toSave, "m\n"},
		{"3 meter: not given", ""},
		{"enter goes back: ", "3\n"},
		{"meter, like M2: ", "M7\n"},
		{"meter M7, by Lee Tran", ""},
		{toSave, "\n"},
		{"Saved: line 8.", ""},
		{toList, "0\n"},
	}, "--plain")
	if strings.Contains(screen, "pH, like 10.10 [") || strings.Contains(screen, "sample at, like 121F [") {
		t.Errorf("an answer stood in brackets that nobody gave:\n%s", screen)
	}
	wantLine(t, data, `"seq":8`, `"ph":9.95`, `"meter":"M7"`, `"by":"Lee Tran"`)
}

// A pH that went up is asked about, once, and kept without an answer.
func TestPlainAsksWhyItRose(t *testing.T) {
	data := tendedStation(t)
	aloud(t, data, 0, []answer{
		{"sample at, like 121F: ", "121\n"},
		{"The pH went up with no soap logged. Why? Enter without an answer keeps it, not trusted.", ""},
		{" 3 unmixed", ""},
		{"why it rose, number or word: ", "\n"},
		{"It will read: pH 10.60", ""},
		{"Saved: line 8.", ""},
	}, "log", "reading", "--plain", "--ph", "10.60", "--as", "Lee")
	wantLine(t, data, `"seq":8`, `"ph":10.6`)
}

// Only what is missing is asked for, and a line that is easy to cross out is
// saved without a further word.
func TestPlainLogAsksForWhatIsMissing(t *testing.T) {
	data := tendedStation(t)
	screen := aloud(t, data, 0, []answer{
		{"how long, like 30min: ", "half\n"},
		{`How long: "half"`, ""},
		{"how long, like 30min: ", "25\n"},
		{"Read as 25 min.", ""},
		{"Saved: line 8.", ""},
	}, "log", "filter", "--plain", "--as", "Lee", "--at", "2h ago")
	if strings.Contains(screen, "Enter saves") || strings.Contains(screen, toWho) {
		t.Errorf("it asked for more than was missing:\n%s", screen)
	}
	wantLine(t, data, `"kind":"filter"`, `"time_s":1500`, `"by":"Lee Tran"`)

	screen = aloud(t, data, 0, []answer{
		{"   8  ", ""},
		{"line, like 41: ", "8\n"},
		{"why, like ", "not the pump\n"},
		{"Line 8 is: filter ran 25 min, by Lee Tran.\r\nIt will read: line 8 crossed out: not the pump", ""},
		{"Save? y or n; m changes or adds something: ", "\n"},
		{"is none of it", ""},
		{"Save? y or n; m changes or adds something: ", "y\n"},
		{"Saved: line 9.", ""},
	}, "log", "strike", "--plain", "--as", "Amari")
	wantLine(t, data, `"kind":"strike"`, `"target":8`)
	if _, code, _ := atTerminal(t, data, nil, "log", "temp", "--plain", "--bath", "118F"); code != 0 {
		t.Errorf("a whole command got code %d:\n%s", code, screen)
	}
}

// A decision is signed beside its evidence, by a PIN that nobody sees.
func TestPlainDecision(t *testing.T) {
	data := tendedStation(t)
	atTerminal(t, data, []answer{{"new PIN of Amari Okafor: ", amariPIN + "\r"}, {"again: ", amariPIN + "\r"}}, "pin", "set")
	screen := aloud(t, data, 0, []answer{
		{"Advice: keep it as it is", ""},
		{"enter goes on without a signature: ", "drain\n"},
		{"why, like ", "\n"},
		{"Why is missing", ""},
		{"why, like ", "hauler comes tomorrow\n"},
		{toWho + ": ", "amari\n"},
		{"It will read: decided: drain", ""}, {"(advised: keep it as it is)", ""},
		{"Save? y or n", "y\n"},
		{"PIN of Amari Okafor: ", oddPIN + "\r"},
		{"That is not the PIN of Amari Okafor", ""},
		{"Save? y or n", "y\n"},
		{"PIN of Amari Okafor: ", amariPIN + "\r"},
		{"Saved: line", ""},
	}, "decide", "--plain")
	wantLine(t, data, `"kind":"decision"`, `"choice":"drain"`, `"advice":"keep"`, `"why":"hauler comes tomorrow"`)
	for _, secret := range []string{amariPIN[:4], oddPIN[:4]} {
		if strings.Contains(screen, secret) {
			t.Errorf("a PIN was shown:\n%s", screen)
		}
	}
}

// From dirty gear to gear in service, with a break in the wash, by enter and
// what must be typed.
func TestPlainGuide(t *testing.T) {
	data := tendedStation(t)
	shell(t, data, "log", "degas", "--time", "15min", "--as", "Lee")
	const enter, look, over = "\n", "Enter, so it is: ", "Enter when it is over; n where it ran elsewhere: "
	talk := []answer{
		{look, enter}, {"Step 2 of 14.", ""}, {"Anything but smoke?: ", "b\n"}, {"Step 1 of 14.", ""}, {look, enter},
		{"Anything but smoke?: ", "n\n"}, {"Nobody logged this today", ""}, {"Anything but smoke?: ", enter},
		{"anything but smoke, number or word: ", "1\n"}, {toSave, enter},
		{look, "n\n"}, {"Look, then press enter.", ""}, {look, enter}, {look, enter}, {look, enter},
		{"Record the bath temperature: ", enter}, {"bath at, like 118F: ", "118\n"}, {toSave, enter},
		{look, enter}, {look, enter},
		{"Start a wash, by a key holder: ", enter}, {"items, like mask=4: ", "mask=2\n"}, {"minutes, like 4min: ", "4\n"},
		{"bath at, like 118F: ", "118\n"}, {"soil, number or word [normal]: ", enter}, {"Not in the bath: ", ""}, {toSave, "m\n"},
		{"enter goes back: ", "items\n"}, {"items, like mask=4 [mask=2]: ", "tool=2\n"}, {toSave, enter}, {"Saved: line", ""},
		{"Step 10 of 14.", ""}, {over, enter}, {"Not yet.", ""}, {over, "l\n"},
		{"enter goes back: ", "pause\n"}, {toSave, enter}, {over, "l\n"},
		{"enter goes back: ", "resume\n"}, {toSave, enter}, {over, "n\n"},
		{look, enter},
		{"Log a wash: ", enter}, {"how long, like 4min: ", "4\n"}, {toSave, enter},
	}
	for _, step := range []string{"rinse", "dry", "inspect", "back in service"} {
		talk = append(talk, answer{"first Hand tool × 2: " + step + ". Enter asks for it: ", enter}, answer{toSave, enter}, answer{"Saved: line", ""})
		if step == "inspect" {
			talk = append(talk, answer{"Nothing waits for it any more. Enter goes on: ", enter})
		}
	}
	talk = append(talk, answer{"Nothing waits for it any more. Enter goes on: ", enter}, answer{"Done: Load and run.", ""})
	aloud(t, data, 0, talk, "guide", "load-and-run", "--plain", "--as", "Lee")
	wantLine(t, data, `"kind":"ready"`, `"by":"Lee Tran"`)
	wantLine(t, data, `"kind":"start"`, `"item":"tool"`, `"checked":true`)
}

// The list does what Next says and the rest; a guide that was left goes on where
// it was; the end of the input leaves it, and what was saved is kept.
func TestPlainList(t *testing.T) {
	data := tendedStation(t)
	all := list(t, data)
	aloud(t, data, 0, []answer{
		{toList, "99\n"}, {`"99" is not one of them`, ""},
		{toList, numberOf(t, all, "walk a guide")}, {"Enter goes back: ", "load-and-run\n"},
		{"Enter, so it is: ", "\n"}, {"Step 2 of 14.", ""}, {"Anything but smoke?: ", ".\n"},
		{toList, numberOf(t, all, "something else")}, {"enter goes back: ", "filter\n"}, {"how long, like 30min: ", "30\n"}, {toWho + ": ", "2\n"},
		{toSave, ".\n"}, {"Left, and nothing of it was saved.", ""},
		{toList, numberOf(t, all, "walk a guide")}, {"Enter goes back: ", "load-and-run\n"}, {"Step 2 of 14.", ""}, {": ", ".\n"},
		{toList, numberOf(t, all, "hand over")}, {"What happened", ""}, {"enter without one: ", "packs still drip\n"}, {toWho + ": ", "lee\n"}, {"Saved: line 8.", ""},
		{toList, numberOf(t, all, "decide")}, {"Advice: keep", ""}, {"without a signature: ", "\n"},
		{toList, numberOf(t, all, "Run the eyewash")}, {toWho + " [Lee Tran]: ", "\n"}, {toSave, "\n"}, {"Saved: line 9.", ""},
		{toList, "1\n"}, {", like ", "\x04"}, {"Left, and nothing of it was saved.", ""},
	}, "--plain")
	wantLine(t, data, `"seq":8`, `"note":"packs still drip"`, `"by":"Lee Tran"`)
	wantLine(t, data, `"seq":9`, `"kind":"duty"`)
	if n := strings.Count(shell(t, data, "export"), "\n"); n != 9 {
		t.Errorf("%d lines, want 9: what was left is in the log book", n)
	}
}

func TestPlainIsLeft(t *testing.T) {
	data := tendedStation(t)
	reading := numberOf(t, list(t, data), "Take the weekly pH")
	aloud(t, data, 130, []answer{{toList, reading}, {"pH, like 10.10: ", "995\n"}, {"sample at", "\x03"}, {"stopped; what was recorded before is kept", ""}}, "--plain")
	if n := strings.Count(shell(t, data, "export"), "\n"); n != 7 {
		t.Errorf("%d lines, want 7", n)
	}
	screen, code, _ := atTerminalWith(t, []string{"TERM=dumb"}, data, []answer{{toList, "\x04"}})
	if code != 0 || strings.ContainsRune(screen, '\x1b') {
		t.Errorf("on a terminal that writes lines only: code %d, %q", code, screen)
	}
}
