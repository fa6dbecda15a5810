package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: ruling of the trade on the states: watch from 0.3, at the limit from
// 0.5, past it once a drop of 0.5 can be stated: 0.62 with the same meter, 0.83
// with another. The first reading is 10.12; the limit of 0.5 is common practice.
func TestLimit(t *testing.T) {
	down := func(ph units.PH) book { return inService().add("9 07:30", twoBuffers()).add("9 08:00", hot(ph)) }
	other := func(ph units.PH) book {
		return inService().add("9 08:00", &bath.Reading{PH: ph, SampleC: 50, Meter: "M2"})
	}
	near := func(drop string) advise.Action {
		return advise.Action{Urgency: advise.Soon, Say: "Getting close: have soap at hand", Why: "down " + drop + ", act at 0.50"}
	}
	reached := func(drop string) advise.Action {
		return advise.Action{
			Urgency: advise.Today, Kind: "reading", Say: "At the limit: rinse, read again",
			Why: "down " + drop + ", act at 0.50; more soap: …; if it is the same, tell the gear officer",
		}
	}
	over := func(drop string) advise.Action {
		return advise.Action{
			Urgency: advise.Now, Kind: "decision", Say: "Over the limit: tell the gear officer",
			Why: "down " + drop + ", act at 0.50; more soap: …; top up or drain is theirs to decide",
		}
	}
	own := near("0.29")
	own.Why = "down 0.29, act at 0.40"
	says(t, "limit", []moment{
		{"no reading", warmed(), "9 08:00", advise.Action{}},
		{"0.29", down(9.83), "9 08:00", advise.Action{}},
		{"0.30", down(9.82), "9 08:00", near("0.30")},
		{"0.49", down(9.63), "9 08:00", near("0.49")},
		{"0.50", down(9.62), "9 08:00", reached("0.50")},
		{"0.61", down(9.51), "9 08:00", reached("0.61")},
		{"0.62", down(9.50), "9 08:00", over("0.62")},
		{"0.62, another meter", other(9.50), "9 08:00", reached("0.62")},
		{"0.82, another meter", other(9.30), "9 08:00", reached("0.82")},
		{"0.83, another meter", other(9.29), "9 08:00", over("0.83")},
		{"the station's own limit", down(9.83).add("9 08:01", &bath.Setting{Limit: new(0.4)}), "9 08:05", own},
		{"up", down(10.15), "9 08:00", advise.Action{}},
		{"cold, and too unsure to compare", read().add("9 08:00", &bath.Reading{PH: 9.0, SampleC: 15, Meter: "M2"}), "9 08:00", advise.Action{}},
		{"lukewarm, by this bath's own slope", inService().add("9 08:00", &bath.Reading{PH: 9.86, SampleC: 35, Meter: "M1"}), "9 08:00", reached("0.57")},
		{"cold, against the cooled pair", inService().add("9 08:00", &bath.Reading{PH: 10.10, SampleC: 23, Meter: "M1"}), "9 08:00", reached("0.50")},
		{"crossed out", down(9.50).add("9 08:05", &bath.Strike{Target: down(9.50).lastSeq(), Why: "typed wrong"}), "9 08:10", advise.Action{}},
		{"drained", down(9.50).add("9 09:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "9 09:10", advise.Action{}},
	})
}

// Source: ruling of the trade: a rise of more than 0.12 with no soap logged
// asks three questions, and is not trusted without an answer.
func TestDoubtfulReading(t *testing.T) {
	low := inService().add("9 08:00", hot(10.00))
	rose := low.add("10 08:00", hot(10.13))
	doubt := advise.Action{
		Urgency: advise.Today, Kind: "reading", Say: "Read again: the pH went up",
		Why: "up 0.13 since 9 Mar with no soap logged: was soap added, was it refilled, was the first reading taken before it mixed?",
	}
	answered := &bath.Reading{PH: 10.13, SampleC: 50, Meter: "M1", Rose: bath.RoseSoap}
	says(t, "doubt", []moment{
		{"up 0.12", low.add("10 08:00", hot(10.12)), "10 08:05", advise.Action{}},
		{"up 0.13", rose, "10 08:05", doubt},
		{"still there next week", rose, "17 07:00", doubt},
		{"with its reason", low.add("10 08:00", answered), "10 08:05", advise.Action{}},
		{"soap was logged", low.add("9 12:00", &bath.Dose{VolumeL: 1}).add("10 08:00", hot(10.13)), "10 08:05", advise.Action{}},
		{"soap logged late", rose.add("9 12:00", &bath.Dose{VolumeL: 1}), "10 08:05", advise.Action{}},
		{"read again, and back", rose.add("10 08:10", hot(10.01)), "10 08:15", advise.Action{}},
		{"read again, and the same", rose.add("10 08:10", hot(10.13)), "10 08:15", doubt},
		{"at another temperature", low.add("10 08:00", &bath.Reading{PH: 10.3, SampleC: 40}), "10 08:05", advise.Action{}},
	})
	x := rose.look(t, "10 08:05")
	if got := float64(x.PH.Last.Is.PH); got != 10 {
		t.Errorf("the trend turned: the last trusted reading is %.2f, want 10.00", got)
	}
}

// Source: ruling of the trade: a comparison is blocked only where its
// uncertainty makes it worthless, which is half the limit (judgement).
func TestReadAgain(t *testing.T) {
	at := func(c units.Temperature, meter string) book {
		return read().add("9 08:00", &bath.Reading{PH: 10.2, SampleC: c, Meter: meter})
	}
	again := advise.Action{
		Urgency: advise.Today, Kind: "reading", Say: "Read again at about 122 °F",
		Why: "too unsure to compare, give or take 0.28: read again at about the first one's temperature, with a checked meter",
	}
	says(t, "read-again", []moment{
		{"3 °C below", at(47, "M1"), "9 08:05", advise.Action{}},
		{"28 °C below", at(22, "M1"), "9 08:05", advise.Action{}},
		{"35 °C below, another meter", at(15, "M2"), "9 08:05", again},
		{"read again hot", at(15, "M2").add("9 09:00", hot(9.65)), "9 09:05", advise.Action{}},
		{"like the cooled pair", inService().add("9 08:00", &bath.Reading{PH: 10.5, SampleC: 24}), "9 08:05", advise.Action{}},
		{"no first reading", warmed().add("9 08:00", hot(10.1)), "9 08:05", advise.Action{}},
		{"drained", at(15, "M2").add("9 09:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "9 09:05", advise.Action{}},
	})
}

func weekly(u advise.Urgency, due, why string) advise.Action {
	a := advise.Action{Urgency: u, Due: at(due), Kind: "reading", Say: "Take the weekly pH", Why: why}
	if u == advise.Now {
		a.Say += ": overdue"
	}
	return a
}

// Source: rulings of the trade: due 7 days after the last, any time in the duty
// day; due within 2 h of the change it belongs to the on-coming shift; overdue
// 8 days after the last; all by the clock on the wall, which was put forward on
// the 8th.
func TestReadingDue(t *testing.T) {
	last := func(when string) book { return inService().add(when, hot(10.1)) }
	at0930 := last("2 13:00").add("3 09:30", hot(10.1))
	says(t, "reading", []moment{
		{"no first reading", warmed(), "20 07:00", advise.Action{}},
		{"drained", at0930.add("20 07:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "20 08:00", advise.Action{}},
		{"just read", at0930, "3 09:31", weekly(advise.Later, "11 07:00", "due 10 Mar, last today")},
		{"three days before", at0930, "8 06:59", weekly(advise.Later, "11 07:00", "due Tuesday, last Tuesday")},
		{"two days before", at0930, "8 07:00", weekly(advise.Soon, "11 07:00", "due Tuesday, last Tuesday")},
		{"a minute before its day", at0930, "10 06:59", weekly(advise.Soon, "11 07:00", "due today, last 3 Mar")},
		{"its day begins", at0930, "10 07:00", weekly(advise.Today, "11 07:00", "due by Wed 07:00, last 3 Mar")},
		{"the last minute of its day", at0930, "11 06:59", weekly(advise.Today, "11 07:00", "due by 07:00, last 3 Mar")},
		{"its day is over", at0930, "11 07:00", weekly(advise.Today, "11 07:00", "was due by 07:00, last 3 Mar")},
		{"a minute before 8 days", at0930, "11 09:29", weekly(advise.Today, "11 07:00", "was due by 07:00, last 3 Mar")},
		{"8 days", at0930, "11 09:30", weekly(advise.Now, "11 07:00", "was due by 07:00, last 3 Mar")},
		{"a month later", at0930, "2026-04-03 09:30", weekly(advise.Now, "11 07:00", "was due by 11 Mar 07:00, last 3 Mar")},
		{"a doubtful reading is a reading", at0930.add("10 09:00", hot(10.4)), "10 09:05", weekly(advise.Later, "18 07:00", "due 17 Mar, last today")},

		{"due 2 h before the change", last("3 05:00"), "10 06:00", weekly(advise.Soon, "11 07:00", "due today, last 3 Mar")},
		{"due 2 h and a minute before it", last("3 04:59"), "10 06:00", weekly(advise.Today, "10 07:00", "due by 07:00, last 3 Mar")},

		// 168 h after 04:45 it is 05:45 by the new time, which would be the next shift's.
		{"across the clock change, the shift", readOnceAt("1 04:45"), "8 06:00", weekly(advise.Today, "8 07:00", "due by 07:00, last 1 Mar")},
		{"across the clock change, overdue", readOnceAt("1 08:00"), "9 08:00", weekly(advise.Now, "9 07:00", "was due by 07:00, last 1 Mar")},
		{"across the clock change, a minute less", readOnceAt("1 08:00"), "9 07:59", weekly(advise.Today, "9 07:00", "was due by 07:00, last 1 Mar")},
	})
}

// readOnceAt is an earlier fill with no reading but its first.
func readOnceAt(when string) book {
	return bare().
		add("2026-02-28 09:00", &bath.Fill{VolumeL: units.Gallons(70)}).
		add("2026-02-28 09:10", &bath.Dose{VolumeL: units.Gallons(2)}).
		add(when, first(10.12))
}

// Source: ruling of the trade: volunteers read on drill night. Drill is on
// Tuesdays at 19:00: the 3rd, 10th and 17th.
func TestReadingDueOnDrillNight(t *testing.T) {
	last := func(when string) book {
		return inService().add("2 12:01", &bath.Setting{Shift: "drill:tue@19:00"}).add(when, hot(10.1))
	}
	says(t, "reading", []moment{
		{"read at drill", last("3 20:10"), "10 06:59", weekly(advise.Soon, "11 07:00", "due today, last 3 Mar")},
		{"drill night", last("3 20:10"), "10 19:00", weekly(advise.Today, "11 07:00", "due by Wed 07:00, last 3 Mar")},
		{"missed", last("3 20:10"), "11 20:10", weekly(advise.Now, "11 07:00", "was due by 07:00, last 3 Mar")},
		{"read before drill began", last("3 18:50"), "4 08:00", weekly(advise.Later, "11 07:00", "due Tuesday, last yesterday")},
		{"read on Saturday", last("7 10:00"), "9 08:00", weekly(advise.Soon, "11 07:00", "due tomorrow, last Saturday")},
		{"read the afternoon before drill", last("9 18:00"), "9 19:00", weekly(advise.Soon, "11 07:00", "due tomorrow, last today")},
		{"read the evening before drill", last("9 19:30"), "10 19:00", weekly(advise.Later, "18 07:00", "due 17 Mar, last yesterday")},
	})
}
