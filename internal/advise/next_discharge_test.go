package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestPermissionLapses(t *testing.T) {
	renew := func(u advise.Urgency, due, say, last string) advise.Action {
		return advise.Action{
			Urgency: u, Due: at(due), Kind: "discharge", Preset: map[string]string{"stream": "liquid", "route": "sewer"},
			Say: "Renew permit 7: it " + say, Why: "it is for the liquid by way of sewer, given by the sewer district, its last day is " + last,
		}
	}
	on := func(lapses string) book { return inService().permitted(lapses) }
	says(t, "permission-liquid-sewer", []moment{
		{"none on file", inService(), "9 08:00", advise.Action{}},
		{"it names no day", on(""), "9 08:00", advise.Action{}},
		{"61 days ahead", on("2026-05-09"), "9 08:00", advise.Action{}},
		{"60 days ahead", on("2026-05-08"), "9 08:00", renew(advise.Soon, "2026-05-09 00:00", "lapses in 60 days", "2026-05-08")},
		{"15 days ahead", on("2026-03-24"), "9 08:00", renew(advise.Soon, "25 00:00", "lapses in 15 days", "2026-03-24")},
		{"14 days ahead", on("2026-03-23"), "9 08:00", renew(advise.Today, "24 00:00", "lapses in 14 days", "2026-03-23")},
		{"the day before", on("2026-03-10"), "9 08:00", renew(advise.Today, "11 00:00", "lapses tomorrow", "2026-03-10")},
		{"its last day, in the morning", on("2026-03-09"), "9 00:00", renew(advise.Today, "10 00:00", "lapses today", "2026-03-09")},
		{"its last day, at night", on("2026-03-09"), "9 23:59", renew(advise.Today, "10 00:00", "lapses today", "2026-03-09")},
		{"over", on("2026-03-09"), "10 00:00", renew(advise.Today, "10 00:00", "lapsed", "2026-03-09")},
		{"across the change of the clock", on("2026-03-08"), "7 12:00", renew(advise.Today, "9 00:00", "lapses tomorrow", "2026-03-08")},
		{"renewed", on("2026-03-09").add("9 08:00", permit("2027-03-09")), "9 08:05", advise.Action{}},
	})
}

// Limits are asked for before a drain is decided.
func TestDrainLimits(t *testing.T) {
	ask := func(u advise.Urgency, why string) advise.Action {
		return advise.Action{
			Urgency: u, Kind: "discharge", Preset: map[string]string{"stream": "liquid"},
			Say: "Put on file who takes the bath, and the limits", Why: why + ", nor a hauler; before a drain is decided",
		}
	}
	const none = "no permission for the sewer is on file"
	close := inService().add("9 07:30", hot(9.80))
	low := inService().add("9 07:30", hot(9.60))
	hauler := &bath.Discharge{Stream: bath.StreamLiquid, Route: bath.RouteHauler, From: "a hauler", Title: "profile 4", Dated: "2026-01-10"}
	wordless := permit("")
	wordless.PHLow, wordless.PHHigh = nil, nil
	says(t, "drain-limits", []moment{
		{"far from it", inService(), "9 08:00", advise.Action{}},
		{"getting close", close, "9 08:00", ask(advise.Soon, none)},
		{"at the limit", low, "9 08:00", ask(advise.Today, none)},
		{"signed to drain", inService().add("9 07:30", &bath.Decision{Choice: bath.ChoiceDrain}), "9 08:00", ask(advise.Today, none)},
		{"on file", low.permitted(""), "9 08:00", advise.Action{}},
		{"lapsed", low.permitted("2026-03-08"), "9 08:00", ask(advise.Today, "permit 7 lapsed on 2026-03-08")},
		{"a number only", low.add("9 07:40", &bath.Tank{Sewer: "permit 3"}), "9 08:00", ask(advise.Today, "permit 3 is on file without its limits")},
		{"no limit in it", low.add("9 07:40", wordless), "9 08:00", ask(advise.Today, "permit 7 is on file without a limit of pH")},
		{"a hauler", low.add("9 07:40", hauler), "9 08:00", advise.Action{}},
		{"drained", low.add("9 07:40", &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), "9 08:00", advise.Action{}},
	})
}

