package console

import (
	"bathside/internal/bath"
	"bathside/internal/units"
)

// GuideForm says what is wrong with an entry that a guide fills in, for
// [guide.Load]: nil if its form can hold it, whatever units the station shows.
func GuideForm(kind string, preset map[string]string) error {
	for _, sys := range []units.System{units.US, units.SI} {
		if err := bath.Typed(bath.Kind(kind), preset, sys.Scan); err != nil {
			return err
		}
	}
	return nil
}
