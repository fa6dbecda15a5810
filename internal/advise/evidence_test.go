package advise_test

import (
	"fmt"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// week is a time so many weeks after Monday 2 March, when the bath was filled.
func week(n int, clock string) string {
	return at("2 00:00").AddDate(0, 0, 7*n).Format("2006-01-02 ") + clock
}

// fall adds a reading a week from the first week on, each read twice alike with
// a meter that was calibrated that morning.
func (b book) fall(phs ...units.PH) book {
	for i, ph := range phs {
		b = b.add(week(i+1, "07:30"), twoBuffers()).add(week(i+1, "08:00"), sample(ph, 50, "M1"))
	}
	return b
}

// kept came down 0.20 in two weeks, and low 0.50 in five.
func kept() book { return started().fall(9.98, 9.90) }
func low() book  { return started().fall(9.98, 9.90, 9.82, 9.72, 9.60) }

// proof is a log book looked at, what one piece of evidence says of it, and
// what is advised on the whole.
type proof struct {
	name   string
	book   book
	now    string
	say    string // "" is silence
	choice string
}

func proves(t *testing.T, id string, proofs []proof) {
	t.Helper()
	for _, p := range proofs {
		t.Run(p.name, func(t *testing.T) {
			t.Helper()
			d, err := p.book.look(t, p.now).Decide()
			if err != nil {
				t.Fatal(err)
			}
			if got := reason(d, id); got != p.say || d.Choice != p.choice {
				t.Errorf("got %q, %q; want %q, %q", d.Choice, got, p.choice, p.say)
			}
		})
	}
}

// reason is what a decision says under that id.
func reason(d advise.Decision, id string) string {
	for _, r := range d.Reasons {
		if r.ID == id {
			return r.Say
		}
	}
	return ""
}

const keep, more, drain = bath.ChoiceKeep, bath.ChoiceTopUp, bath.ChoiceDrain

// Source: ruling of the trade: a contaminated bath is drained, its liquid held.
func TestContamination(t *testing.T) {
	const say = "the bath is tagged as contaminated: drain it, and hold what comes out until a way for it is found"
	tagged := func(b book, cause string) book {
		return b.add(week(5, "08:01"), &bath.Hold{Cause: cause, Why: "see the note"})
	}
	proves(t, "contaminated", []proof{
		{"the fresh bath", tagged(kept(), bath.HoldContaminated), week(5, "08:05"), say, drain},
		{"at the limit", tagged(low(), bath.HoldContaminated), week(5, "08:05"), say, drain},
		{"another tag", tagged(kept(), bath.HoldLeak), week(5, "08:05"), "", keep},
		{"lifted", tagged(kept(), bath.HoldContaminated).add(week(5, "08:02"), &bath.Release{Why: "it was soot"}), week(5, "08:05"), "", keep},
	})
}

// Source: finishing texts and memory: free oil that stays goes back onto the
// gear, and the bath is drained.
func TestOilLayer(t *testing.T) {
	seen := func(b book, oil string) book {
		r := sample(9.84, 50, "M1")
		r.Oil = oil
		return b.add(week(3, "08:00"), r)
	}
	layer := seen(kept(), bath.OilLayer)
	const say = "oil lies on the bath in a layer and goes back onto the gear"
	proves(t, "oil", []proof{
		{"a layer", layer, week(3, "08:05"), say, drain},
		{"drops", seen(kept(), bath.OilDrops), week(3, "08:05"), "oil drops stand on the bath: skim them, look again tomorrow", keep},
		{"a film", seen(kept(), bath.OilFilm), week(3, "08:05"), "", keep},
		{"none", seen(kept(), bath.OilNone), week(3, "08:05"), "", keep},
		{"skimmed, and none the next day", layer.add(week(3, "09:00"), hot(9.84)), week(3, "09:05"), "", keep},
	})
}

func TestRedTagIsNamed(t *testing.T) {
	tagged := func(b book) book {
		return b.add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldFoil, Why: "no wear on half the foil"})
	}
	const say = "a red tag hangs on it, no wear on half the foil: that comes first"
	proves(t, "tag", []proof{
		{"a good bath", tagged(kept()), week(5, "08:05"), say, keep},
		{"at the limit", tagged(low()), week(5, "08:05"), say, more},
		{"none", low(), week(5, "08:05"), "", more},
		{"contaminated says so itself", kept().add(week(2, "08:01"), &bath.Hold{Cause: bath.HoldContaminated, Why: "x"}), week(2, "08:05"), "", drain},
	})
}

