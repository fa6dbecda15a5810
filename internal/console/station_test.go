package console

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// settled is the tended station with its papers, baskets and stock set down.
func settled(t testing.TB, w, h int) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	for _, b := range []bath.Body{
		&bath.Procedure{Item: "mask", State: bath.PaperPending},
		&bath.Procedure{Item: "cylinder", State: bath.PaperOnFile, Title: "cylinder care, rev 3", MaxC: new(units.Fahrenheit(124)), Lapses: "2028-03-31"},
		&bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "mask", Count: 6}, {Item: "helmet", Count: 2}}},
		&bath.Stock{What: bath.StockSoap, OnHand: new(3.0)},
	} {
		if _, err := d.st.Record(stationDraft("Noor", b)); err != nil {
			t.Fatal(err)
		}
	}
	d.run(d.m.load())
	return d
}

func TestStationGoldens(t *testing.T) {
	empty := func(t testing.TB, w, h int) *desk { return sit(t, w, h, false) }
	for _, c := range []struct {
		name string
		w, h int
		open func(testing.TB, int, int) *desk
		keys []string
	}{
		{"station-100x30", 100, 30, settled, nil},
		{"station-limits-100x30", 100, 30, settled, []string{"down", "down", "down", "enter", "down"}},
		{"station-papers-80x24", 80, 24, settled, []string{"end", "up", "up", "up", "up", "enter"}},
		{"station-60x16", 60, 16, settled, nil},
		{"station-values-60x16", 60, 16, settled, []string{"enter", "end"}},
		{"station-stacked-70x30", 70, 30, settled, []string{"down", "down", "tab"}},
		{"station-empty-100x30", 100, 30, empty, []string{"end", "up", "up", "up", "enter"}},
		{"station-empty-80x24", 80, 24, empty, []string{"tab"}},
		{"station-empty-60x16", 60, 16, empty, []string{"end", "enter"}},
		{"station-form-80x24", 80, 24, settled, []string{"enter", "down", "down", "enter"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := c.open(t, c.w, c.h)
			d.press("8")
			d.press(c.keys...)
			d.golden(c.name)
		})
	}
}

// A value is changed where it is shown, and then says by whom.
func TestAValueIsChangedWhereItIsShown(t *testing.T) {
	d := settled(t, 100, 30)
	d.press("8", "down", "down", "down", "enter")
	d.wants("allowed drop", "usual value")
	d.press("enter")
	d.wants("Change a setting")
	d.press("backspace", "3", "enter", "n")
	d.wants("Saved", "Noor Haddad, today")
	st, err := d.st.State()
	if err != nil {
		t.Fatal(err)
	}
	if got := st.Site.DropLimit(); got != 0.3 {
		t.Errorf("the allowed drop is %g, want 0.3", got)
	}
	if st.Site.FilterTime != 0 {
		t.Error("a usual value was written down as the station's own")
	}
}

// A member is changed and keeps what they practised: their role is not said
// again.
func TestAMemberIsChanged(t *testing.T) {
	d := settled(t, 100, 30)
	if _, err := d.st.Record(stationDraft("Lee", &bath.Practice{Guide: "load-and-run", Witness: bath.Nobody})); err != nil {
		t.Fatal(err)
	}
	d.run(d.m.load())
	d.press("8", "down", "down", "down", "down", "down", "enter", "down", "down")
	d.wants("Lee Tran", "crew, platoon B")
	d.press("enter")
	d.m.sheets[0].(*form).fields.row("platoon").set("C")
	d.press("enter", "n")
	d.wants("Saved", "crew, platoon C")
	st, err := d.st.State()
	if err != nil {
		t.Fatal(err)
	}
	if len(st.Practised) != 1 {
		t.Errorf("%d practised, want 1: nobody gave a role", len(st.Practised))
	}
}

// A second tank is set up here; the form of the first changes the first.
func TestAnotherTankIsSetUp(t *testing.T) {
	d := settled(t, 100, 30)
	d.press("8", "a")
	d.wants("Add or change a tank", "of bath")
	d.typ("drill")
	tank := d.m.sheets[0].(*form)
	tank.fields.row("volume").set("30gal")
	tank.fields.focusOn(rowWho)
	d.press("n")
	d.wants("Saved")
	st, err := d.st.State()
	if err != nil {
		t.Fatal(err)
	}
	if len(st.Baths) != 2 || st.Baths[1].ID != "drill" || st.Baths[0].Tank.VolumeL != units.Gallons(72) {
		t.Fatalf("got %d baths, the first of %v", len(st.Baths), st.Baths[0].Tank.VolumeL)
	}
	d.wants("Tank, bath main")
	d.press("b")
	d.wants("Tank, bath drill")
}

// A PIN is set from the list of who has one.
func TestAPINIsSetFromTheStation(t *testing.T) {
	d := settled(t, 100, 30)
	d.press("8", "down", "down", "down", "down", "down", "down", "enter")
	d.wants("may be acted for by anyone")
	d.press("enter")
	d.wants("Set a PIN", "Noor")
	d.press("enter", "enter", "enter")
	d.typ("580213")
	d.press("enter")
	d.typ("580213")
	d.press("enter")
	d.wants("PIN of Noor Haddad set", "has one")
}

func TestStationFits(t *testing.T) {
	for name, press := range map[string][]string{
		"parts": nil, "values": {"enter"}, "empty part": {"end", "enter"}, "papers": {"end", "up", "up", "up", "up", "tab"}, "form": {"enter", "enter"}, "add": {"a"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			d := settled(t, 100, 30)
			d.press("8")
			d.press(press...)
			d.sweep()
		})
	}
}
