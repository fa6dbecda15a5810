package chem

import (
	"encoding/json"
	"math"
	"testing"

	"bathside/internal/units"
)

// Source: trade practice for slope (95 to 105 accepted, 92 to 95 warned of) and
// offset (30 mV); a check buffer within 0.1.
func TestJudge(t *testing.T) {
	meter := func(slope, offset float64) Calibration { return must(FromMeter(slope, offset, 25)) }
	three := func(borax string) Calibration {
		return must(Calibrate(points("7.00@25C=0mV", borax, "carbonate@25C=-178.2mV")))
	}
	tests := []struct {
		name   string
		c      Calibration
		checks []string
		ok     bool
		grade  Grade
		say    string
	}{
		{"good", twoBuffers(), nil, true, Pass, "slope 98.3 %, offset 0.1 mV: good"},
		{"low edge", meter(95, -30), nil, true, Pass, "slope 95.0 %, offset -30.0 mV: good"},
		{"high edge", meter(105, 30), nil, true, Pass, "slope 105.0 %, offset 30.0 mV: good"},
		{"as shown it is 95.0", meter(94.96, 30.04), nil, true, Pass, "slope 95.0 %, offset 30.0 mV: good"},
		{"worn", meter(94.9, 0.2), nil, true, Warn,
			"slope 94.9 %, offset 0.2 mV: good enough for now, but below 95 % the electrode is dirty or old: clean it, calibrate again soon"},
		{"edge of worn", meter(92, 0.2), nil, true, Warn,
			"slope 92.0 %, offset 0.2 mV: good enough for now, but below 95 % the electrode is dirty or old: clean it, calibrate again soon"},
		{"worn out", meter(91.9, 0.2), nil, false, Fail,
			"slope 91.9 %, offset 0.2 mV: below 92 % the slope is too low: clean the electrode, calibrate again in fresh buffers; if it stays low, fit a new electrode"},
		{"too steep", meter(105.1, 0.2), nil, false, Fail,
			"slope 105.1 %, offset 0.2 mV: a slope above 105 % is no electrode's: see which buffers they were and how warm, calibrate again"},
		{"offset", meter(98, -30.1), nil, false, Fail,
			"slope 98.0 %, offset -30.1 mV: the offset is more than 30 mV from 0: clean the electrode, calibrate again"},
		{"the worst is said", meter(93, 31), nil, false, Fail,
			"slope 93.0 %, offset 31.0 mV: the offset is more than 30 mV from 0: clean the electrode, calibrate again"},
		{"third in line", three("borax@25C=-125mV"), nil, true, Pass, "slope 99.4 %, offset 0.7 mV, three buffers agree within 0.07: good"},
		{"third off", three("borax@25C=-117mV"), nil, false, Fail,
			"slope 98.1 %, offset 2.1 mV: borax is 0.20 pH off the line of the other two: pour it fresh, calibrate again"},
		{"check 0.1 off", twoBuffers(), []string{"borax@25C=9.08"}, true, Pass, "slope 98.3 %, offset 0.1 mV: good"},
		{"check 0.11 off", twoBuffers(), []string{"carbonate@25C=10.0", "borax@25C=9.29"}, false, Fail,
			"slope 98.3 %, offset 0.1 mV: borax reads 9.29 and should read 9.18, 0.11 off: pour fresh buffer, calibrate again"},
		{"check too warm", twoBuffers(), []string{"carbonate@51C=9.8"}, false, Fail,
			"slope 98.3 %, offset 0.1 mV: the carbonate buffer at 51 °C has no known value: use it from 0 °C to 50 °C (32 °F to 122 °F)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var checks []Check
			for _, text := range tt.checks {
				checks = append(checks, must(ParseCheck(text)))
			}
			got := tt.c.Judge(25, checks...)
			if got.OK != tt.ok || got.Grade != tt.grade || got.Say != tt.say {
				t.Errorf("got %v, %s:\n    %s\nwant %v, %s:\n    %s", got.OK, got.Grade, got.Say, tt.ok, tt.grade, tt.say)
			}
		})
	}
}

// The zero values, and numbers that are none, never pass.
func TestNothingPassesUnjudged(t *testing.T) {
	nan := twoBuffers()
	nan.SlopePct = math.NaN()
	for name, v := range map[string]Verdict{
		"no verdict":     {},
		"no calibration": Calibration{}.Judge(0),
		"no slope":       nan.Judge(0),
		"no dip":         Dip(Check{}),
		"no reading":     Dip(Check{Buffers[4], 25, units.PH(math.NaN())}),
	} {
		if v.OK || v.Grade != Fail {
			t.Errorf("%s: got %v, %s", name, v.OK, v.Grade)
		}
	}
}

// Source: the ruling that one dip in the pH 10 buffer within 0.1 checks a
// meter; carbonate is 10.012 at 25 °C and 9.828 at 50 °C (IUPAC 2002).
func TestDip(t *testing.T) {
	tests := []struct {
		dip   string
		ok    bool
		grade Grade
		say   string
	}{
		{"carbonate@25C=9.98", true, Pass, "carbonate reads 9.98 and should read 10.01: checked"},
		{"carbonate@25C=9.91", true, Pass, "carbonate reads 9.91 and should read 10.01: checked"},
		{"carbonate@25C=10.11", true, Pass, "carbonate reads 10.11 and should read 10.01: checked"},
		{"borax@25C=9.2", true, Pass, "borax reads 9.20 and should read 9.18: checked"},
		{"carbonate@25C=9.90", false, Fail,
			"carbonate reads 9.90 and should read 10.01, 0.11 off: rinse, take fresh buffer, try again; then calibrate with two buffers"},
		{"carbonate@50C=10.01", false, Fail,
			"carbonate reads 10.01 and should read 9.83, 0.18 off: rinse, take fresh buffer, try again; then calibrate with two buffers"},
		{"7.00@25C=7.02", false, Warn,
			"7.00 reads 7.02 and should read 7.00: right, but it tells nothing of a bath at 9 to 11.5; dip in carbonate or borax"},
		{"7.00@25C=7.12", false, Fail,
			"7.00 reads 7.12 and should read 7.00, 0.12 off: rinse, take fresh buffer, try again; then calibrate with two buffers"},
		{"borax@61C=9.00", false, Fail, "the borax buffer at 61 °C has no known value: use it from 0 °C to 60 °C (32 °F to 140 °F)"},
	}
	for _, tt := range tests {
		t.Run(tt.dip, func(t *testing.T) {
			check, err := ParseCheck(tt.dip)
			if err != nil {
				t.Fatal(err)
			}
			got := Dip(check)
			if got.OK != tt.ok || got.Grade != tt.grade || got.Say != tt.say {
				t.Errorf("got %v, %s:\n    %s\nwant %v, %s:\n    %s", got.OK, got.Grade, got.Say, tt.ok, tt.grade, tt.say)
			}
		})
	}
}

func TestGradeInJSON(t *testing.T) {
	got, err := json.Marshal([]Grade{Fail, Warn, Pass})
	if want := `["fail","warn","pass"]`; err != nil || string(got) != want {
		t.Errorf("got %s, %v; want %s", got, err, want)
	}
}
