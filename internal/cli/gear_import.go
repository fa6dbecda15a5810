package cli

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func (a *app) gearImport() *cobra.Command {
	var yes bool
	cmd := &cobra.Command{
		Use: "import FILE|-", Short: "Take a gear list from CSV; without --yes only say what it would do", Args: oneWord("the file, or - for standard input"),
		Long: "Registers or changes each tag of a CSV file, all or none. The first row names the columns: " + strings.Join(gearColumns(), ", ") +
			". Only tag must be there; an empty cell leaves things as they are. What gear export wrote can be changed and taken back.",
		Example: "bathside gear import gear.csv\nbathside gear import gear.csv --yes",
		RunE: func(_ *cobra.Command, args []string) error {
			in := a.In
			if args[0] != "-" {
				f, err := os.Open(args[0])
				if err != nil {
					return refuse("no-file", "%s cannot be read: give a CSV file", args[0])
				}
				defer f.Close()
				in = f
			}
			return a.withStation(func(st *station.Station) error { return a.takeGear(st, in, yes) })
		},
	}
	cmd.Flags().BoolVar(&yes, "yes", false, "take it; else only what it would do is told")
	return cmd
}

// gearChange is what a row would do.
type gearChange struct {
	gear bath.Gear
	say  string
	new  bool
}

func (a *app) takeGear(st *station.Station, in io.Reader, yes bool) error {
	rows, err := readGear(in)
	if err != nil {
		return err
	}
	s, err := a.state(st)
	if err != nil {
		return err
	}
	who, err := a.who(s)
	if err != nil {
		return err
	}
	changes, err := a.gearChanges(st, s, who, rows)
	if err != nil {
		return err
	}
	t := gearTally{Same: len(rows) - len(changes), Written: yes}
	var drafts []station.Draft
	for _, c := range changes {
		drafts = append(drafts, station.Draft{By: who, Body: &c.gear})
		if c.new {
			t.New++
		} else {
			t.Changed++
		}
	}
	if yes && len(drafts) > 0 {
		if _, err := a.record(st, drafts...); err != nil {
			return err
		}
	}
	return a.printTaken(t, changes)
}

// gearChanges lists what rows would do, each judged as its line would be.
func (a *app) gearChanges(st *station.Station, s *bath.State, who string, rows []gearRow) ([]gearChange, error) {
	var changes []gearChange
	seen := map[string]int{}
	for _, row := range rows {
		g := row.gear
		if g.Item != "" && st.Catalog() != nil {
			item, err := st.Catalog().Item(g.Item)
			if err != nil {
				return nil, refuse("csv", "row %d: %s", row.line, err)
			}
			g.Item = item.ID
		}
		e := bath.Entry{At: a.now().In(s.Zone()), Logged: a.now().In(s.Zone()), By: who, Body: &g}
		if err := bath.Check(s, e, a.now()); err != nil {
			return nil, refuse("csv", "row %d: %s", row.line, err)
		}
		if before := seen[strings.ToLower(g.Tag)]; before > 0 {
			return nil, refuse("csv", "row %d: tag %s stands in row %d already", row.line, g.Tag, before)
		}
		seen[strings.ToLower(g.Tag)] = row.line
		old, known := s.Piece(g.Tag)
		if now := old.Gear.With(g); known && now == old.Gear {
			continue
		}
		changes = append(changes, gearChange{g, e.Say(s.System()), !known})
	}
	return changes, nil
}

// gearTally counts what was done, or would be.
type gearTally struct {
	New     int  `json:"new"`
	Changed int  `json:"changed"`
	Same    int  `json:"same"`
	Written bool `json:"written"`
}

func (a *app) printTaken(t gearTally, changes []gearChange) error {
	if a.flags.json {
		return a.printJSON(t)
	}
	for _, c := range changes {
		what := "change"
		if c.new {
			what = "new   "
		}
		fmt.Fprintf(a.text(), "%s  %s\n", what, strings.TrimPrefix(c.say, "gear "))
	}
	say := "%d new, %d changed, %d as they are\n"
	if !t.Written && len(changes) > 0 {
		say = "%d new, %d changed, %d as they are: nothing is written yet, --yes takes it\n"
	}
	_, err := fmt.Fprintf(a.text(), say, t.New, t.Changed, t.Same)
	return err
}
