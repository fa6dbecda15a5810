package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: common practice, no source: about 30 minutes once on a day that gear
// was washed; not after every load; not on idle days. A day begins at the
// change of shift, 07:00.
func TestFilterDue(t *testing.T) {
	half := &bath.Filter{Time: units.Minutes(30)}
	washed := inService().add("4 22:00", wash(49, bath.ResultClean))
	night := inService().add("5 02:30", wash(49, bath.ResultClean)) // still the duty day of the 4th
	due := func(why, by string) advise.Action {
		a := advise.Action{Urgency: advise.Today, Kind: "filter", Say: "Filter 30 min", Why: why + ", no run since"}
		if by != "" {
			a.Due, a.Why = at(by), why+"; once, after the last load"
		}
		return a
	}
	longer := due("washed today", "5 07:00")
	longer.Say = "Filter 45 min"
	says(t, "filter", []moment{
		{"nothing washed", inService(), "4 23:00", advise.Action{}},
		{"washed", washed, "4 23:00", due("washed today", "5 07:00")},
		{"the station's own run", washed.add("4 22:10", &bath.Setting{FilterTime: units.Minutes(45)}), "4 23:00", longer},
		{"filtered", washed.add("4 23:00", half), "4 23:30", advise.Action{}},
		{"two loads, filtered once between", washed.add("4 22:30", half).add("4 23:00", wash(49, bath.ResultClean)), "4 23:30", advise.Action{}},
		{"two loads after midnight and before the change", washed.add("4 23:30", half).add("5 06:59", wash(49, bath.ResultClean)), "5 07:30", advise.Action{}},
		{"a load at the change begins a day", washed.add("4 23:30", half).add("5 07:00", wash(49, bath.ResultClean)), "5 07:30", due("washed today", "6 07:00")},
		{"washed by night", night, "5 03:00", due("washed today", "5 07:00")},
		{"not by the end of its day", washed, "5 07:00", due("washed yesterday", "")},
		{"forgotten", washed, "5 09:00", due("washed yesterday", "")},
		{"forgotten for days", washed, "7 09:00", due("washed Wednesday", "")},
		{"forgotten, made up for", washed.add("5 08:00", half), "5 09:00", advise.Action{}},
		{"made up for, then washed that day too", washed.add("5 08:00", half).add("5 10:00", wash(49, bath.ResultClean)), "5 11:00", due("washed today", "6 07:00")},
		{"idle days after", washed.add("4 23:00", half), "7 09:00", advise.Action{}},
		{"drained", washed.add("5 08:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "5 09:00", advise.Action{}},
		{"the gear of another fill", washed.add("5 08:00", &bath.Drain{VolumeL: 200, Route: "hauler"}).add("5 10:00", &bath.Fill{VolumeL: 260}), "5 11:00", advise.Action{}},
	})
}

// Source: the ruling of the trade names the words; three days are from memory.
func TestCheckMark(t *testing.T) {
	check := func(due, seen string) advise.Action {
		return advise.Action{Urgency: advise.Today, Due: at(due), Kind: "water", Say: "Check the mark, baskets out", Why: seen}
	}
	topped := inService().add("4 09:00", &bath.Water{VolumeL: units.Gallons(1), Cause: bath.CauseEvaporation})
	low := topped.add("5 09:00", &bath.Water{Cause: bath.CauseEvaporation, BelowL: new(units.Gallons(11))})
	across := topped.add("6 09:00", &bath.Water{Cause: bath.CauseEvaporation})
	dry := check("7 09:00", "about 14.7 gal low by now; last seen 4 Mar") // of 70 to the mark, 58 where the heater must be off
	dry.Say = "Check the mark: the heater's low mark may be near"
	says(t, "mark", []moment{
		{"three days less a minute", inService(), "5 07:59", advise.Action{}},
		{"three days since the fill", inService(), "5 08:00", check("5 08:00", "last seen Monday")},
		{"looked at since", topped, "7 08:59", advise.Action{}},
		{"three days since", topped, "7 09:00", check("7 09:00", "about 2.8 gal low by now; last seen Wednesday")},
		{"across the clock change", across, "9 09:00", check("9 09:00", "about 2.7 gal low by now; last seen Friday")},
		{"across the clock change, a minute less", across, "9 08:59", advise.Action{}},
		{"long ago", topped, "20 07:00", dry},
		{"the low mark is near and says more", low, "20 07:00", advise.Action{}},
		{"not in service yet", dosed(), "20 07:00", advise.Action{}},
		{"drained", topped.add("8 09:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "20 07:00", advise.Action{}},
	})
}

// Source: ruling of the trade: three of five washes "again" in band: look at
// strength and foil before anything else.
func TestWashedAgain(t *testing.T) {
	washes := func(c units.Temperature, results ...string) book {
		b := inService()
		for _, r := range results {
			b = b.add("5 10:00", wash(c, r))
		}
		return b
	}
	const again, clean = bath.ResultAgain, bath.ResultClean
	look := advise.Action{
		Urgency: advise.Today, Kind: "duty", Preset: map[string]string{"what": "foil"},
		Say: "Check soap strength and foil",
		Why: "before anything else: 3 of the last 5 washes came out not clean, with the bath warm",
	}
	bad := washes(50, again, clean, again, clean, again)
	says(t, "again", []moment{
		{"three of four", washes(50, again, again, again, clean), "5 12:00", advise.Action{}},
		{"two of five", washes(50, clean, again, clean, clean, again), "5 12:00", advise.Action{}},
		{"three of five", bad, "5 12:00", look},
		{"three of the last six, two of the last five", bad.add("5 11:00", wash(50, clean)), "5 12:00", advise.Action{}},
		{"damaged is not dirty", washes(50, again, "damaged", again, clean, clean), "5 12:00", advise.Action{}},
		{"3 °C below the set point is in band", washes(47, again, again, again, clean, clean), "5 12:00", look},
		{"in a cool bath", washes(46.9, again, again, again, clean, clean), "5 12:00", advise.Action{}},
		{"foil checked since", bad.add("5 11:00", &bath.Duty{What: bath.DutyFoil}), "5 12:00", advise.Action{}},
		{"foil checked before", bad.add("5 09:00", &bath.Duty{What: bath.DutyFoil}), "5 12:00", look},
		{"drained", bad.add("5 11:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "5 12:00", advise.Action{}},
	})
}

// Source: ruling of the trade: filter cartridge by hours. 40 hours are from
// memory, and a tenth before that is ours.
func TestCartridges(t *testing.T) {
	ran := func(last units.Span) book {
		return inService().
			add("3 08:00", &bath.Filter{Time: units.Minutes(23 * 60)}).
			add("5 08:00", &bath.Filter{Time: last})
	}
	change := func(u advise.Urgency, stage, why string) advise.Action {
		return advise.Action{
			Urgency: u, Kind: "media", Preset: map[string]string{"stage": stage},
			Say: "Change filter cartridge " + stage, Why: why + "; the old one may be regulated waste",
		}
	}
	h := func(h float64) units.Span { return units.Minutes(60 * h) }
	first := ran(h(17)).add("5 12:00", &bath.Media{Stage: "1", Route: "hauler"})
	for id, moments := range map[string][]moment{
		"cartridge-1": {
			{"35.9 hours", ran(h(12.9)), "6 07:00", advise.Action{}},
			{"36 hours", ran(h(13)), "6 07:00", change(advise.Soon, "1", "36 of 40 filter hours")},
			{"39.9 hours", ran(h(16.9)), "6 07:00", change(advise.Soon, "1", "39 of 40 filter hours")},
			{"40 hours", ran(h(17)), "6 07:00", change(advise.Today, "1", "40 of 40 filter hours")},
			{"changed", first, "6 07:00", advise.Action{}},
			{"a shorter life on its paper", ran(h(1)).add("5 09:00", &bath.Setting{CartridgeS: h(20)}), "6 07:00", change(advise.Today, "1", "24 of 20 filter hours")},
			{"the bath is empty", ran(h(17)).add("5 09:00", &bath.Drain{VolumeL: 200, Route: "hold"}), "6 07:00", change(advise.Today, "1", "40 of 40 filter hours")},
		},
		"cartridge-2": {
			{"the other was changed", first, "6 07:00", change(advise.Today, "2", "40 of 40 filter hours")},
		},
	} {
		says(t, id, moments)
	}
}

// Source: ruling of the trade: eyewash weekly, foil check and tank and lid
// inspection quarterly. 91 days after 8 December is 9 March, by the calendar.
func TestDuties(t *testing.T) {
	washed := inService().add("2 13:00", &bath.Duty{What: bath.DutyEyewash})
	foil := bare().add("2025-12-08 09:00", &bath.Duty{What: bath.DutyFoil}).add("2025-12-09 08:00", &bath.Fill{VolumeL: 260})
	duty := func(what, say string, u advise.Urgency, due, why string) advise.Action {
		a := advise.Action{Urgency: u, Kind: "duty", Preset: map[string]string{"what": what}, Say: say, Why: why}
		if due != "" {
			a.Due = at(due)
		}
		return a
	}
	eye := func(u advise.Urgency, due, why string) advise.Action {
		return duty("eyewash", "Run the eyewash", u, due, why)
	}
	check := func(u advise.Urgency, why string) advise.Action {
		return duty("foil", "Do the foil check", u, "9 09:00", why)
	}
	says(t, "duty-eyewash", []moment{
		{"never filled", setUp(), "2 07:00", advise.Action{}},
		{"never done", dosed(), "2 09:00", eye(advise.Today, "", "none logged yet")},
		{"just done", washed, "2 13:05", eye(advise.Later, "9 13:00", "due 9 Mar, last today")},
		{"two days before", washed, "8 06:59", eye(advise.Later, "9 13:00", "due tomorrow, last Monday")},
		{"the day before", washed, "8 07:00", eye(advise.Soon, "9 13:00", "due tomorrow, last Monday")},
		{"on its day", washed, "9 07:00", eye(advise.Today, "9 13:00", "due today, last 2 Mar")},
		{"the same day, later", washed, "9 20:00", eye(advise.Today, "9 13:00", "due today, last 2 Mar")},
		{"missed", washed, "10 07:00", eye(advise.Today, "9 13:00", "was due yesterday, last 2 Mar")},
		{"a late line does not turn it back", washed.add("1 10:00", &bath.Duty{What: bath.DutyEyewash}), "9 07:00", eye(advise.Today, "9 13:00", "due today, last 2 Mar")},
	})
	says(t, "duty-foil", []moment{
		{"eight days before", foil, "2 06:59", check(advise.Later, "due 9 Mar, last 8 Dec 2025")},
		{"a week before", foil, "2 07:00", check(advise.Soon, "due 9 Mar, last 8 Dec 2025")},
		{"on its day", foil, "9 07:00", check(advise.Today, "due today, last 8 Dec 2025")},
	})
	says(t, "duty-inspection", []moment{
		{"never done", foil, "2 07:00", duty("inspection", "Inspect the tank and lid", advise.Today, "", "none logged yet")},
	})
}
