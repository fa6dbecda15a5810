package advise_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// What must hold whatever was logged before, in any order, sensible or not:
// wrong advice is the worst fault.

const lookAt = "9 07:00"

// trustBook is any log book, or one as it may well be: a bath in service, read
// now and then near its limit, by meters that pass or fail.
func trustBook(t *rapid.T) book {
	if yes(t, "any") {
		return anyBook(t)
	}
	b := warmed()
	if pick(t, "", "", "", "failed") != "" {
		b = b.add("2 10:20", dip(9.70))
	}
	b = b.add("2 10:30", first(10.12)).add("2 12:00", &bath.Reading{PH: 10.60, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true})
	for day := 3; day <= 8; day++ {
		var body bath.Body = &bath.Reading{PH: units.PH(rapid.IntRange(930, 1020).Draw(t, "pH")) / 100, SampleC: pickC(t), Meter: pick(t, "M1", "M1", "M2")}
		switch rapid.IntRange(0, 5).Draw(t, "line") {
		case 0:
			body = dip(units.PH(rapid.IntRange(980, 1020).Draw(t, "dip")) / 100)
		case 1, 2:
			body = anyBody(t, len(b))
		}
		b = b.add(fmt.Sprintf("%d 08:00", day), body)
	}
	return b
}

func pickC(t *rapid.T) units.Temperature {
	return rapid.SampledFrom([]units.Temperature{50, 49, 44, 22}).Draw(t, "°C")
}

// foulBook is any log book with a tag on its bath that says contaminated.
func foulBook(t *rapid.T) book {
	return trustBook(t).add("9 06:59", &bath.Hold{Cause: bath.HoldContaminated, Why: "unknown powder"})
}

// TestNoTopUpOfAContaminatedBath: nowhere a figure, an action or a word for it.
func TestNoTopUpOfAContaminatedBath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := foulBook(t).look(t, lookAt)
		dose := litres(t)
		if _, err := x.Outlook(); err == nil || x.Soap != nil || x.TopUp(dose) != nil {
			t.Errorf("more soap is reckoned: %+v, %v", x.Soap, err)
		}
		for _, a := range x.Next {
			if a.Kind == "dose" || strings.Contains(strings.ToLower(a.Say+a.Why), "soap") {
				t.Errorf("%s: %s; %s", a.ID, a.Say, a.Why)
			}
		}
		if say := x.PreviewBody(&bath.Dose{VolumeL: dose}); x.Open && !strings.Contains(say, "add nothing") {
			t.Errorf("a dose reads %q", say)
		}
		d, err := x.Decide()
		if err != nil {
			return
		}
		if d.Choice != bath.ChoiceDrain || d.TopUp != nil || d.Reasons[0].ID != "contaminated" || d.Reasons[1].ID != "disposal" {
			t.Errorf("decided %q, with %+v, by %v", d.Choice, d.TopUp, reasons(d))
		}
		signed := &bath.Decision{Choice: bath.ChoiceTopUp, Why: "all the same", DoseL: &dose}
		if err := x.Sign(signed); err != nil {
			t.Fatal(err)
		}
		if bath.Check(x.State, entryNow(x, signed), x.Now) == nil {
			t.Error("a top-up can be signed")
		}
	})
}

// entryNow is an entry of the gear officer as the door would get it.
func entryNow(x *advise.Snapshot, body bath.Body) bath.Entry {
	return bath.Entry{Seq: x.State.Seq + 1, At: x.Now, Logged: x.Now, By: "Kim Vale", Bath: "main", Body: body}
}

// TestNothingOfAContaminatedBathIsLetGo: no preview of a drain lets it go to the
// sewer, and to a hauler only as somebody named has said.
func TestNothingOfAContaminatedBathIsLetGo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, d := foulBook(t).look(t, lookAt), anyDrain(t)
		say := x.PreviewBody(d)
		switch {
		case d.Route == bath.RouteSewer && !strings.Contains(say, "never goes to the sewer"),
			d.Route == bath.RouteHauler && d.Allowed == "" && !strings.Contains(say, "nobody is named"),
			strings.HasPrefix(say, "Within"):
			t.Errorf("%s, allowed by %q: %s", d.Route, d.Allowed, say)
		}
	})
}

