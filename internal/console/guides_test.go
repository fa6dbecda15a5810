package console

import (
	"os"
	"strings"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/guide"
	"bathside/internal/station"
	"bathside/internal/units"
)

// papered is a tended bath with the papers of masks and helmets on file, and a
// new member on duty.
func papered(t testing.TB, w, h int) *desk {
	t.Helper()
	t.Setenv("TMPDIR", t.TempDir()) // what is copied to practise on is seen to go
	d := sit(t, w, h, true)
	for _, b := range []bath.Body{
		&bath.Member{Name: "Tam Okoro", Role: bath.Crew, Platoon: "A"},
		&bath.Procedure{Item: "mask", State: bath.PaperOnFile, Title: "mask care, rev 4", MaxC: new(units.Fahrenheit(126))},
		&bath.Procedure{Item: "helmet", State: bath.PaperOnFile, Title: "shell care, rev 2", MaxC: new(units.Fahrenheit(126))},
	} {
		if _, err := d.st.Record(station.Draft{By: "Noor", Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	d.run(d.m.load())
	return d
}

// tick moves the clock on.
func (d *desk) tick(by time.Duration) {
	d.clock.t = d.clock.t.Add(by)
	d.send(clockMsg(d.clock.t))
}

// kinds are what the log book says since line seq.
func (d *desk) kinds(seq uint64) (out []string) {
	d.Helper()
	lines, err := d.st.Lines(0, 1000)
	if err != nil {
		d.Fatal(err)
	}
	for _, e := range lines {
		if e.Seq > seq {
			out = append(out, string(e.Kind()))
		}
	}
	return out
}

func (d *desk) seq() uint64 {
	d.Helper()
	s, err := d.st.State()
	if err != nil {
		d.Fatal(err)
	}
	return s.Seq
}

// enterAll types answers, each with enter after it.
func (d *desk) enterAll(answers ...string) {
	for _, a := range answers {
		d.typ(a)
		d.press("enter")
	}
}

// loadAndRun walks the guide from its first step to the wash's result: two
// masks and a helmet, by keys only. wait lets the time of the wash pass.
func (d *desk) loadAndRun(wait func()) {
	d.Helper()
	d.wants("Load and run · step 1 of 14", "eyewash")
	d.press("enter") // covered
	d.wants("anything but smoke?")
	d.press("enter", "enter")
	d.wants("Anything but smoke is missing")
	d.press("n", "enter", "t") // nothing but smoke, by Tam
	d.press("enter", "enter")  // brushed, parts off
	d.wants("lid clipped over what floats")
	d.press("enter") // in the basket
	d.wants("Measure the bath")
	d.press("enter")
	d.enterAll("121")
	d.press("enter") // Tam, remembered
	d.wants("Set the machine's timer")
	d.press("enter", "enter") // timer, baskets in
	d.wants("A key holder logs the start", "by a key holder")
	d.press("enter")
	d.enterAll("mask=2, helmet=1", "4", "121")
	d.press("a") // Amari, a key holder
	d.wants("Mask × 2, Helmet shell × 1 in the bath, 4:00 left", "Stay near until its time is up")
	wait()
	d.wants("See ultrasound stop")
	d.press("enter")
	d.wants("log how it came out")
	d.press("enter")
	d.wants("mask=2, helmet=1")
	d.press("t")
}

// careToReady logs every step that the guide names, then puts all of it back.
func (d *desk) careToReady() {
	d.Helper()
	d.wants("step 13 of 14", "log Mask × 2: rinse", "1 more after it")
	d.press("enter", "t") // rinsed
	d.wants("log Mask × 2: disinfect, 2 min at least, 50 ppm")
	d.press("enter")
	d.enterAll("2", "50")
	d.press("enter") // Tam
	for _, step := range []string{"rinse", "dry", "inspect", "refit"} {
		d.wants("log Mask × 2: " + step)
		d.press("enter", "t")
	}
	d.wants("log Mask × 2: test")
	d.press("enter")
	d.enterAll("Noor Haddad")
	d.press("enter")
	for _, step := range []string{"rinse", "dry", "inspect", "refit"} {
		d.wants("log Helmet shell × 1: " + step)
		d.press("enter", "t")
	}
	d.wants("Nothing waits for it any more.")
	d.press("enter")
	d.wants("log Mask × 2: back in service · by a key holder")
	d.press("enter")
	d.enterAll("40117, 40120", "none", "none")
	d.press("a")
	d.wants("log Helmet shell × 1: back in service")
	d.press("enter", "a")
	d.wants("Nothing waits for it any more.")
	d.press("enter")
}

var washed = []string{
	"intake", "temp", "start", "wash",
	"care", "care", "care", "care", "care", "care", "care", "care", "care", "care", "care", "ready", "ready",
}

func TestANewMemberWashesTwoMasksAndAHelmetByTheGuide(t *testing.T) {
	d := papered(t, 100, 30)
	before := d.seq()
	d.press("6", "down", "down", "enter")
	d.loadAndRun(func() {
		d.press("enter")
		d.wants("Not yet: 4:00 left")
		d.tick(4 * time.Minute)
		d.wants("The time is over.")
		d.press("enter")
	})
	d.careToReady()
	d.wants("Done: Load and run", "Guides and cards")
	if diff := cmp.Diff(washed, d.kinds(before)); diff != "" {
		t.Errorf("the log book (-want +got):\n%s", diff)
	}
	s, err := d.st.State()
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range s.Baths[0].Batches {
		if b.Wash > before {
			t.Errorf("%s is not back in service", b.Say())
		}
	}
}

func TestTheSameInPracticeLeavesNoRun(t *testing.T) {
	d := papered(t, 100, 30)
	before := d.seq()
	d.press("6", "down", "down", "o")
	d.loadAndRun(func() {
		for _, screen := range []string{"1", "2", "3", "7", "6"} {
			d.press(screen)
			d.wants("PRACTICE · Mask × 2, Helmet shell × 1 in the bath")
		}
		d.press("enter") // puts the clock forward
	})
	d.careToReady()
	d.wants("Log a practice")
	d.lacks("PRACTICE")
	d.enterAll("Amari")
	d.press("t")
	d.wants("Saved")
	if diff := cmp.Diff([]string{"practice"}, d.kinds(before)); diff != "" {
		t.Fatalf("the log book (-want +got):\n%s", diff)
	}
	lines, err := d.st.Lines(0, 1)
	if err != nil {
		t.Fatal(err)
	}
	got, _ := lines[0].Body.(*bath.Practice)
	if want := (bath.Practice{Guide: "load-and-run", Witness: "Amari Okafor"}); *got != want || lines[0].By != "Tam Okoro" {
		t.Errorf("got %+v by %s, want %+v by Tam Okoro", *got, lines[0].By, want)
	}
	if !d.clock.t.Equal(lines[0].At) {
		t.Errorf("it happened %s, and it is %s: the clock of the practice is still ahead", lines[0].At, d.clock.t)
	}
	d.nothingLeft()
}

// nothingLeft holds that every copy to practise on was thrown away.
func (d *desk) nothingLeft() {
	d.Helper()
	left, err := os.ReadDir(os.Getenv("TMPDIR"))
	if err != nil {
		d.Fatal(err)
	}
	for _, f := range left {
		if strings.HasPrefix(f.Name(), "bathside-practice") {
			d.Errorf("%s is left behind", f.Name())
		}
	}
}

func TestLeavingAPracticeRecordsNothing(t *testing.T) {
	d := papered(t, 80, 24)
	before := d.seq()
	d.press("6", "down", "o")
	d.wants("PRACTICE", "Practice: Weekly reading · step 1 of 7")
	d.press("t")
	d.wants("Practice: Record the bath temperature")
	d.enterAll("99")
	d.press("t")
	d.wants("Practice only", "99 °F")
	d.press("6", "esc")
	d.wants("Practice is over", "120 °F")
	d.lacks("PRACTICE")
	if got := d.kinds(before); got != nil {
		t.Errorf("the log book has %v", got)
	}
	d.nothingLeft()
}

func TestPracticeSkipsNothing(t *testing.T) {
	d := papered(t, 80, 24)
	d.press("6", "down", "o", "right")
	d.wants("In a practice every step is done", "step 1 of 7")
}

// A reading that somebody began to type while the copy was being made must not
// go into the copy.
func TestAFormThatIsOpenKeepsPracticeAway(t *testing.T) {
	d := papered(t, 80, 24)
	d.press("6")
	_, cmd := d.m.Update(keyPress("o"))
	d.press("p")
	d.run(cmd)
	d.wants("Close this first, then practise")
	d.lacks("PRACTICE")
	d.typ("1012")
	d.press("enter")
	d.enterAll("121")
	d.press("t")
	if got := d.readings(); got[len(got)-1] != 10.12 {
		t.Errorf("the log book has %v: the reading is lost", got)
	}
	d.nothingLeft()
}

// What the copy answers after it was left must not be shown as the log book.
func TestAnAnswerOfTheCopyComesTooLate(t *testing.T) {
	d := papered(t, 80, 24)
	d.press("6", "o", "t")
	d.enterAll("99")
	late := d.m.load()()
	d.press("esc", "esc")
	d.send(late)
	d.lacks("99 °F")
}

func TestQuittingAPracticeThrowsTheCopyAway(t *testing.T) {
	d := papered(t, 80, 24)
	d.press("6", "o", "q")
	if err := d.m.close(); err != nil {
		t.Fatal(err)
	}
	d.nothingLeft()
}

func TestEscRemembersTheStep(t *testing.T) {
	d := papered(t, 100, 30)
	d.press("6", "down", "down", "enter", "enter", "enter")
	d.wants("step 2 of 14", "Anything but smoke?")
	d.press("esc", "esc", "1", "6")
	d.wants("at step 2 of 14")
	d.press("o") // a practice begins at its first step, and changes nothing
	d.wants("Practice: Load and run · step 1 of 14")
	d.press("esc", "enter")
	d.wants("Load and run · step 2 of 14")
	d.press("left")
	d.wants("step 1 of 14")
}

func TestWhatWasDoneTodayIsPassed(t *testing.T) {
	d := papered(t, 100, 30)
	d.press("6", "down", "down", "enter", "right")
	d.wants("Look, then tick it")
	d.press("enter", "right")
	d.wants("Nobody logged this today")
	if _, err := d.st.Record(station.Draft{By: "Tam", Body: &bath.Intake{Else: bath.ElseNone}}); err != nil {
		t.Fatal(err)
	}
	d.run(d.m.load())
	d.wants("right go on: Tam Okoro logged it at 07:00")
	d.press("right")
	d.wants("step 3 of 14")
}

func TestAWaitIsWaitedFor(t *testing.T) {
	d := papered(t, 100, 30)
	d.press("6", "down", "down", "down", "enter", "enter", "enter")
	d.wants("Filter · step 3 of 5", "Wait: 30:00 left")
	d.tick(29*time.Minute + 59*time.Second)
	d.wants("Wait: 0:01 left")
	d.press("enter")
	d.wants("Not yet: 0:01 left. If it ran its time elsewhere, right goes on", "step 3 of 5")
	d.tick(time.Second)
	d.press("enter")
	d.wants("step 4 of 5")
}

func TestNextOpensTheGuide(t *testing.T) {
	d := papered(t, 100, 30)
	for !strings.Contains(d.screen(), "▸ today  Take the weekly pH") {
		d.press("down")
	}
	d.press("g")
	d.wants("Weekly reading · step 1 of 7")
}

func TestCardScrollsToItsEnd(t *testing.T) {
	d := sit(t, 60, 16, true)
	d.press("6", "down", "down", "down", "down", "down", "down", "enter")
	d.wants("Card: Mask", "regulator off the mask")
	d.lacks("test: seal and function check")
	d.press("end")
	d.wants("test: seal and function check")
	d.press("esc")
	d.wants("Guides and cards")
}

// TestEveryStepFitsTheSmallestWindow holds that the caution and what lets a
// step pass are in sight, and that its form opens with what is filled in.
func TestEveryStepFitsTheSmallestWindow(t *testing.T) {
	d := papered(t, smallW, smallH)
	for _, g := range testGuides(t) {
		for i, step := range g.Steps {
			d.m.guides.walk = &walk{Guide: g, at: i, since: d.m.guides.now}
			d.press("6")
			flat := strings.Join(strings.Fields(d.screen()), " ")
			for _, text := range []string{step.What, step.Why, step.Caution, step.Check} {
				if !strings.Contains(flat, text) {
					t.Errorf("%s, step %d: %q is not in sight:\n%s", g.ID, i+1, text, d.screen())
				}
			}
			d.opens(g, i)
		}
	}
}

// opens holds that the form of a step, if it has one, shows what the guide
// fills in.
func (d *desk) opens(g guide.Guide, i int) {
	d.Helper()
	step := g.Steps[i]
	if step.Do == "" || step.Repeat {
		return
	}
	d.press("enter")
	f, ok := d.m.top().(*form)
	if !ok || string(f.spec.Kind) != step.Do {
		d.Fatalf("%s, step %d: no form of a %s opened:\n%s", g.ID, i+1, step.Do, d.screen())
	}
	for name, want := range step.Preset {
		if got := f.fields.row(name).value(); got != want {
			d.Errorf("%s, step %d: %s is %q, want %q", g.ID, i+1, name, got, want)
		}
	}
	d.press("esc")
}

func TestGuideGoldens(t *testing.T) {
	for _, size := range []struct {
		name string
		w, h int
	}{{"100x30", 100, 30}, {"80x24", 80, 24}, {"60x16", 60, 16}} {
		for name, press := range map[string][]string{
			"guides": {"6"}, "guide-step": {"6", "down", "down", "enter", "enter"},
			"guide-form": {"6", "down", "down", "enter", "enter", "enter"}, "guide-wait": {"6", "down", "down", "down", "enter", "enter", "enter"},
			"card": {"6", "down", "down", "down", "down", "down", "down", "enter"}, "practice": {"6", "o", "enter", "1", "tab"},
		} {
			t.Run(name+"-"+size.name, func(t *testing.T) {
				d := papered(t, size.w, size.h)
				d.press(press...)
				d.golden(name + "-" + size.name)
			})
		}
	}
}

func TestPracticeFitsEveryWindow(t *testing.T) {
	d := papered(t, 100, 30)
	d.press("6", "o")
	d.sweep()
	d.send(tea.WindowSizeMsg{Width: 40, Height: 10})
	d.wants("PRACTICE")
}

// A PIN that somebody sets while they practise would be gone with the copy.
func TestNoPINIsSetInAPractice(t *testing.T) {
	d := papered(t, 80, 24)
	d.press("6", "o")
	d.run(d.m.do(openSetPIN{}))
	d.wants("A PIN set in a practice would be thrown away: leave it first, 6 then esc")
	if d.m.top() != nil {
		t.Error("the sheet for a PIN is open")
	}
}

// A wash that is only practised must not make a key holder's PIN last longer.
func TestAPractisedWashLeavesThePINSessionAlone(t *testing.T) {
	d := papered(t, 100, 30)
	d.m.session = station.BeginSession("Amari Okafor", d.clock.t, d.clock.t.Add(8*time.Hour))
	d.press("6", "down", "down", "o")
	d.loadAndRun(func() { d.press("enter") })
	d.press("esc")
	if got, want := d.m.session.Until(), d.clock.t.Add(30*time.Minute); !got.Equal(want) {
		t.Errorf("the session lasts until %s, want %s", got, want)
	}
}
