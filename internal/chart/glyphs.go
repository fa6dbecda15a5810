package chart

// Glyphs is the set of characters a chart is drawn with.
type Glyphs int

// The sets. Braille draws curves finest. Block keeps to code page 437, for
// consoles whose font has little more. ASCII is for everything else.
const (
	Braille Glyphs = iota
	Block
	ASCII
)

// Mark is the sign of a point or an event.
type Mark int

// The marks. Several is what a cell with more than one point shows; a caller
// needs it for the legend only.
const (
	Solid Mark = iota
	Hollow
	Dose
	Drain
	Check
	Raw   // small, beside what was made of it
	Other // a corner of a thin path
	Several
)

// Mark returns the sign for m in this set, one cell wide, for a legend. A mark
// out of range is drawn as Solid.
func (g Glyphs) Mark(m Mark) string { return string(g.table().mark(m)) }

// Cursor returns the sign of the cursor in this set, for a legend.
func (g Glyphs) Cursor() string { return string(g.table().cursor) }

// table returns the characters of g; a set out of range is drawn as ASCII.
func (g Glyphs) table() *glyphs {
	if g < Braille || g > ASCII {
		g = ASCII
	}
	return &tables[g]
}

type glyphs struct {
	side, tick, corner rune // the y axis: plain, at a label, at its foot
	foot, footTick     rune // the x axis
	line, lineStart    rune // a horizontal line, and where it leaves the y axis
	lineGap            rune // every second cell of a line
	event, cursor      rune
	band, dense        rune    // a fan, and where two overlap
	bar                [3]rune // an error bar: upper half of a cell, lower half, whole
	marks              [Several + 1]rune
}

func (t *glyphs) mark(m Mark) rune {
	if m < Solid || m > Several {
		m = Solid
	}
	return t.marks[m]
}

var tables = [...]glyphs{
	Braille: {
		side: '│', tick: '┤', corner: '└', foot: '─', footTick: '┬',
		line: '─', lineGap: '─', lineStart: '┼', event: '┊', cursor: '┃', band: '░', dense: '▒',
		bar:   [3]rune{'╵', '╷', '│'},
		marks: [...]rune{Solid: '●', Hollow: '○', Dose: '▲', Drain: '▼', Check: '◆', Raw: '·', Other: '+', Several: '◉'},
	},
	Block: {
		side: '│', tick: '┤', corner: '└', foot: '─', footTick: '┬',
		line: '─', lineGap: '─', lineStart: '┼', event: ':', cursor: '║', band: '░', dense: '▒',
		bar:   [3]rune{'│', '│', '│'},
		marks: [...]rune{Solid: '■', Hollow: '○', Dose: '▲', Drain: '▼', Check: '♦', Raw: '·', Other: '+', Several: '≡'},
	},
	// The line is dashed so that it is not taken for a level curve.
	ASCII: {
		side: '|', tick: '+', corner: '+', foot: '-', footTick: '+',
		line: '-', lineGap: ' ', lineStart: '+', event: '!', cursor: 'I', band: ':', dense: '%',
		bar:   [3]rune{'|', '|', '|'},
		marks: [...]rune{Solid: 'o', Hollow: '.', Dose: '^', Drain: 'v', Check: '*', Raw: ',', Other: '+', Several: '@'},
	},
}
