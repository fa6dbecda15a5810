package console

import (
	"strings"
	"sync/atomic"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/load"
	"bathside/internal/units"
)

// From nothing to a wash that is logged as clean, by keys alone: each thing in
// the way is mended from its own line.
func TestALoadIsMadeStartedAndLogged(t *testing.T) {
	d := washDay(t, 100, 30)
	d.wants("Nothing in the bath", "nothing yet", "In the way: 2")
	d.count(nthHelmet, 2)
	d.wants("In the way: 5", "0 of 6 ticked", "lid clipped: 2 helmet shells")

	d.press("tab", "enter") // whether there was anything but smoke
	d.wants("Anything but smoke?")
	d.press("enter") // nothing is chosen beforehand
	d.wants("Anything but smoke is missing: give one of none, class-a-foam")
	d.lacks("Saved")
	d.press("n", "enter", "a")
	d.wants("Saved", "In the way: 4", "nobody has said how warm the")
	d.press("a", "esc") // asked again by its own key, and left
	d.lacks("Anything but smoke?")

	d.press("home", "enter") // how warm the bath is
	d.wants("Record the bath temperature")
	d.typ("121")
	d.press("enter", "a")
	d.wants("In the way: 3", "log the paper")
	d.press("enter") // the maker's paper, which a gear officer logs
	d.wants("Maker's paper", "helmet")
	d.press("o") // on file
	d.tabTo("title")
	d.typ("shell care, rev 2")
	d.tabTo("max")
	d.typ("126")
	d.tabTo(rowWho)
	d.press("n")
	d.wants("In the way: 2", "limit 126 F")

	d.press("enter") // the checks
	for range 6 {
		d.press("space")
	}
	d.wants("6 of 6 ticked", "Ready: s starts it")
	d.press("s")
	d.wants("Start a wash", "helmet=2", "5.5 min", "121")
	d.press("a")
	d.wants("Helmet shell × 2 in the bath, 5:30 left", "nothing yet", "z pause · x break off")

	d.press("z")
	d.wants("Pause the wash")
	d.press("a")
	d.wants("paused, 5:30 left", "z go on")
	d.clock.t = d.clock.t.Add(time.Minute)
	d.press("z", "a")
	d.wants("5:30 left, ends 07:06")
	d.clock.t = d.clock.t.Add(330 * time.Second)
	d.send(clockMsg(d.clock.t))
	d.wants("time is up", "enter say how it came out")
	d.press("enter")
	d.wants("Log a wash", "helmet=2")
	d.press("a")
	d.wants("Saved", "Nothing in the bath")
}

// tabTo goes on to a row of the form that is open.
func (d *desk) tabTo(row string) {
	d.Helper()
	f := &d.m.top().(*form).fields
	for range f.rows {
		if f.rows[f.at].name == row {
			return
		}
		d.press("tab")
	}
	d.Fatalf("the form has no %q", row)
}

// Nothing is lost where the console is closed during a wash, but its end would
// be missed: that is asked for twice. Ctrl+c always leaves.
func TestLeavingAWashIsAskedForTwice(t *testing.T) {
	leaves := func(d *desk, name string) bool {
		_, cmd := d.m.Update(keyPress(name))
		if cmd == nil {
			return false
		}
		_, ok := cmd().(tea.QuitMsg)
		return ok
	}
	d := washReady(t, 60, 16)
	d.press("s", "a")
	if leaves(d, "q") {
		t.Fatal("left at the first q")
	}
	d.wants("q again leaves: a wash is on, and nothing would ring")
	d.press("7")
	if leaves(d, "q") {
		t.Fatal("another key was between")
	}
	if !leaves(d, "q") {
		t.Error("stayed at the second q")
	}
	if !leaves(d, "ctrl+c") {
		t.Error("stayed at ctrl+c")
	}
	d.clock.t = d.clock.t.Add(330 * time.Second)
	d.send(clockMsg(d.clock.t))
	if !leaves(d, "q") {
		t.Error("stayed where it has rung already")
	}
}

