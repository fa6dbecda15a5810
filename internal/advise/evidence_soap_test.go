package advise_test

import (
	"fmt"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// A drop is said with how sure it is, and a bath above its limit is kept.
func TestDropSays(t *testing.T) {
	const close = "down 0.38 ± 0.07: real, not yet at the limit; act at 0.50; "
	busy := kept()
	for d := 10; d < 16; d++ {
		for h := range 6 {
			busy = busy.add(fmt.Sprintf("%d 1%d:00", d, h), wash(50, bath.ResultClean))
		}
	}
	proves(t, "drop", []proof{
		{"the first reading", started(), "2 11:00", "no reading since the first; act at 0.50 down", keep},
		{"a little up", started().fall(10.15), week(1, "08:05"), "up 0.05 ± 0.07: could be noise; act at 0.50 down; good for at least 3 weeks", keep},
		{"down", kept(), week(2, "08:05"), "down 0.20 ± 0.07: real, not yet at the limit; act at 0.50; good for at least 2 weeks", keep},
		{"close, washed little", started().fall(9.98, 9.90, 9.82, 9.72), week(4, "08:05"), close + "limit likely about 9 Apr, between Friday and 21 Apr", keep},
		{"at the limit", low(), week(5, "08:05"), "down 0.50 ± 0.07: could be 0.4, could be 0.6; read again with the same meter; act at 0.50", more},
		{"over it", started().fall(9.95, 9.80, 9.62, 9.46), week(4, "08:05"), "down 0.64 ± 0.07: over the limit, surely; act at 0.50", more},
		{"the station's own limit", low().add(week(5, "08:01"), &bath.Setting{Limit: new(0.8)}), week(5, "08:05"),
			"down 0.50 ± 0.07: real, not yet at the limit; act at 0.80; good for at least 2 weeks", keep},
		{"washed much", busy, week(2, "08:05"), "down 0.20 ± 0.07: real, not yet at the limit; act at 0.50; good for at least a week", keep},
	})
}

// Source: ruling of the trade: strength, not the sum of doses, judges "too
// strong". What the label allows is the tank's strongest ratio.
func TestSoapTooStrong(t *testing.T) {
	label := func(b book, strongest float64) book {
		return b.add(week(5, "08:01"), &bath.Tank{Strongest: strongest})
	}
	topped := low().add(week(5, "09:00"), &bath.Dose{VolumeL: units.Gallons(1)}) // of 2.0 at first, in 70
	lost := topped.add(week(5, "10:00"), &bath.Water{VolumeL: units.Gallons(14), Cause: bath.CauseCarryOut, BelowL: new(units.Gallons(14))})
	again := func(b book) book { return b.add(week(5, "11:00"), sample(9.59, 50, "M1")) }
	const say = "there is as much soap in it as its label allows: more would not be right"
	proves(t, "strongest", []proof{
		{"the label does not say", low(), week(5, "08:05"), "", more},
		{"room for a third of a gallon", label(low(), 30), week(5, "08:05"), "", more},
		{"no room: the first dose is the most", label(low(), 35), week(5, "08:05"), say, drain},
		{"a drop of room is none", label(low(), 34), week(5, "08:05"), say, drain},
		{"not at the limit", label(kept(), 35), week(5, "08:05"), "", keep},
		{"with a top-up as strong as it may be", label(again(topped), 70./3), week(5, "11:05"), say, drain},
		{"a fifth of it was carried out since", label(again(lost), 70./3), week(5, "11:05"), "", drain},
		{"the parts are counted in water alone", label(low(), 34).add(week(5, "08:02"), &bath.Setting{Parts: bath.PartsInWater}), week(5, "08:05"), say, drain},
	})
}

// Source: testdata/chem/dosing_summary.csv: a whole charge does not bring a
// buffered bath back. What the crew reads of it is in soap_story_test.go.
func TestSoapSays(t *testing.T) {
	at := func(family string) book { return tableLow(family) }
	const (
		buffered = "more soap: a full charge would reach only about 9.82: drain and refill"
		unknown  = "more soap: perhaps 5.2 L or more would bring it to 10.10; a full charge of 7.3 L would reach 9.78 to 10.20"
	)
	proves(t, "soap", []proof{
		{"buffered", at("buffered-carbonate"), "9 08:05", buffered, drain},
		{"metasilicate", at("metasilicate"), "9 08:05", "more soap: about 6.9 L would likely bring it to 10.10 (5.0 L may, a full charge of 7.3 L may not)", more},
		{"unknown", at(""), "9 08:05", unknown, more},
		{"so far down that no soap brings it back", tableFill("").add("9 07:00", twoBuffers()).add("9 08:00", sample(8.40, 50, "M1")), "9 08:05",
			"more soap: a full charge would reach only 9.16 to 10.07: drain and refill", drain},
		{"not at the limit", tableFill("buffered-carbonate").add("9 07:00", twoBuffers()).add("9 08:00", sample(9.80, 50, "M1")), "9 08:05", "", keep},
	})
}

// Three days are judgement: a top-up that lasts less is no work worth doing.
func TestGainSays(t *testing.T) {
	busy := started()
	for d := 3; d < 8; d++ {
		for h := range 12 {
			busy = busy.add(fmt.Sprintf("%d %02d:00", d, 9+h), wash(50, bath.ResultClean))
		}
	}
	busy = busy.add("8 07:30", twoBuffers()).add("8 08:00", sample(9.60, 50, "M1"))
	room := func(b book) book { return b.add("8 08:01", &bath.Tank{Strongest: 32.5}) } // for 0.15 gal
	proves(t, "gain", []proof{
		{"a quiet station", low(), week(5, "08:05"), "1.0 gal (1 jug) would gain about 14 days, a refill about 5 weeks", more},
		{"12 loads a day", busy, "8 08:05", "1.0 gal (1 jug) would gain about 4 days, a refill about 9 days", more},
		{"12 loads a day, and the label leaves little room", room(busy), "8 08:05", "0.2 gal (0.2 jugs) would gain about a day, a refill about 9 days", drain},
		{"a quiet station, and the label leaves little room", room(low()), week(5, "08:05"), "0.2 gal (0.2 jugs) would gain about 3 days, a refill about 5 weeks", more},
		{"not at the limit", kept(), week(2, "08:05"), "", keep},
	})
}

// What is left when nothing else decides, and when nothing is known.
func TestTopUpSays(t *testing.T) {
	soapless := bare().add("2 08:00", &bath.Fill{VolumeL: 260}).add("2 09:00", twoBuffers()).add("2 10:00", first(10.10)).
		add("9 07:30", twoBuffers()).add("9 08:00", sample(9.60, 50, "M1"))
	proves(t, "top-up", []proof{
		{"at the limit", low(), week(5, "08:05"), "with 1.0 gal (1 jug) it would likely read 9.71 to 10.01", more},
		{"not at the limit", kept(), week(2, "08:05"), "", keep},
		{"contaminated", low().add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldContaminated, Why: "x"}), week(5, "08:05"), "", drain},
	})
	proves(t, "unsure", []proof{
		{"the first dose was never logged", soapless, "9 08:05", "too little is known to advise a top-up: it takes a first dose and a first reading", drain},
		{"contaminated", low().add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldContaminated, Why: "x"}), week(5, "08:05"), "", drain},
		{"soap just went in", low().add(week(5, "08:01"), &bath.Dose{VolumeL: 4}), week(5, "08:05"), "", keep},
	})
}
