package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// How a thing stands that doctor looked at.
const (
	stateFine    = "fine"
	stateMend    = "mend"
	stateDamaged = "damaged"
)

// finding is one thing that doctor looked at: how it stands, in a sentence, and
// what to do.
type finding struct {
	ID    string `json:"id"`
	State string `json:"state"`
	Say   string `json:"say"`
	Do    string `json:"do,omitzero"`
}

// checkup is one look at a station file and what lies around it.
type checkup struct {
	*app
	path     string // from the root
	real     string // with links resolved
	info     os.FileInfo
	diskOf   func(dir string) diskState
	findings []finding
}

// verdict ends a command that has told everything itself.
type verdict struct{ code int }

func (v *verdict) Error() string { return fmt.Sprintf("exit code %d", v.code) }

func (a *app) doctor() *cobra.Command {
	return &cobra.Command{
		Use: "doctor", Short: "Look at the station file and around it, and say what to mend", Args: noWords,
		Long: "Looks at the station file, who may read and write it, its lock file, the disk, the clock, the zone, the backups, the station's own catalog and what was left over, and says in sentences what it found and what to do. It changes nothing. " +
			"The exit code is 0 where all is well, 1 where something is to be mended, 4 where the station file is damaged.",
		RunE: func(cmd *cobra.Command, _ []string) error {
			x := &checkup{app: a, path: absolute(a.dataPath()), diskOf: diskOf}
			x.look(cmd.Context())
			if err := cmd.Context().Err(); err != nil { // what was stopped says nothing of the file
				return err
			}
			return x.tellAll()
		},
	}
}

func (x *checkup) fine(id, format string, args ...any) {
	x.findings = append(x.findings, finding{ID: id, State: stateFine, Say: fmt.Sprintf(format, args...)})
}

// mend adds what is not as it should be; do says what to do.
func (x *checkup) mend(id, do, format string, args ...any) {
	x.findings = append(x.findings, finding{ID: id, State: stateMend, Say: fmt.Sprintf(format, args...), Do: do})
}

// look goes from the file outwards. What needs the lines of the log book is
// left out where they cannot be read.
func (x *checkup) look(ctx context.Context) {
	if !x.file() {
		x.lost()
		return
	}
	sound := x.pages(ctx)
	x.rights()
	x.lockFile()
	x.disk()
	x.leftovers()
	x.ownCatalog()
	if !sound {
		return
	}
	err := x.withoutCatalog(func(st *station.Station) error {
		s, err := st.State()
		if err == nil {
			x.lines(st, s)
		}
		return err
	})
	if err != nil {
		x.mend("lines", "", "The lines cannot be read: %s.", x.faultOf(err).Say)
	}
}

func (x *checkup) lines(st *station.Station, s *bath.State) {
	x.clock(st, s)
	x.zone(s)
	x.backups(st, s)
}

// file reports whether there is a station file.
func (x *checkup) file() bool {
	info, err := os.Stat(x.path)
	switch {
	case notThere(err):
		return false
	case err != nil:
		x.mend("file", "give this account the right to read it", "%s cannot be looked at: %s.", x.path, oneLine(err))
		return false
	}
	x.info, x.real = info, x.path
	if real, err := filepath.EvalSymlinks(x.path); err == nil && real != x.path {
		x.real = real
		x.fine("link", "%s leads to %s.", x.path, real)
	}
	return true
}

// lost speaks of a file that is not there.
func (x *checkup) lost() {
	if len(x.findings) > 0 {
		return
	}
	do := "make one with bathside setup, or name another file with --data"
	dir := filepath.Join(filepath.Dir(x.path), backupsName)
	if kept, err := filepath.Glob(filepath.Join(dir, "*"+filepath.Ext(x.path))); err == nil && len(kept) > 0 {
		do = "put a backup back: bathside restore " + kept[len(kept)-1]
	}
	x.mend("file", do, "There is no log book at %s.", x.path)
}

// worst is the state of the whole.
func (x *checkup) worst() string {
	worst := stateFine
	for _, f := range x.findings {
		if f.State == stateDamaged || f.State == stateMend && worst == stateFine {
			worst = f.State
		}
	}
	return worst
}

func (x *checkup) tellAll() error {
	worst := x.worst()
	if x.flags.json {
		err := x.printJSON(struct {
			Data     string    `json:"data"`
			State    string    `json:"state"`
			Findings []finding `json:"findings"`
		}{x.path, worst, x.findings})
		if err != nil {
			return err
		}
	} else if _, err := fmt.Fprint(x.Out, x.text()); err != nil {
		return err
	}
	switch worst {
	case stateDamaged:
		return &verdict{kindDamaged.exitCode()}
	case stateMend:
		return &verdict{kindFailed.exitCode()}
	}
	return nil
}

// text has what is to be mended where it was found; the last line counts it.
func (x *checkup) text() string {
	var b strings.Builder
	wrong := 0
	for _, f := range x.findings {
		fmt.Fprintf(&b, "%-8s%s\n", f.State, f.Say)
		if f.State != stateFine {
			wrong++
		}
		if f.Do != "" {
			fmt.Fprintf(&b, "        Do this: %s\n", f.Do)
		}
	}
	switch wrong {
	case 0:
		b.WriteString("All is well.\n")
	case 1:
		b.WriteString("One thing is to be mended.\n")
	default:
		fmt.Fprintf(&b, "%d things are to be mended.\n", wrong)
	}
	return b.String()
}
