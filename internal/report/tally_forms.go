package report

import (
	"strings"

	"bathside/internal/units"
)

// form is a table of empty ruled rows to be filled in by hand.
type form struct {
	title   string
	hint    string // one line on how to fill it in
	columns []column
	rows    int
}

// column is one of its columns; the last takes what is left of the width.
type column struct {
	title string
	wide  int
	// of makes the title name the unit in which the station reads it.
	of any
}

// tallyPages are the forms in the order in which they are laid out, by page;
// those of the first stand below the facts.
var tallyPages = [][]form{
	{readingForm, tempForm},
	{washForm},
	{waterForm, soapForm, filterForm, otherForm},
}

var (
	date = column{title: "date", wide: 7}
	hour = column{title: "time", wide: 7}
	who  = column{title: "who"}

	// What a column of each is headed with depends on the station's units.
	degrees = units.Temperature(0)
	volume  = units.Volume(0)
)

var readingForm = form{
	title: "pH readings", rows: 6,
	hint: "ultrasound off; probe still until the number stands; the sample's own degrees",
	columns: []column{
		date, hour, {title: "pH", wide: 9}, {title: "sample", wide: 11, of: degrees}, {title: "meter", wide: 8},
		{title: "buffer 10 reads", wide: 17}, who,
	},
}

var tempForm = form{
	title: "Temperature", rows: 5,
	hint: "measured, not the dial",
	columns: []column{
		date, hour, {title: "bath", wide: 11, of: degrees}, {title: "set point", wide: 14, of: degrees},
		{title: "heater on?", wide: 12}, who,
	},
}

var washForm = form{
	title: "Washes", rows: 24,
	hint: "soil: light, normal, heavy; result: clean, again, damaged; by a key holder",
	columns: []column{
		date, hour, {title: "items, how many", wide: 20}, {title: "soil", wide: 7}, {title: "min", wide: 5},
		{title: "bath", wide: 9, of: degrees}, {title: "result", wide: 8}, who,
	},
}

var waterForm = form{
	title: "Water", rows: 4,
	hint: "baskets out; for: vapour, out on the gear, a spill; 0 where it was at the mark",
	columns: []column{
		date, hour, {title: "missing", wide: 14, of: volume}, {title: "added", wide: 12, of: volume},
		{title: "for", wide: 14}, who,
	},
}

var soapForm = form{
	title: "Soap", rows: 3,
	hint: "the same product only; pour slowly, eyes covered; count the empties",
	columns: []column{
		date, hour, {title: "added", wide: 12, of: volume}, {title: "empties", wide: 9}, {title: "lot", wide: 16}, who,
	},
}

var filterForm = form{
	title: "Filter", rows: 5,
	hint: "once, after the last load of a wash day; ultrasound off",
	columns: []column{
		date, hour, {title: "min", wide: 6}, {title: "spray return seen?", wide: 20},
		{title: "cartridge changed", wide: 19}, who,
	},
}

var otherForm = form{
	title: "Anything else", rows: 5,
	hint:    "red tag, spill, drain, run empty to clear bubbles, cleaning, eyewash, notes",
	columns: []column{date, hour, {title: "what happened", wide: 44}, who},
}

// lines is the form on paper. A row is two lines high: room for a hand.
func (f form) lines(sys units.System) []string {
	widths := f.widths()
	titles := make([]string, len(f.columns))
	blank := make([]string, len(f.columns))
	ruled := make([]string, len(f.columns))
	for i, c := range f.columns {
		titles[i] = pad(" "+c.heading(sys), widths[i])
		blank[i] = strings.Repeat(" ", widths[i])
		ruled[i] = strings.Repeat("_", widths[i])
	}
	row := func(cells []string) string { return "|" + strings.Join(cells, "|") + "|" }
	lines := []string{f.title, f.hint, row(titles), row(ruled)}
	for range f.rows {
		lines = append(lines, row(blank), row(ruled))
	}
	return append(lines, "")
}

func (f form) widths() []int {
	widths := make([]int, len(f.columns))
	left := width - 1 // the first bar
	for i, c := range f.columns {
		widths[i] = c.wide
		left -= c.wide + 1
	}
	widths[len(widths)-1] = left
	return widths
}

func (c column) heading(sys units.System) string {
	if c.of == nil {
		return c.title
	}
	return c.title + ", " + ascii(sys.Unit(c.of))
}
