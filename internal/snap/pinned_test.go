package snap

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// element is an SVG element with its attributes and text.
type element struct {
	name, text string
	attrs      map[string]string
}

// parse reads the picture as any XML reader would, which fails if it is not well
// formed.
func parse(t interface{ Fatalf(string, ...any) }, svg string) []element {
	var all []element
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, svg)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attrs: map[string]string{}}
			for _, a := range token.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			all = append(all, e)
		case xml.CharData:
			if len(all) > 0 {
				all[len(all)-1].text += strings.Trim(string(token), "\n")
			}
		}
	}
}

// TestEveryLetterIsPinned reads the screen back from the places of the letters.
func TestEveryLetterIsPinned(t *testing.T) {
	const cols, rows = 20, 4
	line := rapid.StringMatching(`[ -~äöüéñ°±·]{0,20}`)
	style := rapid.SampledFrom([]string{"", "1", "7", "31", "2;4"})
	rapid.Check(t, func(t *rapid.T) {
		var want [rows]string
		var content strings.Builder
		for y := range rows {
			want[y] = line.Draw(t, "line")
			// The style changes in the middle of the line.
			letters := []rune(want[y])
			half := len(letters) / 2
			content.WriteString(string(letters[:half]) + sgr(style.Draw(t, "style"), string(letters[half:])) + "\n")
			want[y] = strings.TrimRight(want[y], " ")
		}
		var b strings.Builder
		if err := WriteSVG(&b, content.String(), cols, rows, Light); err != nil {
			t.Fatal(err)
		}
		var got [rows]string
		for y, line := range readBack(t, b.String(), cols, rows) {
			got[y] = strings.TrimRight(string(line), " ")
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("screen read back (-want +got):\n%s", diff)
		}
	})
}

func readBack(t *rapid.T, svg string, cols, rows int) [][]rune {
	screen := make([][]rune, rows)
	for y := range screen {
		screen[y] = []rune(strings.Repeat(" ", cols))
	}
	for _, e := range parse(t, svg) {
		if e.name != "text" {
			continue
		}
		places, letters := strings.Fields(e.attrs["x"]), []rune(e.text)
		if len(places) != len(letters) {
			t.Fatalf("%d places for %q", len(places), e.text)
		}
		y, _ := strconv.Atoi(e.attrs["y"])
		for i, place := range places {
			x, _ := strconv.Atoi(place)
			screen[(y-baseline)/cellH][x/cellW] = letters[i]
		}
	}
	return screen
}

func TestAnyContentIsWellFormed(t *testing.T) {
	pieces := rapid.SampledFrom([]string{
		"<", "&", "]]>", "\"", "a", "水", "é", "e\u0301", "▲", "⣿", "│", "\n", "\t", "\x00", "\xff", "\ufffe", "\x1b",
		"\x1b[31m", "\x1b[7;4m", "\x1b[38;2;1m", "\x1b[2J", "\x1b[5;5H", "\x1b]8;;x\x07", "\x1bPa<\x1b\\", "\x1b_b\x1b\\",
	})
	rapid.Check(t, func(t *rapid.T) {
		content := strings.Join(rapid.SliceOfN(pieces, 0, 20).Draw(t, "pieces"), "") + rapid.String().Draw(t, "rest")
		var b strings.Builder
		if err := WriteSVG(&b, content, rapid.IntRange(1, 30).Draw(t, "cols"), 3, Dark); err != nil {
			t.Fatal(err)
		}
		parse(t, b.String())
	})
}

// TestGlyphsAreShapes: no font has a say in what we draw ourselves.
func TestGlyphsAreShapes(t *testing.T) {
	glyphs := []rune("─━│┌┐└┘├┤┬┴┼╭╮╰╯┃┏┓┗┛╴╵╶╷┊▀▄█▌▐░▒▓●○◉■≡▲▼▢▸◂✓✗")
	for r := rune(0x2801); r <= 0x28ff; r++ {
		glyphs = append(glyphs, r)
	}
	for _, r := range glyphs {
		paths := 0
		for _, e := range parse(t, draw(t, string(r), 1, 1, Dark)) {
			switch {
			case e.name == "text":
				t.Errorf("%q is drawn as text", r)
			case e.name == "path" && e.attrs["d"] != "":
				paths++
			}
		}
		if paths == 0 {
			t.Errorf("%q is not drawn", r)
		}
	}
	if svg := draw(t, "\u2800", 1, 1, Dark); strings.Contains(svg, "<text") {
		t.Error("the empty braille cell is drawn as text")
	}
}

// TestBrailleDots: dots 1 2 3 7 stand down the left side and 4 5 6 8 down the
// right, dot n being bit n-1 (The Unicode Standard, section 21.1, Braille).
func TestBrailleDots(t *testing.T) {
	at := [9][2]int{1: {0, 0}, 2: {0, 1}, 3: {0, 2}, 7: {0, 3}, 4: {1, 0}, 5: {1, 1}, 6: {1, 2}, 8: {1, 3}}
	for n := 1; n <= 8; n++ {
		x, y := dots[n-1][0], dots[n-1][1]
		if got := [2]int{int(x * 2 / cellW), int(y * 4 / cellH)}; got != at[n] {
			t.Errorf("dot %d is at column and row %v, want %v", n, got, at[n])
		}
	}
}

// TestBarsAreJoined: one rule across the screen is one rectangle, whose ends are
// the ends of the screen.
func TestBarsAreJoined(t *testing.T) {
	tests := []struct{ name, content, want string }{
		{"rule", strings.Repeat("─", 50), "M0 10h450v1h-450z"},
		{"rule with a gap", "── ──", "M0 10h18v1h-18zM27 10h18v1h-18z"},
		{"rule under letters", "\x1b[4ma─\x1b[m─", "M9 10h18v1h-18zM0 17h18v1h-18z"},
		{"second row", "\n█", "M0 20h9v20h-9z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got string
			for _, e := range parse(t, draw(t, tt.content, 50, 2, Dark)) {
				if e.name == "path" {
					got += e.attrs["d"]
				}
			}
			if len(got) != len(tt.want) || !sameParts(got, tt.want) {
				t.Errorf("path %q, want %q", got, tt.want)
			}
		})
	}
}

// sameParts compares paths whose rectangles may come in any order.
func sameParts(a, b string) bool {
	for part := range strings.SplitSeq(b, "M") {
		if !strings.Contains(a, part) {
			return false
		}
	}
	return true
}

func TestWideCharactersAreFitted(t *testing.T) {
	for _, tt := range []struct {
		name, content, x, length, text string
	}{
		{"wide", "a水", "9", "18", "水"},
		{"accent apart", "ae\u0301", "9", "9", "e\u0301"},
		{"joined picture", "a👩\u200d🚒", "9", "18", "👩\u200d🚒"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			all := parse(t, draw(t, tt.content+"b", 10, 1, Dark))
			var fitted []element
			for _, e := range all {
				if e.attrs["textLength"] != "" {
					fitted = append(fitted, e)
				}
			}
			if len(fitted) != 1 || fitted[0].attrs["x"] != tt.x || fitted[0].attrs["textLength"] != tt.length || fitted[0].text != tt.text {
				t.Errorf("fitted %+v, want %q at %s over %s", fitted, tt.text, tt.x, tt.length)
			}
		})
	}
}
