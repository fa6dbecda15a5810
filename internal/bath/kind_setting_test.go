package bath_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
)

func TestSettingRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "nothing", by: officer, body: &bath.Setting{}, id: "missing", say: "no setting was given: name one"},
		{name: "no such zone", by: officer, body: &bath.Setting{Zone: "Denver"}, id: "input", say: `"Denver" is not a time zone: give its IANA name`},
		{name: "this machine's zone", by: officer, body: &bath.Setting{Zone: "Local"}, id: "input", say: `"Local" is not a time zone`},
		{name: "no such pattern", by: officer, body: &bath.Setting{Shift: "12/12"}, id: "input", say: "12/12"},
		{name: "no such units", by: officer, body: &bath.Setting{Units: "metric"}, id: "input", say: `units: "metric" is not one of us, si`},
		{name: "limit too small", by: officer, body: &bath.Setting{Limit: p(0.05)}, id: "input", say: "an allowed drop of 0.05 is not one to act on: 0.1 to 2 pH units"},
		{name: "limit too wide", by: officer, body: &bath.Setting{Limit: p(2.1)}, id: "input", say: "0.1 to 2 pH units"},
		{name: "shorter when cold", by: officer, body: &bath.Setting{PerTenC: p(0.5)}, id: "input", say: "1 to 3 are allowed"},
		{name: "long name", by: officer, body: &bath.Setting{Station: strings.Repeat("x", 61)}, id: "input", say: "61 letters long: at most 60"},
		{name: "no time at all", by: officer, body: &bath.Setting{FilterTime: -1}, id: "input", say: "filter run of -1 is not possible"},
	})
}

func TestASettingChangesOnlyWhatItCarries(t *testing.T) {
	b := begun(t)
	b.log(officer, &bath.Setting{Units: "si"})
	b.log(officer, &bath.Setting{Limit: p(0.4)})
	if s := b.state.Site; s.Station != "Mill Road" || s.Units != "si" || s.DropLimit() != 0.4 {
		t.Errorf("got %+v", s)
	}
}

// Defaults: 0.5 and 30 min are common practice, no source; 1.5 and 40 h from
// memory.
func TestUnsetSettingsHaveTheirDefaults(t *testing.T) {
	var s bath.Setting
	if s.DropLimit() != 0.5 || s.Lengthen() != 1.5 || s.FilterRun().Min() != 30 || s.CartridgeLife().Hours() != 40 || s.InWater() {
		t.Errorf("got %v, %v, %v, %v, %v", s.DropLimit(), s.Lengthen(), s.FilterRun(), s.CartridgeLife(), s.InWater())
	}
}
