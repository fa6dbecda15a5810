package chart

import (
	"testing"
	"unicode"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/encoding/charmap"
)

// own returns every character a set can draw by itself.
func own(g Glyphs) []rune {
	t := g.table()
	all := []rune{t.side, t.tick, t.corner, t.foot, t.footTick, t.line, t.lineStart, t.lineGap, t.event, t.cursor, t.band, t.dense}
	all = append(append(all, t.bar[:]...), t.marks[:]...)
	sx, sy := g.dots()
	for bits := 1; bits < 1<<(sx*sy); bits++ {
		all = append(all, g.char(uint8(bits)))
	}
	return all
}

// A terminal counts cells by wcwidth's table or by grapheme clusters; both
// libraries here follow Unicode's East Asian Width (UAX 11).
func TestGlyphsTakeOneCell(t *testing.T) {
	for name, g := range sets {
		for _, r := range own(g) {
			if a, b := narrow.RuneWidth(r), ansi.StringWidth(string(r)); a != 1 || b != 1 {
				t.Errorf("%s: %q is %d cells by wcwidth, %d by graphemes", name, r, a, b)
			}
		}
	}
}

// TestGlyphsKeepToTheirSet checks Block against code page 437 as Unicode's
// mapping table has it (in golang.org/x/text), which leaves out the pictures the
// page has in place of control codes; of those, 4, 9, 30 and 31 are from memory.
func TestGlyphsKeepToTheirSet(t *testing.T) {
	pictures := map[rune]bool{'♦': true, '○': true, '▲': true, '▼': true}
	for _, r := range own(Block) {
		if _, ok := charmap.CodePage437.EncodeRune(r); !ok && !pictures[r] {
			t.Errorf("block: %q is not in code page 437", r)
		}
	}
	for _, r := range own(ASCII) {
		if r > unicode.MaxASCII || r < ' ' {
			t.Errorf("ascii: %q", r)
		}
	}
}

func TestGlyphsTellMarksApart(t *testing.T) {
	for name, g := range sets {
		seen := map[string]Mark{}
		for m := Solid; m <= Several; m++ {
			if other, ok := seen[g.Mark(m)]; ok {
				t.Errorf("%s: marks %d and %d are both %q", name, other, m, g.Mark(m))
			}
			seen[g.Mark(m)] = m
		}
	}
}

func TestLabelsKeepToTheirCells(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain", "9.95 ±0.07", "9.95 ±0.07"},
		{"letters", "Čoćić Ωμέγα вода", "Čoćić Ωμέγα вода"},
		{"accent apart", "e\u0301", "e"},
		{"wide", "水 1", "? 1"},
		{"joined picture", "👩\u200d🚒", "??"},
		{"flag", "🇨🇭", "??"},
		{"joining script", "กำ", "??"},
		{"variation selector", "❤\ufe0f", "❤"},
		{"control", "a\x1b[31m\n\x7f", "a[31m"},
		{"not text", "a\xffb", "a�b"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := string(runes(tt.in)); got != tt.want {
				t.Errorf("runes(%q) = %q, want %q", tt.in, got, tt.want)
			}
		})
	}
}

// TestEveryKeptRuneIsSingle asks about all of Unicode what the rule for labels
// claims: one cell, beside itself and beside others.
func TestEveryKeptRuneIsSingle(t *testing.T) {
	kept := 0
	for r := range unicode.MaxRune + 1 {
		if !single(r) {
			continue
		}
		kept++
		if n := ansi.StringWidth("░" + string([]rune{r, r}) + "●a"); n != 5 {
			t.Errorf("%U %q beside others: %d cells, want 5", r, r, n)
		}
	}
	if kept < 95 {
		t.Errorf("only %d runes kept", kept)
	}
}