// What a load is judged by before it starts is what its line in the log book
// then holds.
func TestTheLoadIsLoggedAsItWasJudged(t *testing.T) {
	d := washReady(t, 100, 30)
	judged := d.m.washing.making.is.Start.Items
	d.press("s", "a")
	lines, err := d.st.Lines(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	logged, ok := lines[0].Body.(*bath.Start)
	if !ok {
		t.Fatalf("the last line is %s", lines[0].Kind())
	}
	if diff := cmp.Diff(judged, logged.Items); diff != "" {
		t.Error("(-judged +logged)", diff)
	}
}

// More of an item is looked at again; less is not.
func TestWhatWasTickedIsLookedAtAgain(t *testing.T) {
	d := washReady(t, 100, 30)
	d.press("tab", "tab", "left")
	d.wants("6 of 6 ticked")
	d.press("+")
	d.wants("0 of 6 ticked", "In the way: 2")
}

// A tick of a practice is none: nobody looked at anything.
func TestAPracticeLeavesNoTicks(t *testing.T) {
	d := washReady(t, 100, 30)
	d.press("6", "o")
	d.press("4")
	d.wants("nothing yet")
	d.count(nthHelmet, 1)
	tickAll(d)
	d.press("6", "esc", "4")
	d.wants("nothing yet")
}

// A temperature is in the form for as long as it stands, 15 min, and then asked
// again.
func TestAnOldTemperatureIsAskedAgain(t *testing.T) {
	d := washReady(t, 100, 30)
	d.clock.t = d.clock.t.Add(16 * time.Minute)
	d.send(clockMsg(d.clock.t))
	d.wants("In the way: 1", "more than 15 min ago: t")
	if _, filled := d.m.washing.preset("start")["bath"]; filled {
		t.Error("the form of the start has a temperature of 16 min ago")
	}
}

// A mask may have 5 min and a pack wants 10 at least (common practice, no
// source): they share no wash.
func TestMasksAndPacksAreTwoLoads(t *testing.T) {
	d := washDay(t, 200, 40, allowed()...)
	d.count(nthMask, 1)
	d.count(nthPack, 1)
	d.wants("Two loads: harness packs want", "masks may have 5 at most")
	d.press("s")
	d.wants("5 min")
}

// A search that is told to end comes back, and what it found is not shown.
func TestAPlanIsLeft(t *testing.T) {
	d := washDay(t, 100, 30, allowed()...)
	left := new(atomic.Bool)
	left.Store(true)
	var batches []load.Batch
	for _, item := range testCatalog(t).Items[:6] {
		batches = append(batches, load.Batch{Item: item, N: 9, Soil: load.Normal})
	}
	ask := advise.WashesAsk{Batches: batches, Bath: units.Fahrenheit(108), Set: units.Fahrenheit(108)}
	began := time.Now()
	msg := lookFurther(d.m.x, ask, 1, left)().(plannedMsg)
	if took := time.Since(began); msg.err != nil || took > searchTime/2 {
		t.Errorf("a search that was left took %v: %v", took, msg.err)
	}
	p := &d.m.washing.plan
	p.search = 1
	if p.found(msg); p.is != nil {
		t.Error("a plan that was left is shown")
	}
}

// The plan goes with the counts.
func TestThePlanGoesWithTheCounts(t *testing.T) {
	d := washPlanned(t, 100, 30)
	d.wants("All that came back", "5 washes", "14")
	d.press("backspace")
	d.wants("Count what is to be washed")
	d.count(nthHelmet, 1)
	d.wants("1 wash, 5.5 min of ultrasound; no plan has fewer")
	d.press("v")
	d.wants("In the baskets")
}

// A plan is followed wash by wash: the first is taken as the load and started,
// and what waited is planned on.
func TestAPlanIsFollowed(t *testing.T) {
	d := washPlanned(t, 100, 30)
	d.press("tab", "enter")
	d.wants("The load · 7 of the plan wait", "12", "deep, lid optional: 12 masks")
	d.press("v")
	d.wants("All that came back", "5 washes", "14")
	d.press("tab", "enter")
	for range d.m.washing.making.unticked() {
		d.press("space")
	}
	d.wants("Ready: s starts it")
	d.press("s")
	d.wants("Start a wash", "mask=12", "4 min 30 s")
	d.press("a")
	d.wants("Mask × 12 in the bath", "All that came back", "4 washes")
	d.press("s") // no ticks, no load: the form has the next wash of the plan
	d.wants("Start a wash", "mask=2  ")
}

// A floor is drawn to scale: a thing of half its length and half its width
// takes a quarter of it.
func TestAFloorIsDrawnToScale(t *testing.T) {
	d := washDay(t, 100, 30)
	half := []load.Spot{{X: 0, Y: 0, Length: 0.3, Width: 0.2}}
	got := d.m.t.floorPlan(load.Basket{Length: 0.6, Width: 0.4}, half, []string{"Hand tool"}, 25, 9)
	want := []string{
		"┌───────────┬───────────┐",
		"│           │           │",
		"│ Hand tool │           │",
		"│           │           │",
		"├───────────┘           │",
		"│                       │",
		"│                       │",
		"│                       │",
		"└───────────────────────┘",
	}
	if diff := cmp.Diff(want, strings.Split(ansi.Strip(strings.Join(got, "\n")), "\n")); diff != "" {
		t.Error("(-want +got)", diff)
	}
	for _, name := range []string{"工具", "🔧 tool", "e\u0301tai"} { // two cells a letter, or none of its own
		for _, row := range d.m.t.floorPlan(load.Basket{Length: 0.6, Width: 0.4}, half, []string{name}, 25, 9) {
			if w := ansi.StringWidth(row); w != 25 {
				t.Errorf("with %s a row is %d cells wide, want 25: %s", name, w, row)
			}
		}
	}
	if got := d.m.t.floorPlan(load.Basket{Length: 3, Width: 0.1}, half, []string{"Hand tool"}, 25, 9); got != nil {
		t.Errorf("a floor too narrow to draw:\n%s", strings.Join(got, "\n"))
	}
}

// Masks in a bath above 110 F (29 CFR 1910.134 App. B-2) are in no plan, and
// the plan says what to do with them.
func TestThePlanSaysWhatStaysOut(t *testing.T) {
	d := washDay(t, 100, 30, allowed()...)
	d.count(nthMask, 4)
	d.press("v")
	d.wants("Nothing of it goes in the bath as it is now", "Out: 4 masks", "110 F", "Do this:")
	d.lacks("was not measured")
	d.clock.t = d.clock.t.Add(16 * time.Minute)
	d.run(d.m.load())
	d.wants("The bath was not measured in the last 15 min")
}
