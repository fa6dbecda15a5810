// Package snap turns a terminal screen into an SVG picture that looks the same
// whatever fonts a viewer has: every glyph is pinned to its cell, and what fonts
// lack or draw unevenly (braille, boxes, blocks, marks) is drawn as shapes.
//
// It is for tests and the pictures of the README only. It is no terminal: it
// reads styled text as a screen holds it, with colours and attributes but no
// movement of the cursor.
package snap

import (
	"fmt"
	"io"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
)

// The size of a cell and of the margin round the screen, in pixels. A glyph of a
// monospaced font is about 0.6 of the font's size wide.
const (
	cellW    = 9
	cellH    = 20
	baseline = 15
	fontSize = 15
	margin   = 12
)

// WriteSVG draws content, styled text with a line a row, on a screen of cols by
// rows cells; what lies beyond is cut off. The same content gives the same bytes.
// It fails if there is no screen or w fails.
func WriteSVG(w io.Writer, content string, cols, rows int, t Theme) error {
	if cols < 1 || rows < 1 {
		return fmt.Errorf("draw screen: %d by %d cells, want at least 1 by 1", cols, rows)
	}
	screen := uv.NewScreenBuffer(cols, rows)
	// Layout counts what readers take for one character; so must the picture.
	screen.Method = ansi.GraphemeWidth
	uv.NewStyledString(content).Draw(screen, screen.Bounds())

	var p picture
	for y := range rows {
		p.row(screen.Line(y), y, t)
	}
	if err := p.write(w, cols, rows, t); err != nil {
		return fmt.Errorf("write picture: %w", err)
	}
	return nil
}
