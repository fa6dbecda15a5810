// Package internal_test holds the plan of the house: which package of ours may import which, that only the journal
// knows the database, and that no science touches the machine or asks the clock. It reads the source with the parser
// alone. It is not about style: gofmt, go vet and staticcheck see to that.
package internal_test

import (
	"fmt"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
)

const (
	module   = "bathside"
	database = "go.etcd.io/bbolt"
	keeper   = "internal/journal" // the one package that knows the database
)

// room is one package of the house.
type room struct {
	dir  string   // from the root of the module
	pure bool     // a science: no I/O, and the time is an argument
	may  []string // the packages of ours that it may import, by last name
	why  string   // why no more than these; ends a sentence
}

// doors are what every face may come in by, and the words that it needs to speak of what it finds.
var doors = []string{"station", "advise", "units", "catalog", "load", "bath", "roster", "heat", "plain"}

const noOtherFace = "a face comes in by station and advise and leans on no other face"

// house is the whole plan, from the inside out. Tests may import what they like.
var house = []room{
	{"internal/units", true, nil, "everything rests on quantities"},
	{"internal/plain", true, nil, "making text harmless is a matter of its letters alone"},
	{"internal/jsonline", true, nil, "a line is checked before anybody knows what it says"},
	{"internal/tomlkeys", true, nil, "where a key stands is a matter of the text alone"},
	{"internal/chart", true, nil, "a chart draws any series and knows nothing of baths"},
	{"internal/roster", true, nil, "who is on duty is a matter of the calendar alone"},
	{"internal/snap", false, nil, "a picture can be taken of any screen"},
	{"internal/journal", false, []string{"jsonline"}, "the store keeps bytes and knows no domain"},
	{"assets", false, nil, "assets are data"},
	{"internal/chem", true, []string{"units"}, "chemistry needs quantities only"},
	{"internal/heat", true, []string{"units"}, "heat needs quantities only"},
	{"internal/trend", true, []string{"units"}, "statistics need quantities only"},
	{"internal/renewal", true, nil, "the cost of topping up against draining is arithmetic on days and costs"},
	{"internal/pin", true, nil, "a PIN's hash is arithmetic; counting wrong tries is the station's"},
	{"internal/catalog", true, []string{"units", "plain", "tomlkeys"}, "the catalog is handed its files by the station"},
	{"internal/guide", true, []string{"units", "catalog", "tomlkeys"}, "a guide names entries and knows no rule of the bath"},
	{"internal/load", true, []string{"units", "catalog"}, "packing knows items, not the bath they go into"},
	{"internal/bath", true, []string{"units", "plain", "catalog", "roster", "chem"}, "a calibration is refused by the arithmetic of chem, and the fold must not change when a forecast does"},
	{"internal/advise", true, []string{"units", "chem", "heat", "trend", "renewal", "load", "catalog", "bath", "roster"},
		"advice follows from the state and the time, not from the store or a face"},
	{"internal/station", false, []string{"journal", "bath", "catalog", "units", "roster", "assets", "pin"},
		"the one door to the store draws no conclusions"},
	{"internal/demo", false, []string{"station", "advise", "bath", "catalog", "assets", "units", "roster"},
		"the demo's lines go in by the same door as the crew's, and its decisions rest on the same advice"},
	{"internal/console", false, slices.Concat(doors, []string{"chart", "guide"}), noOtherFace},
	{"internal/report", false, slices.Concat(doors, []string{"chart", "guide"}), noOtherFace},
	{"internal/relay", false, doors, noOtherFace},
	{"internal/cli", false, slices.Concat(doors, []string{"chem", "trend", "renewal", "console", "report", "demo", "assets", "chart", "guide", "jsonline"}),
		"commands start the other faces and compute with the sciences, but come to the store by station"},
	{"cmd/bathside", false, []string{"cli"}, "main hands over and does nothing else"},
}

func TestHouse(t *testing.T) {
	said, err := breaches(os.DirFS(".."))
	if err != nil {
		t.Fatal(err)
	}
	for _, breach := range said {
		t.Error(breach)
	}
}

// TestLinterSaysTheSame keeps the rules of .golangci.yml from drifting: each must stand there as it follows from the
// plan.
func TestLinterSaysTheSame(t *testing.T) {
	config, err := os.ReadFile("../.golangci.yml")
	if err != nil {
		t.Fatal(err)
	}
	var sciences []string
	for _, r := range house {
		if rule := r.lintRule(); !strings.Contains(string(config), rule) {
			t.Errorf(".golangci.yml lacks or differs from this rule of the plan:\n%s", rule)
		}
		if r.pure {
			sciences = append(sciences, path.Base(r.dir))
		}
	}
	files := fmt.Sprintf(`"**/internal/{%s}/*.go"`, strings.Join(sciences, ","))
	if !strings.Contains(string(config), files) {
		t.Errorf(".golangci.yml does not name the sciences as the plan does: %s", files)
	}
}

// depguard takes the room's name, its folder, the line of what is allowed, our module and the reason. Of ours all is
// denied but for the longer paths that are allowed.
const depguard = `        %s:
          list-mode: lax
          files: ["**/%s/*.go", "!$test"]
%s          deny: [{pkg: %s/, desc: %q}]
`

// lintRule is the room's rule as the linter's configuration has it.
func (r room) lintRule() string {
	allow := ""
	if len(r.may) > 0 {
		allow = fmt.Sprintf("          allow: [%s]\n", strings.Join(r.paths(), ", "))
	}
	return fmt.Sprintf(depguard, path.Base(r.dir), r.dir, allow, module, r.why)
}

// paths are the import paths of what the room may import.
func (r room) paths() []string {
	var paths []string
	for _, other := range house {
		if slices.Contains(r.may, path.Base(other.dir)) {
			paths = append(paths, module+"/"+other.dir+"$")
		}
	}
	return paths
}
