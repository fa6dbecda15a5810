package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// sign writes a decision as it is signed at that moment.
func (b book) sign(t *testing.T, when string, d bath.Decision) book {
	t.Helper()
	if err := b.look(t, when).Sign(&d); err != nil {
		t.Fatal(err)
	}
	return b.add(when, &d)
}

// action is what Next says under that id; the zero Action where it is silent.
func (b book) action(t *testing.T, now, id string) advise.Action {
	t.Helper()
	for _, a := range b.look(t, now).Next {
		if a.ID == id {
			return a
		}
	}
	return advise.Action{}
}

// What was signed is done next, and then nothing more is said of it.
func TestWhatWasSignedIsDoneNext(t *testing.T) {
	top := low().sign(t, week(5, "08:10"), bath.Decision{Choice: more})
	own := low().sign(t, week(5, "08:10"), bath.Decision{Choice: more, DoseL: new(units.Gallons(0.8)), Why: "one jug is open"})
	poured := top.add(week(5, "08:30"), &bath.Dose{VolumeL: units.Gallons(1)})
	out := low().sign(t, week(5, "08:10"), bath.Decision{Choice: drain, Why: "inspection tomorrow"})
	stay := low().sign(t, week(5, "08:10"), bath.Decision{Choice: keep, Why: "no soap until Friday"})
	topUp := func(say, volume string) advise.Action {
		return advise.Action{
			Urgency: advise.Today, Kind: "dose", Say: "Top up with " + say, Preset: map[string]string{"volume": volume},
			Why: "signed by Kim Vale, 08:10; pour slowly, let it mix, read again",
		}
	}
	again := advise.Action{
		Urgency: advise.Today, Kind: "decision", Say: "Decide again: what was signed has lost its ground",
		Why: "signed by Kim Vale, 08:10; a reading that it rests on was crossed out since",
	}
	says(t, "top-up", []moment{
		{"nothing signed", low(), week(5, "08:15"), advise.Action{}},
		{"signed", top, week(5, "08:15"), topUp("1.0 gal (1 jug)", "1.0 gal")},
		{"with another dose", own, week(5, "08:15"), topUp("0.8 gal (0.8 jugs)", "0.8 gal")},
		{"poured", poured, week(5, "08:35"), advise.Action{}},
		{"poured, and read", poured.add(week(5, "10:00"), sample(9.85, 50, "M1")), week(5, "10:05"), advise.Action{}},
		{"to drain", out, week(5, "08:15"), advise.Action{}},
		{"drained instead", top.add(week(5, "09:00"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), week(5, "09:05"), advise.Action{}},
	})
	says(t, "drain", []moment{
		{"signed", out, week(5, "08:15"), advise.Action{
			Urgency: advise.Today, Kind: "drain", Say: "Drain and refill",
			Why: "signed by Kim Vale, 08:10; heater off and locked out first, by permission or hauler only",
		}},
		{"drained", out.add(week(5, "09:00"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), week(5, "09:05"), advise.Action{}},
		{"to keep", stay, week(5, "08:15"), advise.Action{}},
	})
	says(t, "decide-again", []moment{
		{"signed", top, week(5, "08:15"), advise.Action{}},
		{"the last reading crossed out", top.struck(week(5, "08:12"), low().lastSeq()), week(5, "08:15"), again},
		{"the first reading crossed out", out.struck(week(5, "08:12"), started().lastSeq()), week(5, "08:15"), again},
		{"another reading crossed out", top.struck(week(5, "08:12"), kept().lastSeq()), week(5, "08:15"), advise.Action{}},
		{"and decided again", top.struck(week(5, "08:12"), low().lastSeq()).sign(t, week(5, "08:14"), bath.Decision{Choice: keep}), week(5, "08:15"), advise.Action{}},
	})
}

// The volume that Next fills in is one that a form takes.
func TestThePresetDoseCanBeTyped(t *testing.T) {
	for name, b := range map[string]book{"gallons": low(), "litres": low().add(week(5, "08:01"), &bath.Setting{Units: "si"})} {
		b := b.sign(t, week(5, "08:10"), bath.Decision{Choice: more})
		typed := b.action(t, week(5, "08:15"), "top-up").Preset["volume"]
		spec, _ := bath.SpecOf("dose")
		field, ok := spec.Field("volume")
		var dose bath.Dose
		if err := field.Set(&dose, b.look(t, week(5, "08:15")).Sys.Scan, typed); err != nil || !ok {
			t.Errorf("%s: %q, %v", name, typed, err)
		}
		near(t, name, float64(dose.VolumeL), float64(units.Gallons(1)), 0.05) // as it is printed
	}
}

// Signed, the crew is told no more of the limit until the next reading.
func TestTheLimitIsQuietOnceSigned(t *testing.T) {
	signed := low().sign(t, week(5, "08:10"), bath.Decision{Choice: keep, Why: "no soap until Friday"})
	for name, tt := range map[string]struct {
		book book
		says bool
	}{
		"at the limit": {low(), true},
		"signed":       {signed, false},
		"read again":   {signed.add(week(5, "09:00"), sample(9.58, 50, "M1")), true},
		"its ground is gone": {signed.struck(week(5, "09:00"), started().lastSeq()).add(week(5, "09:01"), first(10.10)).
			add(week(5, "09:02"), sample(9.60, 50, "M1")), true},
	} {
		if got := tt.book.action(t, week(5, "10:00"), "limit"); (got.Say != "") != tt.says {
			t.Errorf("%s: got %q", name, got.Say)
		}
	}
}

// Crossed out is whatever takes a line's place: a corrected reading is another.
func TestDecided(t *testing.T) {
	top := low().sign(t, week(5, "08:10"), bath.Decision{Choice: more})
	if _, _, ok := low().look(t, week(5, "08:15")).Decided(); ok {
		t.Error("nothing is signed")
	}
	if d, shaken, ok := top.look(t, week(5, "08:15")).Decided(); !ok || shaken || d.Is.Choice != more || d.Seq != top.lastSeq() {
		t.Errorf("got %+v, %v, %v", d, shaken, ok)
	}
	corrected := top.add(week(5, "08:12"), &bath.Strike{Target: low().lastSeq(), Why: "typed 9.60 for 9.70", Instead: []byte(`{"ph":9.70,"sample_c":50,"meter":"M1"}`)})
	x := corrected.look(t, week(5, "08:15"))
	if _, shaken, ok := x.Decided(); !ok || !shaken || x.PH.State != advise.PHWatch {
		t.Errorf("corrected: shaken %v, %v, %s", shaken, ok, x.PH.State)
	}
	imported := low().add(week(5, "08:10"), &bath.Decision{Choice: drain})
	if d, shaken, ok := imported.look(t, week(5, "08:15")).Decided(); !ok || shaken || d.Is.Choice != drain {
		t.Errorf("without evidence: %v, %v", shaken, ok)
	}
}

// Spoken of four weeks ahead, sooner where it may be within a week.
func TestLimitDate(t *testing.T) {
	far, fast := started().fall(10.02, 9.98), started().fall(9.92, 9.80, 9.66)
	tests := []struct {
		name    string
		book    book
		now     string
		urgency advise.Urgency
		say     string
	}{
		{"one reading", started(), week(0, "12:00"), 0, ""},
		{"more than four weeks off", far, week(2, "08:05"), 0, ""},
		{"in about three weeks", kept(), week(2, "08:05"), advise.Later, "Limit likely about 12 Apr"},
		{"it may be this week", fast, week(3, "08:05"), advise.Soon, "Limit likely about 31 Mar"},
		{"at the limit by now, unread", fast, week(6, "08:05"), advise.Soon, "Probably at the limit by now: read the pH"},
		{"at the limit as read", low(), week(5, "08:05"), 0, ""},
		{"drained", kept().add(week(2, "09:00"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), week(2, "09:05"), 0, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.book.action(t, tt.now, "limit-date")
			if got.Say != tt.say || got.Urgency != tt.urgency {
				t.Fatalf("got %q, %s, because %q; want %q, %s", got.Say, got.Urgency, got.Why, tt.say, tt.urgency)
			}
			if got.Due.IsZero() {
				return
			}
			x := tt.book.look(t, tt.now)
			near(t, "days until it is due", got.Due.Sub(x.Now).Hours()/24, x.Trend.Q50, 1e-3)
		})
	}
}