// Source: ruling of the trade: from 52 to 40 °C takes about 8 h with the lid off
// an insulated tank. testdata/heat/cooldown.csv has it at 40.4 °C after 8 h.
func TestCoolForDrain(t *testing.T) {
	yes := true
	past := bare().add("1 10:00", &bath.Tank{VolumeL: 227.125, Insulated: &yes}).
		add("2 08:00", &bath.Fill{VolumeL: 227.125}).
		add("2 08:10", &bath.Dose{VolumeL: 7}).
		add("2 10:30", first(10.12)).
		add("9 08:00", hot(9.40))
	warm := func(c units.Temperature) book { return past.add("9 08:10", &bath.Temp{BathC: c}) }
	cool := func(why string) advise.Action {
		return advise.Action{Urgency: advise.Today, Kind: "temp", Say: "To drain tomorrow: heater and lid off tonight", Why: why}
	}
	mild := cool("126 °F to 110 °F takes about 5 h with the lid off")
	good := past[:len(past)-1].add("9 08:10", &bath.Temp{BathC: 52})
	says(t, "cool", []moment{
		{"to the limit on file", warm(52).permitted(""), "9 08:15", mild},
		{"cool enough by it", warm(43).permitted(""), "9 08:15", advise.Action{}},
		{"a drain signed, whatever its pH", good.add("9 08:11", &bath.Decision{Choice: bath.ChoiceDrain}), "9 08:15", cool("126 °F to 104 °F takes about 8 h with the lid off")},
		{"kept", good.add("9 08:11", &bath.Decision{Choice: bath.ChoiceKeep}), "9 08:15", advise.Action{}},
		{"at 52 °C", warm(52), "9 08:15", cool("126 °F to 104 °F takes about 8 h with the lid off")},
		{"its lid is reckoned off", warm(52).add("9 08:12", &bath.Tank{Lid: &yes}), "9 08:15", cool("126 °F to 104 °F takes about 8 h with the lid off")},
		{"a little too warm", warm(40.2), "9 08:15", cool("104.4 °F to 104 °F takes about 1 h with the lid off")},
		{"at 40 °C", warm(40), "9 08:15", advise.Action{}},
		{"at the limit only", inService().add("9 08:00", hot(9.60)).add("9 08:10", &bath.Temp{BathC: 52}), "9 08:15", advise.Action{}},
		{"drained", warm(52).add("9 09:00", &bath.Drain{VolumeL: 200, Route: "hauler"}), "9 09:10", advise.Action{}},
	})
}

// Where the figure comes from that a bath is cooled to.
func TestCoolForDrainSaysWhoseFigure(t *testing.T) {
	low := inService().add("9 07:30", &bath.Decision{Choice: bath.ChoiceDrain})
	for want, b := range map[string]book{
		"104 °F is a rule of this console, since no limit is on file": low,
		"110 °F is permit 7, sewer rules, part 4 of 2025-05-01":       low.permitted(""),
	} {
		if from := b.action(t, "9 08:00", "cool").From; len(from) != 1 || !strings.HasPrefix(from[0], want) {
			t.Errorf("got %q, want %q", from, want)
		}
	}
}

// Source: ruling of the trade: a contaminated wash holds cartridges and sludge
// too, and disposal waits for somebody named.
func TestHeldWaste(t *testing.T) {
	held := inService().add("9 07:30", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold})
	foul := inService().add("9 07:00", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"}).
		add("9 07:30", &bath.Drain{VolumeL: units.Gallons(66), Route: bath.RouteHold})
	wiped := foul.add("9 08:00", &bath.Clean{Sludge: bath.RouteHold})
	refilled := wiped.add("9 09:00", &bath.Release{Why: "emptied and wiped"}).add("9 10:00", &bath.Fill{VolumeL: 260})
	ask := func(u advise.Urgency, line, say, why string) advise.Action {
		return advise.Action{Urgency: u, Kind: "disposal", Preset: map[string]string{"line": line}, Say: "Ask where the " + say + " may go", Why: why}
	}
	const never = "; contaminated: never to the sewer, and elsewhere only as somebody named allows"
	says(t, "held-12", []moment{
		{"nothing is held", inService().add("9 07:30", &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), "9 08:00", advise.Action{}},
		{"the liquid", held, "9 08:00", ask(advise.Soon, "12", "66.0 gal of liquid", "held since today, line 12")},
		{"a month later", held, "2026-04-20 08:00", ask(advise.Soon, "12", "66.0 gal of liquid", "held since 9 Mar, line 12")},
		{"gone", held.add("9 07:40", &bath.Disposal{Line: 12, Route: bath.RouteHauler}), "9 08:00", advise.Action{}},
		{"gone, and that crossed out", held.add("9 07:40", &bath.Disposal{Line: 12, Route: bath.RouteHauler}).struck("9 07:50", 13), "9 08:00",
			ask(advise.Soon, "12", "66.0 gal of liquid", "held since today, line 12")},
	})
	says(t, "held-13", []moment{
		{"contaminated", foul, "9 08:00", ask(advise.Today, "13", "66.0 gal of liquid", "held since today, line 13"+never)},
		{"the tag lifted, the tank in use", refilled, "12 08:00", ask(advise.Today, "13", "66.0 gal of liquid", "held since Monday, line 13"+never)},
	})
	says(t, "held-14", []moment{
		{"its sludge", wiped, "9 08:30", ask(advise.Today, "14", "sludge", "held since today, line 14"+never)},
	})
	change := advise.Action{
		Urgency: advise.Today, Kind: "media", Preset: map[string]string{"stage": "2", "route": "hold"},
		Say: "Change filter cartridge 2, keep the old one", Why: "it was in the contaminated bath, and is held with the liquid and the sludge",
	}
	says(t, "cartridge-2", []moment{
		{"still in the tank", foul[:len(foul)-1], "9 07:20", advise.Action{}},
		{"drained", foul, "9 08:00", change},
		{"the other one changed", foul.add("9 07:40", &bath.Media{Stage: "1", Route: bath.RouteHold}), "9 08:00", change},
		{"changed", foul.add("9 07:40", &bath.Media{Stage: "2", Route: bath.RouteHold}), "9 08:00", advise.Action{}},
		{"the tag lifted", refilled, "9 11:00", advise.Action{}},
	})
}
