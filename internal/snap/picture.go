package snap

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/ansi"
)

// picture gathers what is drawn alike into one element each, which keeps the
// file small: grounds first, then ink, then text.
type picture struct{ ground, ink, words layers }

// layers are the bodies of elements by their attributes, in the order in which
// they were first asked for.
type layers struct {
	order []string
	body  map[string]*strings.Builder
}

func (l *layers) layer(attrs string) *strings.Builder {
	if l.body == nil {
		l.body = map[string]*strings.Builder{}
	}
	b, ok := l.body[attrs]
	if !ok {
		b = &strings.Builder{}
		l.body[attrs] = b
		l.order = append(l.order, attrs)
	}
	return b
}

func (p *picture) drawBar(r run, y int) {
	to := &p.ink
	if r.ground {
		to = &p.ground
	}
	w, h := r.n*cellW, num(r.h)
	fmt.Fprintf(to.layer(r.layer), "M%d %sh%dv%sh-%dz", r.x*cellW, num(float64(y*cellH)+r.y), w, h, w)
}

// word is a run of letters in one style, without blanks.
type word struct {
	style   string
	x, y    int
	letters []rune
}

// text adds the word, if there is one, and empties it. Each letter has its own
// place, so that no font can shift it; a viewer that reads only the first place
// still has each word where it belongs.
func (p *picture) text(w *word) {
	if len(w.letters) == 0 {
		return
	}
	b := p.words.layer(w.style)
	b.WriteString(`<text x="`)
	for i := range w.letters {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.Itoa((w.x + i) * cellW))
	}
	fmt.Fprintf(b, `" y="%d">%s</text>`, w.y*cellH+baseline, escape(string(w.letters)))
	w.letters = w.letters[:0]
}

// wide adds a character of several cells or several runes, fitted to its cells.
func (p *picture) wide(c uv.Cell, x, y int, style string) {
	fmt.Fprintf(p.words.layer(style), `<text x="%d" y="%d" textLength="%d" lengthAdjust="spacingAndGlyphs">%s</text>`,
		x*cellW, y*cellH+baseline, c.Width*cellW, escape(ansi.Strip(c.Content)))
}

// escape makes s fit for XML; what XML cannot hold becomes U+FFFD.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder does not fail
	return b.String()
}

// num writes a coordinate to a tenth of a pixel.
func num(v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
}

// write writes the whole file.
func (p *picture) write(w io.Writer, cols, rows int, t Theme) error {
	out := bufio.NewWriter(w)
	width, height := cols*cellW+2*margin, rows*cellH+2*margin
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %d %d">`+"\n", width, height, width, height)
	fmt.Fprintf(out, `<rect width="%d" height="%d" rx="6" %s/>`+"\n", width, height, fill(t.Bg))
	fmt.Fprintf(out, `<g transform="translate(%d,%d)" font-family="'DejaVu Sans Mono',Menlo,Consolas,monospace" font-size="%d">`+"\n", margin, margin, fontSize)
	for _, attrs := range p.ground.order {
		fmt.Fprintf(out, `<path %s shape-rendering="crispEdges" d="%s"/>`+"\n", attrs, p.ground.body[attrs])
	}
	for _, attrs := range p.ink.order {
		fmt.Fprintf(out, `<path %s d="%s"/>`+"\n", attrs, p.ink.body[attrs])
	}
	for _, attrs := range p.words.order {
		fmt.Fprintf(out, "<g %s>%s</g>\n", attrs, p.words.body[attrs])
	}
	fmt.Fprint(out, "</g>\n</svg>\n")
	return out.Flush()
}
