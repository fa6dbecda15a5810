package cli

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"

	"github.com/adrg/xdg"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

// dataName is the station file, below the data home.
const dataName = "bathside/station.db"

// dataPath is the station file that this run is about.
func (a *app) dataPath() string {
	if a.flags.data != "" {
		return a.flags.data
	}
	if a.Getenv != nil {
		if path := a.Getenv("BATHSIDE_DATA"); path != "" {
			return path
		}
	}
	return filepath.Join(xdg.DataHome, filepath.FromSlash(dataName))
}

func (a *app) options() (station.Options, error) {
	cat, err := a.catalog()
	return station.Options{Now: a.now, Catalog: cat, AskPIN: station.AskPIN, PINLine: station.PINLine}, err
}

// withStation opens the station file for fn.
func (a *app) withStation(fn func(*station.Station) error) error {
	o, err := a.options()
	if err != nil {
		return err
	}
	st, err := station.Open(a.dataPath(), o)
	if err != nil {
		return err
	}
	return errors.Join(fn(st), st.Close())
}

// record writes drafts, with the PIN of the environment where they have none of
// their own, and keeps an interrupt waiting until they are on disk.
func (a *app) record(st *station.Station, drafts ...station.Draft) ([]bath.Entry, error) {
	for i := range drafts {
		drafts[i].PIN = cmp.Or(drafts[i].PIN, a.secrets.PIN)
		if err := a.clockStands(); drafts[i].PIN != "" && err != nil {
			return nil, err
		}
	}
	a.busy.Lock()
	defer a.busy.Unlock()
	return st.Record(drafts...)
}

// state is what the log book says, in the units that were asked for.
func (a *app) state(st *station.Station) (*bath.State, error) {
	s, err := st.State()
	if err != nil || a.flags.units == nil {
		return s, err
	}
	shown := *s
	shown.Site.Units = a.flags.units.String()
	return &shown, nil
}

// snapshot is how the bath stands now.
func (a *app) snapshot(st *station.Station) (*advise.Snapshot, error) {
	s, err := a.state(st)
	if err != nil {
		return nil, err
	}
	x, err := advise.Assess(s, a.flags.bath, a.now())
	if err != nil {
		return nil, fmt.Errorf("assess the bath: %w", err)
	}
	return x, nil
}

// system is how quantities are written where no station is asked.
func (a *app) system() units.System {
	if a.flags.units != nil {
		return *a.flags.units
	}
	return units.US
}
