package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// firstBath is the id of the bath that set-up makes.
const firstBath = "main"

// newStation is what set-up is told.
type newStation struct {
	setting bath.Setting
	tank    bath.Tank
	officer string
	soap    string // id of the detergent
	inWater bool
	keptHot bool
	pin     bool   // the officer gets one
	reset   string // whose PIN is set anew, and nothing else
}

// setupFields are the flags that are fields of the first entries.
var setupFields = []struct {
	flag  string
	kind  bath.Kind
	field string
}{
	{"station", "setting", "station"},
	{"shift", "setting", "shift"},
	{"zone", "setting", "zone"},
	{"tank", "tank", "volume"},
	{"ratio", "tank", "ratio"},
	{"set", "tank", "set"},
	{"mark", "tank", "mark"},
	{"low", "tank", "low"},
	{"heater", "tank", "heater"},
	{"bath-name", "tank", "name"},
}

func (a *app) setup() *cobra.Command {
	n := new(newStation)
	cmd := &cobra.Command{
		Use: "setup", Short: "Make the station file", Args: noWords,
		Long:    "Makes the station file with its first gear officer, its settings and its first tank. Nothing that exists is overwritten. At a terminal it asks for the rest: in the console, or line by line with --plain. Another bath is added later: bathside --bath bay2 log tank --volume 40gal.",
		Example: "bathside setup --station \"Cobble Hill 3\" --tank 64gal --detergent alkaline --ratio 40 --set 122F --officer \"Ana Reyes\" --shift 24/48@07:00 --units us",
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.setUp(cmd.Context(), n) },
	}
	for _, s := range setupFields {
		spec, _ := bath.SpecOf(s.kind)
		field, _ := spec.Field(s.field)
		addField(cmd, s.flag, field, n.body(s.kind))
	}
	f := cmd.Flags()
	f.StringVar(&n.officer, "officer", "", "the first gear officer; whoever is logged in, if left out")
	f.StringVar(&n.soap, "detergent", "", "soap type, by its id in the catalog")
	f.BoolVar(&n.inWater, "of-water", false, "30 to 1 means 30 parts of water: volume/31")
	f.BoolVar(&n.pin, "pin", false, "give the gear officer a PIN, asked for here; one in $"+newPINName+" is taken without this flag")
	f.StringVar(&n.reset, "reset-pin", "", "whose forgotten PIN to set anew, unsigned and told in the log book; nothing else is changed")
	f.BoolVar(&n.keptHot, "kept-hot", false, "held at the set point day and night, not heated for washing")
	offerLater(cmd, "detergent", a.soapIDs)
	return cmd
}

func (n *newStation) body(k bath.Kind) bath.Body {
	if k == "tank" {
		return &n.tank
	}
	return &n.setting
}

func (a *app) soapIDs() []string {
	cat, err := a.catalog()
	if err != nil {
		return nil // every command that needs it will say so
	}
	var ids []string
	for _, d := range cat.Detergents {
		ids = append(ids, d.ID)
	}
	return ids
}

func (a *app) setUp(ctx context.Context, n *newStation) error {
	switch {
	case n.reset != "":
		return a.resetPIN(ctx, n.reset)
	case n.setting.Station == "":
		return a.askForSetup(ctx, n, "station")
	case n.tank.VolumeL == 0:
		return a.askForSetup(ctx, n, "tank")
	}
	return a.makeStation(n, func(by string) (station.PIN, error) {
		if !n.pin && a.secrets.New == "" {
			return "", nil
		}
		return a.newPIN(ctx, by)
	})
}

// askForSetup asks for the rest where there is somebody to answer.
func (a *app) askForSetup(ctx context.Context, n *newStation, missing string) error {
	switch {
	case a.lineByLine():
		_, err := a.setUpByTalk(ctx, n)
		return err
	case a.interactive():
		return a.openSetUpForm(ctx)
	}
	return refuse("missing", "--%s is missing: give it like bathside setup --station NAME --tank 64gal", missing)
}

