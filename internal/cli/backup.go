package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// backupsName is the folder beside the station file that backups go to where
// no other is named.
const backupsName = "backups"

// keepBackups is how many backups are kept (our judgement, no source: a
// quarter of weekly ones).
const keepBackups = 14

func (a *app) backup() *cobra.Command {
	keep := keepBackups
	cmd := &cobra.Command{
		Use: "backup [DIR|FILE]", Short: "Copy the station file, checked, named by date", Args: atMostOneWord("the folder or the file"),
		Long: "Copies the station file, also while it is in use, checks the copy as verify does, and names it by date. Without a word it goes to the folder " + backupsName + " beside the station file; a name that ends like the station file's is a file, any other a folder, which must be there. " +
			"In a folder the newest --keep backups of this station are kept. The log book gets a line, by --as. A backup on the same disk does not outlive the disk: make one on another now and then.",
		Example: "bathside backup\nbathside backup /media/stick --keep 30\nbathside backup before-the-move.db",
		RunE: func(cmd *cobra.Command, args []string) error {
			if keep < 1 {
				return refuse("input", "--keep %d would keep no backup: give 1 or more", keep)
			}
			return a.withoutCatalog(func(st *station.Station) error { return a.backUp(cmd.Context(), st, append(args, "")[0], keep) })
		},
	}
	cmd.Flags().IntVar(&keep, "keep", keep, "how many backups of this station to keep in the folder")
	return cmd
}

// withoutCatalog opens the station file for fn, also where the station's own
// catalog cannot be read: that must not be in the way of a backup.
func (a *app) withoutCatalog(fn func(*station.Station) error) error {
	st, err := station.Open(a.dataPath(), station.Options{Now: a.now, AskPIN: station.AskPIN, PINLine: station.PINLine})
	if err != nil {
		return err
	}
	return errors.Join(fn(st), st.Close())
}

// backedUp is what came of it.
type backedUp struct {
	station.Backup
	Removed   []string `json:"removed,omitempty"`
	Line      uint64   `json:"line,omitzero"`       // of the log book
	NotLogged string   `json:"not_logged,omitzero"` // why there is none
}

func (a *app) backUp(ctx context.Context, st *station.Station, place string, keep int) error {
	dir, file, err := a.backupPlace(place)
	if err != nil {
		return err
	}
	var done backedUp
	if done.Backup, err = a.makeBackup(ctx, st, dir, file); err != nil {
		return err
	}
	done.Line, err = a.logBackup(st, done.Backup)
	if err != nil {
		done.NotLogged = a.faultOf(err).Say
	}
	var thinning error
	if file == "" {
		done.Removed, thinning = st.Thin(dir, keep, done.Backup)
	}
	if err := a.sayBackup(done); err != nil {
		return err
	}
	if thinning != nil {
		return &fault{Kind: kindFailed, ID: "thin", Say: "the backup is made, but an old one could not be removed: " + oneLine(thinning)}
	}
	return nil
}

// backupPlace is the folder for a backup, and the file where one was named. A
// folder that was named and is not there may be a disk that is not plugged in,
// so only our own is made.
func (a *app) backupPlace(place string) (dir, file string, err error) {
	data := absolute(a.dataPath())
	switch info, err := os.Stat(place); {
	case place == "":
		dir = filepath.Join(filepath.Dir(data), backupsName)
		return dir, "", makeLike(dir, filepath.Dir(data))
	case err == nil && info.IsDir():
		return absolute(place), "", nil
	case filepath.Ext(place) == filepath.Ext(data) && filepath.Ext(place) != "":
		return filepath.Dir(absolute(place)), absolute(place), nil
	}
	return "", "", refuse("no-folder", "there is no folder %s: make it, or plug in its disk; a file wants a name that ends in %s", place, filepath.Ext(dataName))
}

// makeLike makes a folder with the permissions of the one that it stands in.
func makeLike(dir, parent string) error {
	info, err := os.Stat(parent)
	if err != nil {
		return err
	}
	if err := os.Mkdir(dir, 0o700); errors.Is(err, os.ErrExist) {
		return nil
	} else if err != nil {
		return fmt.Errorf("make the folder for backups: %w", err)
	}
	return os.Chmod(dir, info.Mode().Perm()&0o770|info.Mode()&os.ModeSetgid)
}

// makeBackup copies the file under a name that is free, and checks the copy as
// verify does.
func (a *app) makeBackup(ctx context.Context, st *station.Station, dir, file string) (station.Backup, error) {
	a.busy.Lock()
	defer a.busy.Unlock()
	at := a.stationTime(st)
	for nth := 1; ; nth++ {
		path := file
		if file == "" {
			path = filepath.Join(dir, station.BackupName(st.Path(), at, nth))
		}
		made, err := st.BackUp(path, checkWith(ctx))
		if errors.Is(err, station.ErrExists) && file == "" && nth < 100 {
			continue
		}
		return made, backupFault(err, st.Path(), path)
	}
}

// stationTime is now in the station's zone, or in UTC where a line of the log
// book cannot be understood: that must not be in the way either.
func (a *app) stationTime(st *station.Station) time.Time {
	s, err := st.State()
	if err != nil {
		return a.now().UTC()
	}
	return a.now().In(s.Zone())
}

// checkWith is the part of verify that is done in another process.
func checkWith(ctx context.Context) func(string) error {
	return func(draft string) error {
		say := pagesSay(ctx, draft)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if say != "" {
			return fmt.Errorf("%w: %s", station.ErrDamaged, say)
		}
		return nil
	}
}

// backupFault says whose fault it was: what the store says of a file is not
// always of the station file here.
func backupFault(err error, from, to string) error {
	switch {
	case errors.Is(err, station.ErrDamaged):
		return &fault{Kind: kindDamaged, ID: "damaged", Say: from + " is damaged, so no backup was made of it: run bathside doctor; backups made before stay as they are"}
	case errors.Is(err, station.ErrExists):
		return refuse("exists", "%s is there already and stays as it is: name another file", to)
	case errors.Is(err, station.ErrFull):
		return &fault{Kind: kindFailed, ID: "full", Say: "the disk of " + to + " is full and no backup was made: make room, or name a folder on another disk"}
	case errors.Is(err, station.ErrReadOnly), errors.Is(err, station.ErrNotExist):
		return &fault{Kind: kindFailed, ID: "read-only", Say: to + " cannot be written by this account, and no backup was made: name a folder that is there and can be written"}
	}
	return err
}

// logBackup writes down that there is one. Where nobody can be named for it
// there is a backup all the same.
func (a *app) logBackup(st *station.Station, made station.Backup) (uint64, error) {
	s, err := st.State()
	if err != nil {
		return 0, err
	}
	by, err := a.who(s)
	if err != nil {
		return 0, err
	}
	note := fmt.Sprintf("%s, %d lines", filepath.Base(made.Path), made.Lines)
	entries, err := a.record(st, station.Draft{By: by, Body: &bath.Duty{What: bath.DutyBackup, Note: note}})
	if err != nil {
		return 0, err
	}
	return entries[0].Seq, nil
}

func (a *app) sayBackup(done backedUp) error {
	if done.NotLogged != "" {
		fmt.Fprintf(a.Err, "bathside: the backup is made, but the log book has no line of it: %s\n", done.NotLogged)
	}
	if a.flags.json {
		return a.printJSON(done)
	}
	say := fmt.Sprintf("%s backed up to %s, seal number %s\n", countLines(done.Lines), done.Path, done.Seal)
	for _, path := range done.Removed {
		say += "removed " + path + "\n"
	}
	_, err := fmt.Fprint(a.Out, say)
	return err
}
