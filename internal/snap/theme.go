package snap

import (
	"fmt"
	"image/color"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
)

// Theme is what a terminal adds to the text: its default colours and what the
// sixteen basic ones look like. Use Dark or Light; a Theme of zeros is black on
// black.
type Theme struct {
	Fg, Bg  color.RGBA
	Palette [16]color.RGBA
}

// Dark and Light are terminals of either kind. Every basic colour can be read
// on the background, but the one that is meant to lie on the others: black when
// dark, bright white when light.
var (
	Dark = Theme{
		Fg: rgb(0xd6d6d9), Bg: rgb(0x17171a),
		Palette: [16]color.RGBA{
			rgb(0x17171a), rgb(0xf0716b), rgb(0x7fc078), rgb(0xdfb252), rgb(0x7da4ee), rgb(0xcf8ddf), rgb(0x5fc3cb), rgb(0xc8c8cc),
			rgb(0x8e8e98), rgb(0xff948d), rgb(0xa2dc98), rgb(0xf4d27d), rgb(0xa6c2ff), rgb(0xe5b0f1), rgb(0x90e0e6), rgb(0xffffff),
		},
	}
	Light = Theme{
		Fg: rgb(0x25252b), Bg: rgb(0xfbfbf8),
		Palette: [16]color.RGBA{
			rgb(0x25252b), rgb(0xa8231c), rgb(0x2a6e2c), rgb(0x7d5700), rgb(0x214fae), rgb(0x822c95), rgb(0x0e6875), rgb(0x55555d),
			rgb(0x6d6d75), rgb(0xc2362c), rgb(0x357d37), rgb(0x8c6400), rgb(0x3265cc), rgb(0x9a42ad), rgb(0x177787), rgb(0xffffff),
		},
	}
)

func rgb(hex uint32) color.RGBA {
	return color.RGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 0xff}
}

// colors returns the ink and the ground of a cell; filled is false if the ground
// is the terminal's own.
func (t Theme) colors(s uv.Style) (ink, ground color.RGBA, filled bool) {
	ink, ground, filled = t.Fg, t.Bg, s.Bg != nil
	if s.Fg != nil {
		ink = t.shown(s.Fg)
	}
	if filled {
		ground = t.shown(s.Bg)
	}
	if s.Attrs&uv.AttrReverse != 0 {
		ink, ground, filled = ground, ink, true
	}
	if s.Attrs&uv.AttrFaint != 0 {
		ink = mix(ink, ground)
	}
	return ink, ground, filled
}

// shown returns what the terminal makes of c.
func (t Theme) shown(c color.Color) color.RGBA {
	switch c := c.(type) {
	case ansi.BasicColor:
		return t.Palette[c&15]
	case ansi.IndexedColor:
		if c < 16 {
			return t.Palette[c]
		}
	}
	return color.RGBAModel.Convert(c).(color.RGBA)
}

// mix dims ink by a third towards the ground.
func mix(ink, ground color.RGBA) color.RGBA {
	part := func(a, b uint8) uint8 { return uint8((int(a)*2 + int(b)) / 3) }
	return color.RGBA{part(ink.R, ground.R), part(ink.G, ground.G), part(ink.B, ground.B), 0xff}
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
