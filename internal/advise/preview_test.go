package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source of the states: as in TestLimit.
func TestPreview(t *testing.T) {
	low := inService().add("8 08:00", hot(9.90))
	topped := low.add("8 09:00", &bath.Dose{VolumeL: 1})
	tests := []struct {
		name    string
		book    book
		reading *bath.Reading
		want    string
		ask     string
	}{
		{"no fill", setUp(), hot(10), "No fill is open: log the fill first.", ""},
		{"drained", low.add("8 09:00", &bath.Drain{VolumeL: 200, Route: "hold"}), hot(10), "No fill is open: log the fill first.", ""},
		{"first, hot", warmed(), first(10.12), "First reading: every later one is judged against it.", "again"},
		{"first, 3 °C below the set point", warmed(), &bath.Reading{PH: 10.1, SampleC: 47, Baseline: true}, "First reading: every later one is judged against it.", "again"},
		{"first, cold", warmed(), &bath.Reading{PH: 10.6, SampleC: 22, Baseline: true}, "First reading, and 72 °F is cold for one: hot, at about 122 °F, is better.", "again"},
		{"first, cooled cup", read(), &bath.Reading{PH: 10.6, SampleC: 22, Baseline: true, Cooled: true}, "Kept as the cooled pair of the first reading.", "again"},
		{"none named", warmed(), hot(10.12), "No first reading is named yet: this one is kept and judged against nothing. Name the first.", ""},
		{"cold, no pair", read(), &bath.Reading{PH: 10.5, SampleC: 22}, "Would read 10.05 at 122 °F. Down 0.07 ± 0.16 from 10.12: could be noise.", ""},
		{"cold, with the pair", inService(), &bath.Reading{PH: 10.50, SampleC: 22, Meter: "M1"}, "Down 0.10 ± 0.06 from 10.60: real, not yet at the limit.", ""},
		{"the same", inService(), hot(10.12), "The same as the first, 10.12.", ""},
		{"a little up", inService(), hot(10.15), "Up 0.03 from 10.12: within what a meter tells.", ""},
		{"down", inService(), hot(9.90), "Down 0.22 ± 0.06 from 10.12: real, not yet at the limit.", ""},
		{"getting close", inService(), hot(9.82), "Down 0.30 ± 0.06 from 10.12: real, not yet at the limit.", ""},
		{"at the limit", inService(), hot(9.62), "Expected about 9.77 to 10.40, and 9.62 is typed. Rinse the probe, wait 20 s, read again.", "again"},
		{"over", inService(), hot(9.50), "Expected about 9.77 to 10.40, and 9.50 is typed. Rinse the probe, wait 20 s, read again.", "again"},
		{"over, by another meter", inService(), &bath.Reading{PH: 9.50, SampleC: 50, Meter: "M2"}, "Expected about 9.62 to 10.55, and 9.50 is typed. Rinse the probe, wait 20 s, read again.", "again"},
		{"over, read twice", inService(), &bath.Reading{PH: 9.50, SampleC: 50, Meter: "M1", Again: new(units.PH(9.52))}, "Down 0.62 ± 0.06 from 10.12: over the limit of 0.50. Tell the gear officer.", ""},
		{"two that differ", inService(), &bath.Reading{PH: 9.30, SampleC: 50, Meter: "M1", Again: new(units.PH(9.60))}, "9.30 and 9.60 do not agree: rinse, read a third time; the middle one counts.", "third"},
		{"the second is in line", inService(), &bath.Reading{PH: 9.30, SampleC: 50, Meter: "M1", Again: new(units.PH(10.02))}, "Down 0.10 ± 0.06 from 10.12: real, not yet at the limit.", ""},
		{"at the limit, read twice", inService(), &bath.Reading{PH: 9.62, SampleC: 50, Meter: "M1", Again: new(units.PH(9.63))}, "Down 0.50 ± 0.06 from 10.12: at the limit of 0.50. Rinse, read again, tell the gear officer.", ""},
		{"close, and unsure", low.add("8 20:00", hot(9.75)), hot(9.66), "Down 0.46 ± 0.06 from 10.12: could be 0.4, could be 0.5; read again with the same meter.", ""},
		{"strip", inService(), &bath.Reading{PH: 9.5, SampleC: 50, Meter: "strips"}, "Kept for the trend: a strip decides nothing.", ""},
		{"a failed meter", inService().add("8 08:00", dip(10.20)), hot(9.90), "Kept, not trusted: meter M1 had failed on 8 Mar: carbonate reads 10.20 and should read 10.01, 0.19 off: rinse, take fresh buffer, try again; then calibrate with two buffers.", ""},
		{"by the meter last used", inService(), &bath.Reading{PH: 9.90, SampleC: 50}, "Down 0.22 ± 0.06 from 10.12: real, not yet at the limit.", ""},
		{"up since the last, still below the first", low, hot(10.03), "Went up 0.13 since 8 Mar with no soap logged. Why?", "rose"},
		{"up with its reason", low, &bath.Reading{PH: 10.03, SampleC: 50, Meter: "M1", Rose: bath.RoseSoap}, "Down 0.09 ± 0.06 from 10.12: could be noise.", ""},
		{"up after soap", topped, hot(10.03), "Down 0.09 ± 0.06 from 10.12: could be noise.", ""},
		{"above the first after soap", topped, hot(10.40), "Up 0.28 ± 0.06 from 10.12, the first.", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := tt.book.look(t, "9 09:00")
			n := len(x.Life.Entries)
			say, ask := x.Preview(tt.reading)
			if say != tt.want || ask != tt.ask {
				t.Errorf("got %q, %q; want %q, %q", say, ask, tt.want, tt.ask)
			}
			if got := x.PreviewBody(tt.reading); got != tt.want {
				t.Errorf("PreviewBody: got %q, want %q", got, tt.want)
			}
			if len(x.Life.Entries) != n {
				t.Error("the preview was recorded")
			}
		})
	}
}