// makeStation makes what is known by now. pin is asked for a first PIN of the
// gear officer, "" for none.
func (a *app) makeStation(n *newStation, pin func(by string) (station.PIN, error)) error {
	drafts, err := a.firstEntries(n)
	if err != nil {
		return err
	}
	first, err := pin(drafts[0].By)
	if err != nil {
		return err
	}
	if err := a.createStation(drafts, first); err != nil {
		return err
	}
	return a.saySetUp(n)
}

// firstEntries begin with the gear officer, by whom all three are written.
func (a *app) firstEntries(n *newStation) ([]station.Draft, error) {
	if err := a.chooseSoap(n); err != nil {
		return nil, err
	}
	n.settle(a)
	by := firstOfficer(n.officer)
	id := a.flags.bath
	if id == "" {
		id = firstBath
	}
	return []station.Draft{
		{By: by, Body: &bath.Member{Name: by, Role: bath.Officer}},
		{By: by, Body: &n.setting},
		{By: by, Bath: id, Body: &n.tank},
	}, nil
}

// settle fills in what holds where nobody said.
func (n *newStation) settle(a *app) {
	n.setting.Units = a.system().String()
	if n.setting.Zone == "" {
		n.setting.Zone = localZone(a.Getenv)
	}
	n.setting.Parts = bath.PartsOfTotal
	if n.inWater {
		n.setting.Parts = bath.PartsInWater
	}
	n.setting.KeptHot = &n.keptHot
}

// chooseSoap copies what the tank must know of its soap from the catalog.
func (a *app) chooseSoap(n *newStation) error {
	if n.soap == "" {
		return nil
	}
	cat, err := a.catalog()
	if err != nil {
		return err
	}
	d, err := cat.Detergent(n.soap)
	if err != nil {
		return err
	}
	t := &n.tank
	t.Product, t.Strongest, t.Container, t.ContainerL = d.Name, d.Strongest, d.Container, d.Size
	t.Family, t.BuilderPct = d.Family, d.Builder
	if t.Ratio == 0 {
		t.Ratio = d.Ratio
	}
	return nil
}

func firstOfficer(given string) string {
	if given = strings.TrimSpace(given); given != "" {
		return given
	}
	if names := accountNames(); len(names) > 0 {
		return names[0]
	}
	return "Gear officer"
}

// createStation makes the station, and gives its officer a first PIN unless it
// is "".
func (a *app) createStation(drafts []station.Draft, first station.PIN) error {
	o, err := a.options()
	if err != nil {
		return err
	}
	a.busy.Lock()
	defer a.busy.Unlock()
	st, err := station.Create(a.dataPath(), o, drafts...)
	if err != nil {
		return err
	}
	if by := drafts[0].By; first != "" {
		err = st.SetPIN(by, first, station.Signature{By: by})
	}
	return errors.Join(err, st.Close())
}

func (a *app) saySetUp(n *newStation) error {
	t, file := n.tank, a.places().Data
	if a.flags.json {
		return a.printJSON(map[string]string{"station": n.setting.Station, "data": file, "zone": n.setting.Zone})
	}
	fmt.Fprintf(a.text(), "%s is set up. Its log book is %s\n", n.setting.Station, file)
	if t.Ratio > 0 {
		fmt.Fprintln(a.text(), sayBothReadings(a.system(), t.VolumeL, t.Ratio, n.inWater))
	}
	_, err := fmt.Fprintf(a.text(), "Next: add the members, like bathside log member --name \"Ana Reyes\" --role keyholder; then fill the bath and log it, like bathside log fill --volume %s\n", typed(a.system().Volume(t.VolumeL)))
	return err
}

// typed is a printed quantity as one word of a command line.
func typed(text string) string { return strings.ReplaceAll(text, " ", "") }
