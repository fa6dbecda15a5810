package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"bathside/assets"
	"bathside/internal/catalog"
)

// ownNames are the station's own catalog files, beside its station file. They
// may be missing.
var ownNames = []string{"items.toml", "detergents.toml"}

// ownPaths are where the station's own catalog files are looked for: the one
// that was named, else those beside the station file.
func (a *app) ownPaths() []string {
	if a.flags.catalog != "" {
		return []string{a.flags.catalog}
	}
	var paths []string
	for _, name := range ownNames {
		paths = append(paths, filepath.Join(filepath.Dir(a.dataPath()), name))
	}
	return paths
}

// catalog is what ships, with the station's own files laid over it.
func (a *app) catalog() (*catalog.Catalog, error) {
	own, err := a.readOwn()
	if err != nil {
		return nil, err
	}
	cat, err := catalog.Load(assets.FS, own...)
	if all := (catalog.Mistakes{}); errors.As(err, &all) {
		return nil, refuseMistakes(all)
	}
	return cat, err
}

// readOwn reads the files that are there. One that was named must be.
func (a *app) readOwn() ([]catalog.Own, error) {
	var own []catalog.Own
	for _, path := range a.ownPaths() {
		text, err := os.ReadFile(path)
		switch {
		case err == nil:
			own = append(own, catalog.Own{File: path, Text: text})
		case a.flags.catalog == "" && notThere(err):
		default:
			return nil, refuse("catalog", "the station's own catalog cannot be read: %s: mend that, or name another file with --catalog", oneLine(err))
		}
	}
	return own, nil
}

// notThere reports that there is no such file, also because what should be its
// folder is none.
func notThere(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR)
}

// refuseMistakes tells the first mistake and how many more there are.
func refuseMistakes(all catalog.Mistakes) error {
	say := all[0].Error()
	switch more := len(all) - 1; {
	case more == 1:
		say += "; one more mistake follows"
	case more > 1:
		say += fmt.Sprintf("; %d more mistakes follow", more)
	}
	return refuse("catalog", "%s", say)
}
