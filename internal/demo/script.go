package demo

import (
	"fmt"
	"io/fs"

	"github.com/pelletier/go-toml/v2"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// scriptFile is where the story stands; its format is told at its top.
const scriptFile = "demo/station.toml"

// script is the story as it is written down.
type script struct {
	Zone  string      // where the station lies, unless its reader's zone is known
	Shift string      // its pattern, without a date
	Bath  string      // the id of its one bath
	Days  []scriptDay `toml:"day"`
}

// scriptDay is a duty day of the story.
type scriptDay struct {
	Ago   int    // duty days before the one that is on
	What  string // for whoever reads the file
	Lines []scriptLine
}

// scriptLine is an entry as the command "log" would be given it: the keys below,
// and the fields of its kind.
type scriptLine map[string]string

// The keys of a line that are not fields of its kind.
const (
	keyAt      = "at"
	keyBy      = "by"
	keyLog     = "log"
	keyLabel   = "label"   // what a later line may call this one
	keyStrikes = "strikes" // the label of a line before, in a strike
	keyOf      = "of"      // the label of a line before, of a wash or of what was kept, in what is done after it
)

func readScript(fsys fs.FS) (*script, error) {
	text, err := fs.ReadFile(fsys, scriptFile)
	if err != nil {
		return nil, err
	}
	s := new(script)
	if err := toml.Unmarshal(text, s); err != nil {
		return nil, fmt.Errorf("%s: %w", scriptFile, err)
	}
	if len(s.Days) == 0 || len(s.Days[0].Lines) == 0 {
		return nil, fmt.Errorf("%s: there is no first line", scriptFile)
	}
	return s, nil
}

// body makes of a line what it records.
func (l scriptLine) body() (bath.Body, error) {
	spec, ok := bath.SpecOf(bath.Kind(l[keyLog]))
	if !ok {
		return nil, fmt.Errorf("%q is not a kind of entry", l[keyLog])
	}
	body := spec.New()
	for name, text := range l {
		switch name {
		case keyAt, keyBy, keyLog, keyLabel, keyStrikes, keyOf:
			continue
		}
		field, ok := spec.Field(name)
		if !ok {
			return nil, fmt.Errorf("a %s has no %q", spec.Kind, name)
		}
		if err := field.Set(body, units.Scan, text); err != nil {
			return nil, err
		}
	}
	return body, nil
}
