package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
)

var ofM1 = map[string]string{"meter": "M1"}

// Source: ruling of the trade: one dip in the pH 10 buffer a week. M1 was
// calibrated on 2 March at 09:50; the clock was put forward on the 8th.
func TestDipWeekly(t *testing.T) {
	due := func(u advise.Urgency, when, why string) advise.Action {
		return advise.Action{
			Urgency: u, Due: at(when), Kind: "calibration", Preset: ofM1,
			Say: "Dip meter M1 in pH 10 buffer", Why: why + "; within 0.1 it is right",
		}
	}
	dipped := started().add("9 08:00", dip(10.05))
	says(t, "dip", []moment{
		{"no reading", warmed(), "9 08:00", advise.Action{}},
		{"just calibrated", started(), "2 13:00", due(advise.Later, "9 10:50", "due 9 Mar, last today")},
		{"two days before", started(), "8 06:59", due(advise.Later, "9 10:50", "due tomorrow, last Monday")},
		{"the day before", started(), "8 07:00", due(advise.Soon, "9 10:50", "due tomorrow, last Monday")},
		{"on its day", started(), "9 07:00", due(advise.Today, "9 10:50", "due today, last 2 Mar")},
		{"missed", started(), "10 08:00", due(advise.Today, "9 10:50", "was due yesterday, last 2 Mar")},
		{"dipped", dipped, "9 08:05", due(advise.Later, "16 08:00", "due 16 Mar, last today")},
		{"a dip in 7.00 is none", started().add("9 08:00", neutral(7.00)), "9 08:05", due(advise.Today, "9 10:50", "due today, last 2 Mar")},
		{"its name in small letters", started().add("9 08:00", &bath.Calibration{Meter: "m1", Check: dip(10.05).Check}), "9 08:05", due(advise.Later, "16 08:00", "due 16 Mar, last today")},
		{"failed: two buffers instead", started().add("9 08:00", dip(10.20)), "9 08:05", advise.Action{}},
		{"another meter was dipped", started().add("9 08:00", &bath.Calibration{Meter: "M2", Check: dip(10.05).Check}), "9 08:05", due(advise.Today, "9 10:50", "due today, last 2 Mar")},
		{"strips in use", started().add("9 08:00", sample(10, 50, "strips")), "9 08:05", advise.Action{}},
		{"no name", started().add("9 08:00", sample(10, 50, "")), "9 08:05", advise.Action{}},
		{"drained", started().add("9 08:00", &bath.Drain{VolumeL: 200, Route: bath.RouteHauler}), "9 08:05", advise.Action{}},
	})
}

// Source: ruling of the trade: two buffers monthly, after a failed dip, and
// before a decision is signed. 30 days after 2 March is 1 April.
func TestTwoBuffers(t *testing.T) {
	act := func(u advise.Urgency, why string) advise.Action {
		return advise.Action{Urgency: u, Kind: "calibration", Preset: ofM1, Say: "Calibrate meter M1: two buffers", Why: why}
	}
	monthly := func(why string) advise.Action {
		a := act(advise.Today, why)
		a.Due = at("2026-04-01 09:50")
		return a
	}
	first := act(advise.Soon, "none logged yet, so its readings count as less sure")
	first.Say, first.Preset = "Calibrate meter M2: two buffers", map[string]string{"meter": "M2"}
	failed := act(advise.Today, "meter M1 had failed on 9 Mar: carbonate reads 10.20 and should read 10.01, 0.19 off: rinse, take fresh buffer, try again; then calibrate with two buffers")
	decide := act(advise.Today, "the bath is at its limit; a good bath is not drained for a bad meter")
	decide.Say = "Calibrate meter M1 before anything is decided"

	dipped := started().add("2026-03-28 08:00", dip(10.05))
	low := func(when string) book { return started().add(when, sample(9.60, 50, "M1")) }
	other := started().add("3 08:00", sample(10, 50, "M2"))
	says(t, "calibrate", []moment{
		{"no reading", warmed(), "2026-04-02 08:00", advise.Action{}},
		{"a minute before 30 days", dipped, "2026-04-01 09:49", advise.Action{}},
		{"30 days", dipped, "2026-04-01 09:50", monthly("due today, last 2 Mar")},
		{"the day after", dipped, "2026-04-02 08:00", monthly("was due yesterday, last 2 Mar")},
		{"calibrated", dipped.add("2026-04-02 08:00", twoBuffers()), "2026-04-02 08:05", advise.Action{}},
		{"calibrated with a poor slope", dipped.add("2026-04-02 08:00", shown(88)), "2026-04-02 08:05",
			act(advise.Today, "meter M1 had failed on 2 Apr: slope 88.0 %, offset 0.0 mV: below 92 % the slope is too low: clean the electrode, calibrate again in fresh buffers; if it stays low, fit a new electrode")},

		{"another meter", other, "3 08:05", first},
		{"another meter, only dipped", other.add("3 08:10", &bath.Calibration{Meter: "M2", Check: dip(10.05).Check}), "3 08:15", first},
		{"a failed dip", started().add("9 08:00", dip(10.20)), "9 08:05", failed},
		{"a good dip after it", started().add("9 08:00", dip(10.20)).add("9 08:03", dip(10.01)), "9 08:05", failed},

		{"at the limit, calibrated this week", low("9 08:00"), "9 10:50", advise.Action{}},
		{"at the limit, calibrated a week ago", low("9 08:00"), "9 10:51", decide},
		{"dips do not do for that", started().add("9 07:00", dip(10.05)).add("10 08:00", sample(9.60, 50, "M1")), "10 08:05", decide},
		{"over the limit", started().add("10 08:00", sample(9.10, 50, "M1")), "10 08:05", decide},
		{"getting close decides nothing", started().add("10 08:00", sample(9.80, 50, "M1")), "10 08:05", advise.Action{}},
		{"at the limit, by strips too", low("10 08:00").add("10 09:00", sample(9.5, 50, "strips")), "10 09:05", advise.Action{}},
		{"drained", low("10 08:00").add("10 09:00", &bath.Drain{VolumeL: 200, Route: bath.RouteHauler}), "10 09:05", advise.Action{}},
	})
}

