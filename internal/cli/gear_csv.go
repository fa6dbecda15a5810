package cli

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// told are columns of an export that an import leaves alone: the log book knows
// them by itself.
var told = []string{"stands", "washes", "last-washed"}

// gearColumns are the fields of a piece, by the names that the flags have too.
func gearColumns() (names []string) {
	for _, f := range gearKind().Fields {
		names = append(names, f.Name)
	}
	return names
}

func gearKind() *bath.Spec {
	spec, _ := bath.SpecOf("gear")
	return spec
}

func (a *app) gearExport() *cobra.Command {
	return &cobra.Command{
		Use: "export", Short: "Write the gear list as CSV", Args: noWords,
		Example: "bathside gear export > gear.csv",
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error {
				x, err := a.snapshot(st)
				if err != nil {
					return err
				}
				return writeGear(a.Out, x)
			})
		},
	}
}

func writeGear(out io.Writer, x *advise.Snapshot) error {
	w := csv.NewWriter(out)
	_ = w.Write(append(gearColumns(), told...)) // Flush keeps the error
	for _, g := range x.Gear() {
		var cells []string
		for _, f := range gearKind().Fields {
			cells = append(cells, plainCell(f.Get(&g.Gear, x.Sys)))
		}
		last := ""
		if wash, ok := g.LastWash(); ok {
			last = wash.At.In(x.Now.Location()).Format("2006-01-02 15:04")
		}
		_ = w.Write(append(cells, g.Where, fmt.Sprint(g.Washes), last))
	}
	w.Flush()
	return w.Error()
}

// plainCell keeps a spreadsheet from reading a text as a formula.
func plainCell(s string) string {
	if s != "" && strings.ContainsAny(s[:1], "=+-@\t") {
		return "'" + s
	}
	return s
}

// gearRow is a row of a gear list to be taken.
type gearRow struct {
	line int
	gear bath.Gear
}

// readGear reads a gear list: a first row with the names of the columns, commas
// or semicolons between cells. An empty cell leaves things as they are.
func readGear(in io.Reader) ([]gearRow, error) {
	text := bufio.NewReader(in)
	if mark, _ := text.Peek(3); string(mark) == "\uFEFF" { // as spreadsheets put it there
		_, _ = text.Discard(3)
	}
	r := csv.NewReader(text)
	r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace = delimiter(text), -1, true
	head, err := r.Read()
	if err != nil {
		return nil, badCSV(err)
	}
	columns, err := columnsOf(head)
	if err != nil {
		return nil, err
	}
	var rows []gearRow
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, badCSV(err)
		}
		line, _ := r.FieldPos(0)
		row := gearRow{line: line}
		if err := row.read(columns, cells); err != nil {
			return nil, err
		}
		if row.gear != (bath.Gear{}) {
			rows = append(rows, row)
		}
	}
}

// delimiter is what stands between the cells of the first row.
func delimiter(text *bufio.Reader) rune {
	first, _ := text.Peek(4096)
	head, _, _ := strings.Cut(string(first), "\n")
	if strings.Count(head, ";") > strings.Count(head, ",") {
		return ';'
	}
	return ','
}

func badCSV(err error) error {
	if errors.Is(err, io.EOF) {
		return refuse("csv", "the list is empty: its first row names the columns, like tag,item,made")
	}
	return refuse("csv", "the list cannot be read: %s", oneLine(err))
}

// columnsOf gives the field of each column, "" for those that are left alone.
func columnsOf(head []string) ([]string, error) {
	var columns []string
	for _, cell := range head {
		name := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(cell)), " ", "-")
		switch {
		case slices.Contains(told, name):
			name = ""
		case !slices.Contains(gearColumns(), name):
			return nil, refuse("csv", "column %s is not known: there are %s", quote(cell), strings.Join(gearColumns(), ", "))
		}
		columns = append(columns, name)
	}
	if !slices.Contains(columns, "tag") {
		return nil, refuse("csv", "there is no column tag: the first row names the columns, like tag,item,made")
	}
	return columns, nil
}

func (row *gearRow) read(columns, cells []string) error {
	for i, cell := range cells {
		switch {
		case strings.TrimSpace(cell) == "", i < len(columns) && columns[i] == "":
			continue
		case i >= len(columns):
			return refuse("csv", "row %d has more cells than the first row has columns", row.line)
		}
		f, _ := gearKind().Field(columns[i])
		if err := f.Set(&row.gear, units.Scan, strings.TrimPrefix(cell, "'")); err != nil {
			return refuse("csv", "row %d: %s", row.line, err)
		}
	}
	return nil
}