// TestATaggedBathIsOfferedNoStart: no action readies it or begins a wash, and a
// start that is typed all the same is told so first.
func TestATaggedBathIsOfferedNoStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := trustBook(t).add("9 06:59", &bath.Hold{Cause: pick(t, bath.HoldContaminated, bath.HoldLeak, bath.HoldFoil), Why: "see the note"})
		x := b.look(t, lookAt)
		for _, a := range x.Next {
			switch a.Kind {
			case "start", "resume", "degas", "filter", "fill", "dose":
				if a.ID != "top-up" || x.Bath.Tag.Kind == bath.HoldContaminated { // what was signed may be poured into a bath that leaks nothing
					t.Errorf("%s is offered: %s", a.Kind, a.Say)
				}
			}
		}
		start := anyStart(t).(*bath.Start)
		if bath.Check(x.State, entryNow(x, start), x.Now) == nil || bath.Check(x.State, entryNow(x, &bath.Resume{}), x.Now) == nil {
			t.Error("a wash can be started")
		}
		if say := x.PreviewBody(start); !strings.Contains(say, "red-tagged") {
			t.Errorf("a start reads %q", say)
		}
	})
}

// failed is whether a reading was taken by a meter that had failed: its checks
// gone over by hand. A dip clears no failure, two buffers do.
func failed(x *advise.Snapshot, r *bath.Reading, e bath.Entry) bool {
	bad := false
	for _, c := range x.Checks() {
		switch {
		case bath.IsStrip(r.Meter), !strings.EqualFold(c.Is.Meter, r.Meter), c.At.After(e.At):
		case c.Grade == chem.Warn && !c.OK: // a dip that tells nothing
		case !c.OK:
			bad = true
		case c.Is.Full():
			bad = false
		}
	}
	return bad
}

// TestAFailedMeterSignsNothing: no decision rests on a reading that it took, and
// no state does.
func TestAFailedMeterSignsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := trustBook(t).look(t, lookAt)
		if !x.Open {
			return
		}
		byLine := map[uint64]advise.Judged{}
		for _, r := range x.PH.Readings {
			byLine[r.Seq] = r
			if bad := failed(x, r.Is, r.Entry); bad && r.Doubt.Kind != advise.DoubtMeter {
				t.Errorf("line %d is by a failed meter, and doubted as %+v", r.Seq, r.Doubt)
			}
		}
		signed := bath.Decision{Choice: bath.ChoiceKeep}
		if err := x.Sign(&signed); err != nil {
			t.Fatal(err)
		}
		for _, line := range signed.Evidence.Rests {
			if r := byLine[line]; failed(x, r.Is, r.Entry) {
				t.Errorf("a decision (%s) rests on line %d, read by a failed meter", signed.Advice, line)
			}
		}
		if l := x.PH.Last; l != nil && x.PH.Drop != nil && (failed(x, l.Is, l.Entry) || failed(x, l.Against.Is, l.Against.Entry)) {
			t.Errorf("the state %q rests on a failed meter: line %d against %d", x.PH.State, l.Seq, l.Against.Seq)
		}
	})
}

// classes are what may be missing from a log book: never logged, or lost. What
// takes something back (a strike, a release, a drain) and what sets a limit are
// none, and a check that failed is bad news of its own.
var classes = map[string]func(x *advise.Snapshot, e bath.Entry) bool{
	"readings":       func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "reading" },
	"first readings": func(_ *advise.Snapshot, e bath.Entry) bool { r, ok := e.Body.(*bath.Reading); return ok && r.Baseline },
	"hot first readings": func(_ *advise.Snapshot, e bath.Entry) bool {
		r, ok := e.Body.(*bath.Reading)
		return ok && r.Baseline && !r.Cooled
	},
	"fills":         func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "fill" },
	"temperatures":  func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "temp" },
	"water":         func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "water" },
	"soap":          func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "dose" },
	"washes":        func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "wash" || e.Kind() == "start" },
	"filter, degas": func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "filter" || e.Kind() == "degas" },
	"drop tests":    func(_ *advise.Snapshot, e bath.Entry) bool { return e.Kind() == "titration" },
	"passed checks": func(x *advise.Snapshot, e bath.Entry) bool {
		return slices.ContainsFunc(x.Checks(), func(c advise.MeterCheck) bool { return c.Seq == e.Seq && c.OK })
	},
}