// What the station set as the most for one fill counts whatever the pH; top-ups
// count when another is due.
func TestFillIsOld(t *testing.T) {
	most := func(b book, s *bath.Setting) book { return b.add(week(0, "11:00"), s) }
	days := most(kept(), &bath.Setting{MostDays: new(20.0)})
	washed := most(kept(), &bath.Setting{MostLoads: new(2)}).add("4 09:00", wash(50, bath.ResultClean))
	topped := kept().add(week(2, "09:00"), &bath.Dose{VolumeL: 2}).add(week(2, "11:00"), sample(10.05, 50, "M1"))
	once := topped.add(week(3, "07:30"), twoBuffers()).add(week(3, "08:00"), sample(9.58, 50, "M1"))
	const again = "it was topped up once, and the station does so once at most"
	proves(t, "age", []proof{
		{"no limit set", kept(), "2026-05-22 07:59", "", keep},
		{"a minute less than 20 days", days, "22 08:59", "", keep}, // the clock was put forward
		{"20 days", days, "22 09:00", "the fill is 20 days old, and the station keeps one for 20 at most", drain},
		{"one wash of two", washed, week(2, "09:00"), "", keep},
		{"two washes of two", washed.add("4 10:00", wash(50, bath.ResultClean)), week(2, "09:00"), "2 washes are through it, and the station keeps one for 2 at most", drain},
		{"topped up once of once, and good", most(topped, &bath.Setting{MostTopups: new(1)}), week(2, "12:00"), "", keep},
		{"topped up once of once, at the limit", most(once, &bath.Setting{MostTopups: new(1)}), week(3, "08:05"), again, drain},
		{"topped up once of twice, at the limit", most(once, &bath.Setting{MostTopups: new(2)}), week(3, "08:05"), "", more},
		{"soap just in, once of once", most(low().add(week(5, "08:02"), &bath.Dose{VolumeL: 4}), &bath.Setting{MostTopups: new(1)}), week(5, "08:05"), "", keep},
		{"never, at the limit", most(low(), &bath.Setting{MostTopups: new(0)}), week(5, "08:05"), "the station tops no fill up", drain},
	})
}

func TestPHUnknown(t *testing.T) {
	const none = "how far the pH fell is not known: no first reading: name one"
	proves(t, "unknown", []proof{
		{"before the first reading", warmed(), "2 10:15", none, keep},
		{"the first reading crossed out", low().struck(week(5, "08:02"), started().lastSeq()), week(5, "08:05"), none, keep},
		{"too unsure", kept().add(week(3, "08:00"), sample(10.3, 12, "M2")), week(3, "08:05"),
			"how far the pH fell is not known: too unsure to compare, give or take 0.29: read again at about the first one's temperature, with a checked meter", keep},
		{"known", kept(), week(2, "08:05"), "", keep},
	})
}

// Source: ruling of the trade: two readings within 0.2 confirm each other.
func TestOddReadingDecidesNothing(t *testing.T) {
	calibrated := kept().add(week(3, "07:30"), twoBuffers())
	odd := calibrated.add(week(3, "08:00"), hot(9.30))
	proves(t, "odd", []proof{
		{"alone", odd, week(3, "08:05"), "9.30 is out of line: expected about 9.58 to 10.18: rinse the probe, read again, then decide", keep},
		{"read twice", calibrated.add(week(3, "08:00"), sample(9.30, 50, "M1")), week(3, "08:05"), "", more},
		{"borne out an hour later", odd.add(week(3, "09:00"), hot(9.42)), week(3, "09:05"), "", more},
		{"an hour later as expected", odd.add(week(3, "09:00"), hot(9.85)), week(3, "09:05"), "", keep},
		{"in line", kept(), week(2, "08:05"), "", keep},
	})
}