func TestPreviewBody(t *testing.T) {
	tagged := inService().add("3 02:10", &bath.Hold{Cause: bath.HoldLeak, Why: "drips"})
	const hotSay = "Above the hottest allowed: heater off, gear out."
	tests := []struct {
		name string
		book book
		body bath.Body
		want string
	}{
		{"soap, and what a full dose is", filled(), &bath.Dose{VolumeL: units.Gallons(1)}, "1.0 gal: 1 jug. A full first dose here is 2.0 gal: 2 jugs."},
		{"soap, no ratio on file", bare().add("2 08:00", &bath.Fill{VolumeL: 260}), &bath.Dose{VolumeL: units.Gallons(1)}, "1.0 gal."},
		{"soap, no fill", setUp(), &bath.Dose{VolumeL: units.Gallons(1)}, "No fill is open: log the fill first."},
		{"soap, contaminated", inService().add("3 02:10", &bath.Hold{Cause: bath.HoldContaminated, Why: "powder"}), &bath.Dose{VolumeL: units.Gallons(1)}, "The bath is contaminated: add nothing. What went in already is kept."},
		{"a start in an empty bath", setUp(), &bath.Start{}, "Nothing can be started: Start a wash: no fill is open in bath main, so there is nothing to record it on; log the fill first."},
		{"a start in an empty bath that is tagged", setUp().add("3 02:10", &bath.Hold{Cause: bath.HoldLeak, Why: "drips"}), &bath.Start{}, "Not in the bath: the bath is red-tagged by Kim Vale: drips. Do this: leave it off. Wake the gear officer, who alone lifts the tag."},
		{"a wash under a red tag", tagged, wash(50, bath.ResultClean), "The bath is red-tagged: start nothing. What happened already is kept, outside the rule."},
		{"a wash", inService(), wash(50, bath.ResultClean), ""},
		{"a wash too hot", inService(), wash(55, bath.ResultClean), hotSay},
		{"a red tag", inService(), &bath.Hold{Cause: bath.HoldLeak}, "Every screen says DO NOT USE until a gear officer lifts it."},
		{"a contaminated bath", inService(), &bath.Hold{Cause: bath.HoldContaminated}, "Every screen says DO NOT USE until a gear officer lifts it. Name the wash that brought it in: what was washed in it or after it is held too."},
		{"and its wash", inService(), &bath.Hold{Cause: bath.HoldContaminated, Wash: 12}, "Every screen says DO NOT USE until a gear officer lifts it."},
		{"a fill", setUp(), &bath.Fill{}, "The mark: the upper rivet."},
		{"a fill, the mark in nobody's words", bare(), &bath.Fill{}, ""},
		{"a temperature", inService(), &bath.Temp{BathC: 54.9}, ""},
		{"a temperature at the margin", inService().add("3 07:30", &bath.Tank{MaxC: new(units.Temperature(53))}), &bath.Temp{BathC: 53.5}, ""},
		{"a temperature too hot", inService(), &bath.Temp{BathC: 55}, hotSay},
		{"nothing to say", inService(), &bath.Filter{Time: 1800}, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.book.look(t, "9 09:00").PreviewBody(tt.body); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

// The limits of items are filled in at the door: a form does not say that they
// are unknown.
func TestPreviewOfAStartLeavesLimitsToTheDoor(t *testing.T) {
	x := inService().add("19 07:40", &bath.Intake{Else: bath.ElseNone}).add("19 07:50", &bath.Temp{BathC: units.Fahrenheit(121)}).look(t, "19 08:00")
	say := x.PreviewBody(&bath.Start{Items: []bath.Load{{Item: "tool", Count: 1}}, Time: units.Minutes(8), BathC: units.Fahrenheit(121), Checked: true})
	if !strings.HasPrefix(say, "Set the machine's timer") {
		t.Errorf("got %q", say)
	}
}