// Source: 12 months in warm samples are from memory.
func TestElectrodeAge(t *testing.T) {
	fitted := func(b book, when string) book {
		c := twoBuffers()
		c.NewElectrode = true
		return b.add(when, c)
	}
	old := fitted(started(), "2025-04-10 09:00")
	fit := func(u advise.Urgency) advise.Action {
		return advise.Action{
			Urgency: u, Due: at("2026-04-10 09:00"), Kind: "calibration", Preset: map[string]string{"meter": "M1", "new-electrode": "yes"},
			Say: "Fit a new electrode to meter M1",
			Why: "the one in use is from 10 Apr 2025, and about 12 months is what warm samples leave it",
		}
	}
	says(t, "electrode", []moment{
		{"nobody said when", started(), "2026-12-01 08:00", advise.Action{}},
		{"a minute before 11 months", old, "10 08:59", advise.Action{}},
		{"11 months", old, "10 09:00", fit(advise.Later)},
		{"two days before", old, "2026-04-08 07:00", fit(advise.Soon)},
		{"12 months", old, "2026-04-10 07:00", fit(advise.Today)},
		{"long past", old, "2026-06-01 07:00", fit(advise.Today)},
		{"fitted", fitted(old, "2026-04-10 09:30"), "2026-04-10 09:35", advise.Action{}},
		{"calibrated since, the same electrode", old.add("10 08:00", twoBuffers()), "10 09:00", fit(advise.Later)},
		{"another meter in use", old.add("10 08:00", sample(10, 50, "M2")), "10 09:00", advise.Action{}},
		{"no reading", fitted(warmed(), "2025-04-10 09:00"), "10 09:00", advise.Action{}},
	})
}

// Source: ruling of the trade: buffers' expiry has a due date; three weeks to buy
// some are from memory.
func TestBuffersExpire(t *testing.T) {
	bottles := func(b book, when, expires string) book {
		c := twoBuffers()
		c.Expires = expires
		return b.add(when, c)
	}
	old := bottles(started(), "3 08:00", "2026-03-30")
	get := func(u advise.Urgency, why string) advise.Action {
		return advise.Action{Urgency: u, Due: at("2026-03-30 00:00"), Say: "Get fresh buffers", Why: "the bottles in use " + why}
	}
	gone := func(day string) advise.Action {
		return get(advise.Today, "expired "+day+"; log the new date with the next calibration")
	}
	says(t, "buffers", []moment{
		{"no date", started(), "20 08:00", advise.Action{}},
		{"a date that is none", bottles(started(), "3 08:00", "next spring"), "20 08:00", advise.Action{}},
		{"22 days ahead", old, "8 23:59", advise.Action{}},
		{"21 days ahead", old, "9 00:00", get(advise.Soon, "expire 30 Mar")},
		{"the day before", old, "29 23:59", get(advise.Soon, "expire tomorrow")},
		{"on the day", old, "30 00:00", gone("today")},
		{"after it", old, "2026-04-10 08:00", gone("30 Mar")},
		{"calibrated since, nobody looked at the bottles", old.add("20 08:00", twoBuffers()), "20 08:05", get(advise.Soon, "expire 30 Mar")},
		{"new ones", bottles(old, "20 08:00", "2027-03-31"), "20 08:05", advise.Action{}},
		{"between two fills", old.add("20 08:00", &bath.Drain{VolumeL: 200, Route: bath.RouteHauler}), "20 08:05", get(advise.Soon, "expire 30 Mar")},
	})
}