// What was read before soap went in says nothing of the bath with it.
func TestSoapSinceTheLastReading(t *testing.T) {
	poured := low().add(week(5, "09:00"), &bath.Dose{VolumeL: units.Gallons(1)})
	const say = "soap went in since the last reading: let it mix, read again, then decide"
	proves(t, "soap-since", []proof{
		{"at the limit before it", poured, week(5, "09:05"), say, keep},
		{"a good bath before it", kept().add(week(2, "09:00"), &bath.Dose{VolumeL: 1}), week(2, "09:05"), say, keep},
		{"read again, and it did nothing", poured.add(week(5, "10:00"), sample(9.58, 50, "M1")), week(5, "10:05"), "", drain},
		{"read again, better", poured.add(week(5, "10:00"), sample(9.85, 50, "M1")), week(5, "10:05"), "", keep},
		{"the soap before it", low(), week(5, "08:05"), "", more},
	})
}

// Source: ruling of the trade: three of five washes "again" in band: look at
// strength and foil before anything else. Black water alone is no reason.
func TestGearNotClean(t *testing.T) {
	again := func(b book, n int) book {
		for i := range 5 {
			result := bath.ResultClean
			if i < n {
				result = bath.ResultAgain
			}
			b = b.add(week(5, fmt.Sprintf("09:%02d", i)), wash(50, result))
		}
		return b
	}
	const say = "washes came out not clean in a warm bath: look at soap strength and foil first"
	proves(t, "not-clean", []proof{
		{"two of five", again(low(), 2), week(5, "10:00"), "", more},
		{"three of five", again(low(), 3), week(5, "10:00"), say, more},
		{"in a bath that is kept", again(kept(), 3), week(5, "10:00"), say, keep},
		{"the foil was checked since", again(low(), 3).add(week(5, "10:00"), &bath.Duty{What: bath.DutyFoil}), week(5, "10:05"), "", more},
	})
}

// Source: ruling of the trade: two buffers before a decision is signed. A dip
// since the two buffers takes nothing away.
func TestMeterNotSure(t *testing.T) {
	const say = "the last reading is by a meter that was not calibrated with two buffers this week: calibrate, read again, then sign"
	at := func(calibrated, read string, more ...bath.Body) book {
		b := kept().add(calibrated, twoBuffers())
		for _, body := range more {
			b = b.add(read, body)
		}
		return b.add(read, sample(9.58, 50, "M1"))
	}
	other := sample(9.58, 50, "M2")
	proves(t, "meter", []proof{
		{"that morning", at(week(3, "07:30"), week(3, "08:00")), week(3, "08:05"), "", more},
		{"a week ago", at(week(3, "08:00"), week(4, "08:00")), week(4, "08:05"), "", more},
		{"a week and a minute ago", at(week(3, "07:59"), week(4, "08:00")), week(4, "08:05"), say, more},
		{"dipped since", at(week(3, "07:30"), week(3, "08:00"), dip(10.03)), week(3, "08:05"), "", more},
		{"dipped only", at(week(3, "07:30"), week(5, "08:00"), dip(10.03)), week(5, "08:05"), say, more},
		{"calibrated after the reading", at(week(3, "07:30"), week(5, "08:00")).add(week(5, "08:02"), twoBuffers()), week(5, "08:05"), say, more},
		{"by another meter", kept().add(week(3, "08:00"), other), week(3, "08:05"), say, more},
		{"nothing to decide", kept().add(week(5, "08:00"), sample(9.80, 50, "M1")), week(5, "08:05"), "", keep},
	})
}
