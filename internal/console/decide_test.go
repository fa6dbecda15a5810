package console

import (
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// line is what is recorded, and by whom.
type line struct {
	by   string
	body bath.Body
}

// decisions are baths that are decided about, by what is recorded after three
// weeks.
var decisions = map[string][]line{
	"keep": nil,
	"top-up": {
		{"Noor", &bath.Tank{Name: "Bay 1 bath", Family: "metasilicate"}},
		{"Amari", &bath.Calibration{Meter: "M1", Points: bath.Points{{Buffer: "phosphate", AtC: 25, MV: 8}, {Buffer: "carbonate", AtC: 25, MV: -175}}}},
		{"Amari", &bath.Reading{PH: 9.90, SampleC: units.Fahrenheit(121), Meter: "M1"}},
	},
	"drain": {
		{"Noor", &bath.Tank{Name: "Bay 1 bath", Family: "soda-ash"}},
		{"Amari", &bath.Reading{PH: 9.74, SampleC: units.Fahrenheit(121), Meter: "M1"}},
	},
	"contaminated": {
		{"Amari", &bath.Reading{PH: 9.90, SampleC: units.Fahrenheit(121), Meter: "M1"}},
		{"Lee", &bath.Hold{Cause: bath.HoldContaminated, Why: "gear from the battery fire was in it"}},
	},
}

// deciding opens a console on one of these baths.
func deciding(t testing.TB, state string, w, h int) *desk {
	t.Helper()
	d := sit(t, w, h, true)
	d.record(decisions[state]...)
	return d
}

// record puts lines in from outside the console, a minute apart.
func (d *desk) record(lines ...line) {
	d.Helper()
	for _, l := range lines {
		if _, err := d.st.Record(stationDraft(l.by, l.body)); err != nil {
			d.Fatal(err)
		}
		d.clock.t = d.clock.t.Add(time.Minute)
	}
	d.run(d.m.load())
}

// signed is the last decision of the open fill.
func (d *desk) signed() bath.Rec[*bath.Decision] {
	d.Helper()
	st, err := d.st.State()
	if err != nil {
		d.Fatal(err)
	}
	l, _ := st.Baths[0].Life()
	all := bath.Of[*bath.Decision](l.Entries)
	if len(all) == 0 {
		d.Fatalf("nothing is signed:\n%s", d.screen())
	}
	return all[len(all)-1]
}

func TestDecideGoldens(t *testing.T) {
	for state := range decisions {
		for size, wh := range map[string][2]int{"100x30": {100, 30}, "80x24": {80, 24}, "60x16": {60, 16}} {
			t.Run(state+"-"+size, func(t *testing.T) {
				d := deciding(t, state, wh[0], wh[1])
				d.press("3")
				d.golden("decide-" + state + "-" + size)
			})
		}
	}
	t.Run("sign-80x24", func(t *testing.T) {
		d := deciding(t, "top-up", 80, 24)
		d.press("3", "enter")
		d.golden("decide-sign-80x24")
	})
}

// What is advised takes three keys; anything else five and its reason.
func TestADecisionIsSignedInTenKeys(t *testing.T) {
	for _, c := range []struct {
		name, choice, why string
		keys              []string
		dose              float64 // gallons
	}{
		{"as advised", bath.ChoiceTopUp, "", []string{"3", "enter", "n"}, 0.9},
		{"another dose", bath.ChoiceTopUp, "", []string{"3", "right", "enter", "n"}, 1.0},
		{"another choice", bath.ChoiceDrain, "oil", []string{"3", "tab", "enter", "n", "o", "i", "l", "enter"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if len(c.keys) > 10 {
				t.Fatalf("%d keys", len(c.keys))
			}
			d := deciding(t, "top-up", 100, 30)
			d.press(c.keys...)
			d.wants("Saved", "Signed by Noor Haddad, 07:03: ")
			got := d.signed()
			if got.Is.Choice != c.choice || got.Is.Why != c.why || got.Is.Advice != bath.ChoiceTopUp {
				t.Errorf("signed %q for %q against advice %q", got.Is.Choice, got.Is.Why, got.Is.Advice)
			}
			if (got.Is.DoseL != nil) != (c.dose > 0) || c.dose > 0 && !near001(got.Is.DoseL.Gal(), c.dose) {
				t.Errorf("dose %v, want %g gal", got.Is.DoseL, c.dose)
			}
			if e := got.Is.Evidence; e == nil || len(e.Rests) != 2 || len(e.Reasons) == 0 {
				t.Errorf("signed on %+v: want the first reading, the last, and the reasons", e)
			}
		})
	}
}

func near001(a, b float64) bool { return a-b < 0.01 && b-a < 0.01 }

// A choice against the advice waits for its reason in its own row.
func TestAnotherChoiceIsAskedWhy(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3", "tab")
	d.wants("[drain and refill]", "Advice: top up with 0.9 gal")
	d.press("enter", "n")
	d.wants("say why", "▸ why")
	d.press("esc", "shift+tab", "shift+tab")
	d.wants("[keep it as it is]")
}

func TestOnlyAnOfficerSigns(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3", "enter", "a")
	d.wants("Amari Okafor is a key holder", "Sign a decision")
}

func TestSliderChangesWhatItWouldRead(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3")
	s := d.m.screens["3"].(*decide)
	d.wants("0.9 gal: 0.9 jugs", s.dose.reads())
	before := *s.dose.topUp
	d.press("right")
	if step := s.dose.doseL - before.DoseL; !near001(step.Gal(), 1.8/20) {
		t.Errorf("a step of %.3f gal, want a twentieth of 1.8", step.Gal())
	}
	if after := s.dose.topUp.PH; after.Low <= before.PH.Low || after.High < before.PH.High {
		t.Errorf("with more soap %v, before %v", after, before.PH)
	}
	d.press("left", "left")
	if after := s.dose.topUp.PH; after.Low >= before.PH.Low || after.High > before.PH.High {
		t.Errorf("with less soap %v, before %v", after, before.PH)
	}
	d.press("end", "right")
	d.wants("[top up with 1.8 gal]", "1.8 jugs")
	d.send(clockMsg(d.clock.t.Add(2 * time.Minute)))
	d.wants("[top up with 1.8 gal]") // it stays where the officer left it
	d.press("home", "left")
	d.wants("[top up with 0.0 gal]", "nothing is added")
	d.press("enter", "n")
	d.wants("How much soap is to be added")
}

// A new reading changes the ground: the slider goes back to what is advised.
func TestSliderGoesBackOnANewReading(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3", "end", "tab")
	d.wants("[drain and refill]", "1.8 gal: 1.8 jugs")
	d.record(line{"Amari", &bath.Reading{PH: 9.91, SampleC: units.Fahrenheit(121), Meter: "M1"}})
	d.wants("[top up with 0.9 gal]")
}

func TestASignedDecisionCanLoseItsGround(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3", "enter", "n")
	d.wants("Signed by Noor Haddad, 07:03: top up with 0.9 gal")
	d.lacks("sign again")
	d.press("2", "x")
	d.typ("typed wrong")
	d.press("enter", "n", "3")
	d.wants("crossed out since: sign again")
}

func TestNothingIsSignedWithoutTheEvidenceInSight(t *testing.T) {
	for name, keys := range map[string][]string{"from the list of kinds": {"e"}, "from Next": nil} {
		t.Run(name, func(t *testing.T) {
			d := deciding(t, "drain", 100, 30)
			d.press(keys...)
			for range 40 {
				if marked(d.screen(), "Sign a decision") || marked(d.screen(), "Over the limit") && keys == nil {
					break
				}
				d.press("down")
			}
			d.press("enter")
			d.wants("Advice: drain and refill", "[3 Decide]")
			if d.m.top() != nil {
				t.Errorf("%q lies over it", d.m.top().title())
			}
		})
	}
}

// marked reports whether a row with these words is the marked one of a list.
func marked(screen, words string) bool {
	for row := range strings.Lines(screen) {
		if strings.Contains(row, "▸ ") && strings.Contains(row, words) {
			return true
		}
	}
	return false
}

func TestCatchUpSignsNothing(t *testing.T) {
	d := deciding(t, "drain", 100, 30)
	d.press("c", "e")
	for !marked(d.screen(), "Sign a decision") {
		d.press("down")
	}
	d.press("enter")
	d.wants("close this, then press 3", "Nothing listed yet")
}

func TestDecideWithoutAFill(t *testing.T) {
	d := sit(t, 100, 30, false)
	d.press("3")
	d.wants("No fill is open in this bath, so there is nothing to decide: fill it first.")
	d.press("enter", "right", "tab", "down")
	if d.m.top() != nil {
		t.Error("a form opened with nothing to decide")
	}
}

// Money stands only where the station gave its prices.
func TestMoneyOnlyWithPrices(t *testing.T) {
	d := deciding(t, "top-up", 100, 30)
	d.press("3")
	d.lacks("money")
	d.record(line{"Noor", &bath.Setting{SoapPrice: new(20.0), HourPrice: new(30.0)}})
	d.wants("money", "33.00, ", " a day gained") // 0.9 jugs at 20 and half an hour at 30
}

// All the reasons can be read in the smallest window.
func TestReasonsScroll(t *testing.T) {
	d := deciding(t, "top-up", 60, 16)
	d.press("3")
	d.lacks("What would change this")
	d.wants("more lines: down")
	for range 30 {
		d.press("down")
	}
	d.wants("A second reading of 9.93 or more.")
	d.lacks("more lines")
	d.press("up")
	d.wants("2 more lines: down")
	for _, size := range [][2]int{{3, 3}, {220, 70}} { // where none scrolls
		d.send(tea.WindowSizeMsg{Width: size[0], Height: size[1]})
		d.press("down", "up", "left", "end", "tab")
		if from := d.m.screens["3"].(*decide).from; from != 0 {
			t.Errorf("%v: scrolled to %d", size, from)
		}
	}
}
