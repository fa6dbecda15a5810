package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// loseUnknown is what --lose is given where lines cannot be counted.
const loseUnknown = "unknown"

// restoring is what restore was asked to do.
type restoring struct {
	from  string
	lose  string // how many lines may go; "" for none
	other bool   // the backup may be of another station

	site   string // name of the station in the backup
	by     string
	change station.Difference
}

func (a *app) restore() *cobra.Command {
	r := new(restoring)
	cmd := &cobra.Command{
		Use: "restore FILE", Short: "Put a backup back, and keep the file that is there", Args: oneWord("the backup"),
		Long: "Puts a backup in the place of the station file. The backup is checked whole first. The file that is there is kept beside it under another name, whatever its state. " +
			"Where it has lines that the backup has not, their number must be given with --lose; " + loseUnknown + " where it is too damaged to be counted. The log book gets a note for the next shift, by --as.",
		Example: "bathside restore backups/station-2026-11-27T0705.db --as Reyes",
		RunE: func(cmd *cobra.Command, args []string) error {
			r.from = args[0]
			return a.restoreFile(cmd.Context(), r)
		},
	}
	cmd.Flags().StringVar(&r.lose, "lose", "", "how many lines the file that is there has and the backup has not")
	cmd.Flags().BoolVar(&r.other, "other-station", false, "the backup is of another station than the file that is there")
	return cmd
}

func (a *app) restoreFile(ctx context.Context, r *restoring) error {
	aside, err := a.lookAtBackup(r)
	if err != nil {
		return err
	}
	put, err := a.putBack(ctx, r, aside)
	if err != nil {
		return err
	}
	if r.change.None {
		aside = ""
	}
	line, logErr := a.noteRestore(r, aside)
	return a.sayRestored(r, put, aside, line, logErr)
}

// lookAtBackup sees that the backup can be read, of which station it is and who
// it is that restores it, and names what the file that is there will be called.
func (a *app) lookAtBackup(r *restoring) (aside string, err error) {
	data := absolute(a.dataPath())
	if real, err := filepath.EvalSymlinks(data); err == nil {
		data = real
	}
	info, err := os.Stat(r.from)
	if err != nil || !info.Mode().IsRegular() {
		return "", refuse("no-file", "%s cannot be read: give a file that bathside backup wrote", r.from)
	}
	if there, err := os.Stat(data); err == nil && os.SameFile(there, info) {
		return "", refuse("same-file", "%s is the station file itself: give a file that bathside backup wrote", r.from)
	}
	st, err := station.Open(r.from, station.Options{Now: a.now})
	if err != nil {
		return "", restoreFault(err, r.from, data, "")
	}
	s, err := st.State()
	if err := errors.Join(err, st.Close()); err != nil {
		return "", restoreFault(err, r.from, data, "")
	}
	r.site = s.Site.Station
	r.by, err = a.who(s)
	return station.AsideName(data, a.now().In(s.Zone())), err
}

func (a *app) putBack(ctx context.Context, r *restoring, aside string) (station.Backup, error) {
	a.busy.Lock()
	defer a.busy.Unlock()
	put, err := station.Restore(a.dataPath(), r.from, aside, checkWith(ctx), func(d station.Difference) error {
		r.change = d
		return r.agree(a.dataPath(), aside)
	})
	return put, restoreFault(err, r.from, a.dataPath(), aside)
}

// agree says no where something would go that nobody said may go.
func (r *restoring) agree(path, aside string) error {
	kept := "the file that is there is kept as " + filepath.Base(aside)
	d := r.change
	lines := countLines(d.Lost)
	switch {
	case d.None:
		return nil
	case d.Unread && r.lose != loseUnknown:
		return refuse("lose", "%s cannot be read, so nobody can tell which of its lines the backup has not: give --lose %s to restore it all the same; %s", path, loseUnknown, kept)
	case d.Other && !r.other:
		return refuse("other-station", "%s is of another station, %s: give --other-station to put it in the place of %s all the same; %s", r.from, quote(r.site), path, kept)
	case d.Unread:
		return nil
	case d.Lost > 0 && r.lose == "":
		return refuse("lose", "the log book %s has %s that the backup has not: give a newer backup, or --lose %d to go back all the same; %s", path, lines, d.Lost, kept)
	case r.lose != "" && r.lose != strconv.FormatUint(d.Lost, 10):
		return refuse("lose", "--lose %s is not the number: the log book %s has %s that the backup has not; give --lose %d, or leave it out where that is 0", r.lose, path, lines, d.Lost)
	}
	return nil
}

// restoreFault says which of the two files it was.
func restoreFault(err error, from, path, aside string) error {
	said := new(fault)
	switch {
	case errors.As(err, &said):
		return said
	case errors.Is(err, station.ErrDamaged):
		return &fault{Kind: kindDamaged, ID: "damaged", Say: from + " is damaged and was not restored, and nothing was changed: take another backup"}
	case errors.Is(err, station.ErrNotOurs):
		return refuse("not-ours", "%s is not a backup of a station file: give a file that bathside backup wrote", from)
	case errors.Is(err, station.ErrExists) && aside != "":
		return refuse("exists", "%s is there already, or somebody made %s meanwhile: nothing was changed; do it again", aside, path)
	}
	return err
}

// noteRestore tells the next shift. The file has been put back by then: a note
// that cannot be written is said and no more.
func (a *app) noteRestore(r *restoring, aside string) (line uint64, err error) {
	note := "log book restored from " + filepath.Base(r.from)
	switch {
	case aside == "":
	case r.change.Unread:
		note += "; the file before could not be read, and is kept as " + filepath.Base(aside)
	default:
		note += fmt.Sprintf("; the file before had %s more, and is kept as %s", countLines(r.change.Lost), filepath.Base(aside))
	}
	err = a.withoutCatalog(func(st *station.Station) error {
		entries, err := a.record(st, station.Draft{By: r.by, Body: &bath.Handover{Note: note}})
		if err == nil {
			line = entries[0].Seq
		}
		return err
	})
	return line, err
}

func (a *app) sayRestored(r *restoring, put station.Backup, aside string, line uint64, logErr error) error {
	if logErr != nil {
		fmt.Fprintf(a.Err, "bathside: it is restored, but the log book has no note of it: %s\n", a.faultOf(logErr).Say)
	}
	if a.flags.json {
		return a.printJSON(struct {
			station.Backup
			Lost   uint64 `json:"lost"`
			Unread bool   `json:"unread,omitzero"`
			Kept   string `json:"kept,omitzero"`
			Line   uint64 `json:"line,omitzero"`
		}{put, r.change.Lost, r.change.Unread, aside, line})
	}
	say := fmt.Sprintf("%s restored from %s, seal number %s\n", countLines(put.Lines), put.Path, put.Seal)
	switch {
	case aside == "":
	case r.change.Unread:
		say += "the file before could not be read; it is kept as " + aside + "\n"
	default:
		say += fmt.Sprintf("the file before had %s more; it is kept as %s\n", countLines(r.change.Lost), aside)
	}
	_, err := fmt.Fprint(a.Out, say)
	return err
}
