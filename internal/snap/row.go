package snap

import (
	"image/color"
	"unicode/utf8"

	uv "github.com/charmbracelet/ultraviolet"
)

// bar is a level stripe through a cell. Equal ones in neighbouring cells are
// drawn as one: grounds, underlines, rules and blocks.
type bar struct {
	layer  string // the attributes it is drawn with
	ground bool   // it lies under everything else
	y, h   float64
}

// run is a bar from column x on, over n cells so far.
type run struct {
	bar
	x, n int
}

// row adds a line of cells to the picture.
func (p *picture) row(line uv.Line, y int, t Theme) {
	var open []run
	var w word
	for x := 0; x < len(line); x++ {
		c := line[x]
		if c.Width == 0 { // the rest of a wide character
			continue
		}
		ink, ground, filled := t.colors(c.Style)
		bars := cellBars(c, ink, ground, filled)
		open = p.extend(open, bars, x, y, c.Width)
		p.glyph(&w, c, x, y, ink)
	}
	p.extend(open, nil, len(line), y, 0)
	p.text(&w)
}

// extend lengthens the open runs that go on through the cell at x and draws
// those that do not.
func (p *picture) extend(open []run, bars []bar, x, y, width int) []run {
	var next []run
	for _, b := range bars {
		next = append(next, run{b, x, width})
	}
	for _, r := range open {
		joined := false
		for i := range next {
			if next[i].bar == r.bar {
				next[i].x, next[i].n = r.x, r.n+width
				joined = true
			}
		}
		if !joined {
			p.drawBar(r, y)
		}
	}
	return next
}

// cellBars returns the stripes of a cell.
func cellBars(c uv.Cell, ink, ground color.RGBA, filled bool) []bar {
	var bars []bar
	if filled {
		bars = append(bars, bar{fill(ground), true, 0, cellH})
	}
	if c.Style.Attrs&uv.AttrConceal != 0 {
		return bars
	}
	if c.Style.Underline != uv.UnderlineNone {
		bars = append(bars, bar{fill(ink), false, baseline + 2, 1})
	}
	if c.Style.Attrs&uv.AttrStrikethrough != 0 {
		bars = append(bars, bar{fill(ink), false, baseline - 5, 1})
	}
	if b, ok := levelGlyphs[single(c.Content)]; ok {
		bars = append(bars, bar{fill(ink) + b.shade, false, b.y, b.h})
	}
	return bars
}

// single returns the only rune of s, or 0 if there are more.
func single(s string) rune {
	r, n := utf8.DecodeRuneInString(s)
	if n != len(s) {
		return 0
	}
	return r
}

// glyph adds what stands in a cell, but for its bars: a shape, or a letter of
// the word w.
func (p *picture) glyph(w *word, c uv.Cell, x, y int, ink color.RGBA) {
	r := single(c.Content)
	_, striped := levelGlyphs[r]
	blank := r == ' ' || c.Content == "" || striped || c.Style.Attrs&uv.AttrConceal != 0
	if blank || p.shape(r, x, y, ink) {
		p.text(w)
		return
	}
	style := fill(ink)
	if c.Style.Attrs&uv.AttrBold != 0 {
		style += ` font-weight="bold"`
	}
	if c.Style.Attrs&uv.AttrItalic != 0 {
		style += ` font-style="italic"`
	}
	if r == 0 || c.Width != 1 {
		p.text(w)
		p.wide(c, x, y, style)
		return
	}
	if w.style != style {
		p.text(w)
	}
	if len(w.letters) == 0 {
		*w = word{style: style, x: x, y: y}
	}
	w.letters = append(w.letters, r)
}

func fill(c color.RGBA) string { return `fill="` + hex(c) + `"` }

func stroke(c color.RGBA) string { return `fill="none" stroke="` + hex(c) + `"` }
