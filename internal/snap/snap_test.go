package snap

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var rewrite = flag.Bool("rewrite", false, "rewrite the golden files")

func sgr(code, text string) string { return "\x1b[" + code + "m" + text + "\x1b[m" }

// sheet shows everything the package draws. The data are invented.
func sheet() string {
	var colors strings.Builder
	for i := range 8 {
		colors.WriteString(sgr(strconv.Itoa(30+i), " dim") + sgr(strconv.Itoa(90+i), " lit"))
	}
	return strings.Join([]string{
		" Station 3 · bath 2 " + sgr("7", " 1 Trend ") + sgr("1", " bold ") + sgr("2", "faint ") + sgr("3", "italic ") + sgr("4", "under line") + sgr("9", " gone"),
		colors.String(),
		sgr("97;44", " white on blue ") + sgr("30;42", " black on green ") + sgr("7;33", " reverse yellow ") + sgr("38;2;255;120;0", " exact") + sgr("38;5;208", " of 256"),
		"10.2 ┤ ●  ○  ◉ ■ ≡  ▲ +1 gal ▼ │ ▸ ▢ regulator off   ✓ ✗ ◂",
		"     ┼──●─────────┊────╵──── " + sgr("34", "limit 9.74 ───"),
		"10.0 ┤ ⠤⠤⠤⠴⠒⠒⠒⠚⠉⠉⠉⢸ ⣿⣿ ⡇⢸ ░░▒▒▓▓██ ▀▄▌▐ ▁▂▃▄▅▆▇█ ▉▊▋▌▍▎▏",
		"     └──┬──╴╶──── ╷ ╭────╮ ┏━━━┓ ┌──┬──┐ ┣╋┫ ┳┻",
		"      8 Nov    15   ╰────╯ ┗━━━┛ ├──┼──┤ < & > \" ' °F ±",
		sgr("31", "水泡") + " 家 é e\u0301 👩‍🚒 after │            └──┴──┘",
	}, "\n")
}

func draw(t *testing.T, content string, cols, rows int, theme Theme) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSVG(&b, content, cols, rows, theme); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestGolden(t *testing.T) {
	for name, theme := range map[string]Theme{"dark": Dark, "light": Light} {
		t.Run(name, func(t *testing.T) {
			got := draw(t, sheet(), 68, 9, theme)
			path := filepath.Join("testdata", name+".svg")
			if *rewrite {
				if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("picture changed (-want +got; -rewrite accepts it):\n%s", diff)
			}
		})
	}
}

func TestSameContentSameBytes(t *testing.T) {
	first := draw(t, sheet(), 68, 9, Dark)
	for range 20 { // a map walked in its own order would show within a few
		if draw(t, sheet(), 68, 9, Dark) != first {
			t.Fatal("two pictures of one screen differ")
		}
	}
}

// TestFullScreenIsSmall draws 100 by 30 cells with a change of colour at every
// word and a chart line in every row: busier than any screen of ours.
func TestFullScreenIsSmall(t *testing.T) {
	var b strings.Builder
	for i := range 30 {
		for j := range 8 {
			b.WriteString(sgr(strconv.Itoa(31+(i+j)%6), "reading ") + "│ ")
		}
		b.WriteString("⣿⡇⠤⠒⣿⡇⠤⠒⣿⡇⠤⠒●○▲░░░░\n")
	}
	if n := len(draw(t, b.String(), 100, 30, Dark)); n > 60_000 {
		t.Errorf("picture has %d bytes, want at most 60,000", n)
	}
}

func TestBeyondTheScreenIsCut(t *testing.T) {
	whole := draw(t, "abc\nghi", 3, 2, Dark)
	for name, content := range map[string]string{
		"long line":     "abcdef\nghi",
		"many lines":    "abc\nghi\njkl\nmno",
		"trailing line": "abc\nghi\n",
		"wide at edge":  "abc水\nghi",
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(whole, draw(t, content, 3, 2, Dark)); diff != "" {
				t.Errorf("picture (-want +got):\n%s", diff)
			}
		})
	}
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestErrors(t *testing.T) {
	if err := WriteSVG(&bytes.Buffer{}, "a", 0, 5, Dark); err == nil {
		t.Error("a screen of no columns: no error")
	}
	if err := WriteSVG(&bytes.Buffer{}, "a", 5, -1, Dark); err == nil {
		t.Error("a screen of no rows: no error")
	}
	if err := WriteSVG(full{}, "a", 5, 5, Dark); !errors.Is(err, errFull) {
		t.Errorf("got error %v, want %v", err, errFull)
	}
}