// TestMissingDataNeverReadsAsFine: what is not known does not come to be OK by
// knowing less.
func TestMissingDataNeverReadsAsFine(t *testing.T) {
	var names []string
	for name := range classes {
		names = append(names, name)
	}
	slices.Sort(names)
	rapid.Check(t, func(t *rapid.T) {
		b := trustBook(t)
		class := pick(t, names...)
		x := b.look(t, lookAt)
		y := slices.DeleteFunc(slices.Clone(b), func(e bath.Entry) bool { return classes[class](x, e) }).look(t, lookAt)
		if x.PH.State == advise.PHUnknown && y.PH.State == advise.PHOK {
			t.Errorf("without its %s a bath that is unknown (%s) reads OK: %+v", class, x.PH.Why, y.PH)
		}
		if y.PH.State != advise.PHUnknown && (y.PH.Last == nil || y.PH.Last.Against == nil || y.PH.Last.Drop == nil) {
			t.Errorf("without its %s a bath reads %q with nothing to compare: %+v", class, y.PH.State, y.PH)
		}
		checkUnknown(t, y)
	})
}

// checkUnknown: what rests on nothing says so.
func checkUnknown(t *rapid.T, x *advise.Snapshot) {
	if x.PH.First == nil && x.PH.Cooled == nil {
		if x.PH.State != advise.PHUnknown || x.PH.Why == "" || x.Trend.Known() || x.Soap != nil || x.PH.Drop != nil {
			t.Errorf("no first reading: state %q (%s), forecast %v, drop %v", x.PH.State, x.PH.Why, x.Trend.Known(), x.PH.Drop)
		}
	}
	if !x.Open {
		if x.Temp != nil || x.Level.Known || x.About != nil || x.Trend.Known() {
			t.Errorf("an empty bath has a temperature %v, a level %+v, a forecast", x.Temp, x.Level)
		}
		return
	}
	measured := slices.ContainsFunc(x.Life.Entries, func(e bath.Entry) bool {
		return e.Kind() == "temp" || e.Kind() == "start" || e.Kind() == "wash"
	})
	if !measured && x.Temp != nil {
		t.Errorf("nobody measured it, and it is at %v", x.Temp.C)
	}
	l, err := x.Loading(advise.LoadAsk{})
	if err != nil {
		return
	}
	cold := slices.ContainsFunc(l.Gates, func(g bath.Gate) bool { return g.ID == "old-temperature" })
	if !measured && (l.Measured || !cold) {
		t.Errorf("nobody measured it, and a load meets no gate for that: %+v", l.Gates)
	}
}

// Those books would prove nothing if they were all alike.
func TestTrustBooksReachWhatTheyTest(t *testing.T) {
	gen := rapid.Custom(trustBook)
	count := map[string]int{}
	for seed := range 1500 {
		x := gen.Example(seed).look(t, lookAt)
		count[string("state "+x.PH.State)]++
		for _, r := range x.PH.Readings {
			if failed(x, r.Is, r.Entry) {
				count["failed meter"]++
				break
			}
		}
		if x.PH.First != nil && x.PH.First.Doubt.Kind == advise.DoubtMeter {
			count["first reading by a failed meter"]++
		}
		if x.Soap != nil {
			count["more soap"]++
		}
		if x.Open && x.Temp == nil {
			count["never measured"]++
		}
		if x.Trend.Known() {
			count["forecast"]++
		}
	}
	for _, want := range []string{
		"state ok", "state watch", "state at-limit", "state past", "state unknown",
		"failed meter", "first reading by a failed meter", "more soap", "never measured", "forecast",
	} {
		if count[want] < 5 {
			t.Errorf("%s: %d books of 1500", want, count[want])
		}
	}
}
