//go:build unix

package cli

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/creack/pty"

	"bathside/internal/plain"
)

// accented is a station whose names no plain terminal has the letters for.
func accented(t testing.TB) string {
	t.Helper()
	data := tendedStation(t)
	shell(t, data, "log", "setting", "--station", "Café 5", "--as", "Amari")
	shell(t, data, "log", "member", "--name", "Zoë Łuczak", "--role", "keyholder", "--as", "Amari")
	shell(t, data, "log", "member", "--name", "👩‍🚒 שלום", "--as", "Amari")
	return data
}

var (
	styles  = regexp.MustCompile("\x1b\\[([0-9;:]*)m")
	richest = regexp.MustCompile(`(^|;)[34]8[;:]`)                       // a colour of 256 or more
	colour  = regexp.MustCompile(`(^|;)([34][0-8]|9[0-7]|10[0-7])(;|$)`) // any
)

// TestLooksOfTerminals opens the console on a pseudo-terminal that says what it
// is, and goes through its screens: each can be read, and nothing is sent that
// such a terminal does not have.
func TestLooksOfTerminals(t *testing.T) {
	const help = "What can be done here"
	ascii := func(t *testing.T, sent string) { only(t, sent, plain.ASCII) }
	sixteen := func(t *testing.T, sent string) { lacks(t, sent, richest) }
	for name, c := range map[string]struct {
		env   []string
		words []string // of the first screen
		check func(*testing.T, string)
	}{
		"no colour":     {[]string{"NO_COLOR=yes"}, []string{"Café 5", "°F"}, func(t *testing.T, sent string) { lacks(t, sent, colour) }},
		"sixteen":       {[]string{"TERM=xterm", "COLORTERM="}, []string{"Café 5", "°F"}, sixteen},
		"a bare screen": {[]string{"TERM=linux", "COLORTERM="}, []string{"Café 5", "°F"}, func(t *testing.T, sent string) { sixteen(t, sent); only(t, sent, plain.PC) }},
		"asked for":     {[]string{"BATHSIDE_CHARTS=ascii"}, []string{"Cafe 5", "122 F"}, ascii},
		"C":             {[]string{"LANG=C"}, []string{"Cafe 5", "122 F"}, ascii},
		"Latin 1":       {[]string{"LANG=en_US.UTF-8", "LC_ALL=en_US.ISO-8859-1"}, []string{"Cafe 5", "122 F"}, ascii},
	} {
		t.Run(name, func(t *testing.T) {
			s := sitDown(t, accented(t), c.env...)
			s.until("the names and the temperature", c.words...)
			for _, k := range []struct{ key, shows string }{
				{"2", "[2 "}, {"3", "[3 "}, {"4", "[4 "}, {"5", "[5 "}, {"6", "[6 "}, {"7", "[7 "}, {"?", help},
			} {
				s.press(k.key)
				s.until("the screen of "+k.key, k.shows)
			}
			s.leave(help)
			s.press("1")
			s.until("the first screen", "[1 ")
			s.press("p", "9", "9", "5", "\r")
			s.until("what was typed", "9.95")
			s.leave("Record a pH reading")
			c.check(t, s.sent.String())
		})
	}
}

// only holds that every letter that was sent is one that the terminal has.
func only(t *testing.T, sent string, has plain.Letters) {
	t.Helper()
	if !utf8.ValidString(sent) {
		sent = strings.ToValidUTF8(sent, "") // cut off where the test stopped to look
	}
	for i, r := range sent {
		if !has(r) {
			t.Fatalf("%q was sent: %q", r, sent[max(0, i-60):min(len(sent), i+20)])
		}
	}
}

// lacks holds that no style is of a kind.
func lacks(t *testing.T, sent string, kind *regexp.Regexp) {
	t.Helper()
	found := styles.FindAllStringSubmatch(sent, -1)
	if len(found) == 0 {
		t.Fatal("nothing is styled, not even in bold")
	}
	for _, m := range found {
		if kind.MatchString(m[1]) {
			t.Fatalf("the style %q was sent", m[0])
		}
	}
}

// TestDumbTerminalGoesLineByLine: where no screen can be drawn, the status is
// printed and asked from line by line, and one sentence says why.
func TestDumbTerminalGoesLineByLine(t *testing.T) {
	data := accented(t)
	for name, c := range map[string]struct {
		env  string
		args []string
		note bool
	}{
		"dumb": {"TERM=dumb", nil, true}, "no name": {"TERM=", nil, true}, "asked for": {"TERM=dumb", []string{"--plain"}, false},
		"the demo": {"TERM=dumb", []string{"demo"}, true},
	} {
		t.Run(name, func(t *testing.T) {
			cmd := exec.Command("bathside", append([]string{"--data", data}, c.args...)...)
			cmd.Env = append(os.Environ(), "LANG=C.UTF-8", "LC_ALL=", "TZ=UTC", c.env)
			var said bytes.Buffer
			cmd.Stderr = &said
			tty, err := pty.Start(cmd)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := tty.WriteString("\x04"); err != nil { // nothing more to say
				t.Fatal(err)
			}
			out, _ := io.ReadAll(tty) // it ends in an error once the program is gone
			if err := cmd.Wait(); err != nil {
				t.Errorf("it left with %v: %s", err, said.String())
			}
			if !strings.Contains(string(out), "Next") || strings.ContainsRune(string(out), '\x1b') {
				t.Errorf("got %q, want the status as plain text", out)
			}
			if note := strings.Contains(said.String(), "no console can be drawn on this terminal"); note != c.note || strings.Count(said.String(), "\n") > 1 {
				t.Errorf("standard error got %q", said.String())
			}
		})
	}
}
