package snap

import (
	"image/color"
	"math"
	"strings"
	"testing"
)

// contrast is the ratio of WCAG 2.1 ("contrast ratio", "relative luminance").
func contrast(a, b color.RGBA) float64 {
	l1, l2 := luminance(a), luminance(b)
	return (max(l1, l2) + 0.05) / (min(l1, l2) + 0.05)
}

func luminance(c color.RGBA) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

// TestContrast: black on white is 21:1 by WCAG's definition; #767676 on white is
// the lightest grey that passes 4.5:1, at 4.54 (from memory).
func TestContrast(t *testing.T) {
	white := rgb(0xffffff)
	if got := contrast(rgb(0), white); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %v, want 21", got)
	}
	if got := contrast(rgb(0x767676), white); math.Abs(got-4.54) > 0.005 {
		t.Errorf("#767676 on white: %v, want 4.54", got)
	}
}

// TestThemesAreLegible asks for 4.5:1, WCAG 2.1 success criterion 1.4.3.
func TestThemesAreLegible(t *testing.T) {
	for name, tt := range map[string]struct {
		theme Theme
		over  int // the basic colour that lies on the others
	}{"dark": {Dark, 0}, "light": {Light, 15}} {
		for i, c := range tt.theme.Palette {
			if r := contrast(c, tt.theme.Bg); i != tt.over && r < 4.5 {
				t.Errorf("%s: color %d on the background has %.2f:1", name, i, r)
			}
			if r := contrast(c, tt.theme.Palette[tt.over]); i%8 != 0 && i%8 != 7 && r < 4.5 {
				t.Errorf("%s: color %d under color %d has %.2f:1", name, i, tt.over, r)
			}
		}
		if r := contrast(tt.theme.Fg, tt.theme.Bg); r < 7 {
			t.Errorf("%s: text has %.2f:1", name, r)
		}
		if r := contrast(mix(tt.theme.Fg, tt.theme.Bg), tt.theme.Bg); r < 4.5 {
			t.Errorf("%s: faint text has %.2f:1", name, r)
		}
	}
}

func TestStyles(t *testing.T) {
	theme := Theme{Fg: rgb(0xffffff), Bg: rgb(0x000000)}
	theme.Palette[1], theme.Palette[9] = rgb(0x111111), rgb(0x999999)
	tests := []struct {
		name, code string
		want       string // the element that holds the letter
	}{
		{"plain", "", `<g fill="#ffffff"><text`},
		{"basic", "31", `<g fill="#111111"><text`},
		{"bright", "91", `<g fill="#999999"><text`},
		{"basic by number", "38;5;9", `<g fill="#999999"><text`},
		{"cube", "38;5;196", `<g fill="#ff0000"><text`}, // xterm: 16 + 36*5 is pure red
		{"exact", "38;2;1;2;3", `<g fill="#010203"><text`},
		{"ground", "41", `<path fill="#111111" shape-rendering="crispEdges" d="M0 0h9v20h-9z"/>`},
		{"reverse", "7", `<path fill="#ffffff" shape-rendering="crispEdges" d="M0 0h9v20h-9z"/>`},
		{"reverse ink", "7", `<g fill="#000000"><text`},
		{"reverse color", "7;31", `<path fill="#111111" shape-rendering="crispEdges"`},
		{"bold", "1", `<g fill="#ffffff" font-weight="bold"><text`},
		{"italic", "3", `<g fill="#ffffff" font-style="italic"><text`},
		{"faint", "2", `<g fill="#aaaaaa"><text`}, // two thirds of white
		{"underline", "4", `<path fill="#ffffff" d="M0 17h9v1h-9z"/>`},
		{"struck", "9", `<path fill="#ffffff" d="M0 10h9v1h-9z"/>`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := draw(t, sgr(tt.code, "a"), 1, 1, theme); !strings.Contains(got, tt.want) {
				t.Errorf("want %s in\n%s", tt.want, got)
			}
		})
	}
	if got := draw(t, sgr("8", "a"), 1, 1, theme); strings.Contains(got, "<text") {
		t.Errorf("concealed text is drawn:\n%s", got)
	}
}
