package advise_test

import (
	"encoding/json"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// anyBook is a station with up to forty further lines in any order of time, in
// one book of four by a clock that ran ahead.
func anyBook(t *rapid.T) book {
	b := rapid.SampledFrom([]book{bare(), setUp(), inService()}).Draw(t, "start")
	latest := 0
	if rapid.IntRange(0, 3).Draw(t, "clock") == 3 {
		latest = 3 * 24 * 60
	}
	for range rapid.IntRange(0, 40).Draw(t, "lines") {
		body := anyBody(t, len(b))
		when := at("9 07:00").Add(time.Duration(rapid.IntRange(-12*24*60, latest).Draw(t, "minutes")) * time.Minute)
		b = b.add(when.Format("2006-01-02 15:04"), body)
	}
	return b
}

func anyBody(t *rapid.T, lines int) bath.Body {
	washed := func() bath.Body { return wash(celsius(t), pick(t, "clean", "again", "again", "damaged")) }
	kinds := []func() bath.Body{
		washed, washed, washed, // as in life, more than anything else
		func() bath.Body { return &bath.Fill{VolumeL: litres(t), WaterC: maybe(t, celsius)} },
		func() bath.Body { return &bath.Dose{VolumeL: litres(t)} },
		func() bath.Body {
			return &bath.Temp{BathC: celsius(t), SetC: maybe(t, celsius), Heat: maybe(t, heating)}
		},
		func() bath.Body { return anyReading(t) },
		func() bath.Body { return anyReading(t) },
		func() bath.Body { return anyCheck(t) },
		func() bath.Body { return anyDecision(t, lines) },
		func() bath.Body { return anyStock(t) },
		func() bath.Body {
			return &bath.Water{VolumeL: litres(t), Cause: pick(t, "evaporation", "spill"), BelowL: maybe(t, litres)}
		},
		func() bath.Body {
			return &bath.Filter{Time: units.Minutes(float64(rapid.IntRange(1, 1440).Draw(t, "filter")))}
		},
		func() bath.Body { return &bath.Degas{Time: 900} },
		func() bath.Body { return anyDrain(t) },
		func() bath.Body { return &bath.Clean{Sludge: pick(t, "", "hauler", "hold")} },
		func() bath.Body { return anyPermission(t) },
		func() bath.Body {
			return &bath.Disposal{Line: uint64(rapid.IntRange(5, 5+lines).Draw(t, "line")), Route: pick(t, "sewer", "hauler", "trash")}
		},
		func() bath.Body {
			return &bath.Hold{Cause: pick(t, "contaminated", "leak", "foil"), Why: "see the note"}
		},
		func() bath.Body { return &bath.Release{Why: "repaired"} },
		func() bath.Body { return &bath.Media{Stage: pick(t, "1", "2"), Route: "hold"} },
		func() bath.Body { return &bath.Duty{What: pick(t, "eyewash", "foil", "inspection")} },
		func() bath.Body { return &bath.Tank{HeaterW: units.Power(rapid.IntRange(1, 9000).Draw(t, "heater"))} },
		func() bath.Body {
			return &bath.Setting{Shift: pick(t, "48/96@08:00", "drill:tue@19:00"), Units: pick(t, "us", "si")}
		},
		func() bath.Body { return anyLimit(t) },
		func() bath.Body { return anyStart(t) },
		func() bath.Body { return anyStart(t) },
		func() bath.Body { return &bath.Pause{Why: pick(t, "", "turn the basket")} },
		func() bath.Body { return &bath.Resume{} },
		func() bath.Body { return &bath.Abort{Why: "tones out"} },
		func() bath.Body {
			return &bath.Intake{Else: pick(t, "none", "blood", "asbestos"), Rinsed: yes(t, "rinsed")}
		},
		func() bath.Body { return anyPaper(t) },
		func() bath.Body { return crossOut(t, lines) },
	}
	return kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")]()
}

func anyReading(t *rapid.T) *bath.Reading {
	return &bath.Reading{
		PH: ph(t), SampleC: celsius(t), Meter: pick(t, "", "M1", "M1", "M2", "strip"), Baseline: yes(t, "baseline"), Cooled: yes(t, "cooled"),
		Again: maybe(t, ph), Third: maybe(t, ph), Oil: pick(t, "", "none", "drops", "layer"), Rose: pick(t, "", "", "soap"),
	}
}

func anyCheck(t *rapid.T) bath.Body {
	c := twoBuffers()
	c.Expires, c.NewElectrode = pick(t, "", "2026-03-20", "soon"), yes(t, "electrode")
	if yes(t, "dip") {
		c.Points, c.Check = nil, &bath.Dip{Buffer: pick(t, "carbonate", "milk"), AtC: celsius(t), PH: ph(t)}
	}
	return c
}

// anyDecision rests on lines that there may not be, or on nothing at all.
func anyDecision(t *rapid.T, lines int) bath.Body {
	d := &bath.Decision{Choice: pick(t, bath.ChoiceKeep, bath.ChoiceTopUp, bath.ChoiceDrain), DoseL: maybe(t, litres)}
	if yes(t, "evidence") {
		d.Evidence = &bath.Evidence{Rests: []uint64{uint64(rapid.IntRange(5, 5+lines).Draw(t, "rests")), uint64(lines)}}
	}
	return d
}

func anyStock(t *rapid.T) bath.Body {
	count := func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 3).Draw(t, "count")) }
	return &bath.Stock{What: pick(t, bath.StockSoap, bath.StockBuffers, bath.StockCartridges), OnHand: maybe(t, count), Added: count(t)}
}

func anyDrain(t *rapid.T) *bath.Drain {
	return &bath.Drain{
		VolumeL: litres(t), Route: pick(t, "hold", "hold", "sewer", "hauler"), PH: maybe(t, ph), SampleC: maybe(t, celsius), LiquidC: maybe(t, celsius),
		Oil: maybe(t, heating), Locked: maybe(t, heating), Allowed: pick(t, "", "R. Quill"),
	}
}

// anyPermission may name no limit, and a day that is none.
func anyPermission(t *rapid.T) bath.Body {
	return &bath.Discharge{
		Stream: pick(t, "liquid", "liquid", "sludge", "cartridge"), Route: pick(t, "sewer", "sewer", "hauler", "trash"),
		Number: pick(t, "", "permit 7"), From: "the district", Title: "rules", Dated: "2025-05-01", Lapses: pick(t, "", "2026-03-05", "2026-04-01", "soon"),
		PHLow: maybe(t, ph), PHHigh: maybe(t, ph), MaxC: maybe(t, celsius), Also: pick(t, "", "a call"),
	}
}

// anyStart is a wash of anything, as an imported file may hold one.
func anyStart(t *rapid.T) bath.Body {
	return &bath.Start{
		Items: []bath.Load{{Item: "mask", Name: "Mask", Count: rapid.IntRange(1, 9).Draw(t, "count")}}, Soil: "normal",
		Time: units.Minutes(float64(rapid.IntRange(0, 300).Draw(t, "minutes"))), BathC: celsius(t),
	}
}

func anyPaper(t *rapid.T) bath.Body {
	return &bath.Procedure{
		Item: pick(t, "mask", "pack"), State: pick(t, bath.PaperOnFile, bath.PaperPending, bath.PaperPending, bath.PaperOutside),
		MaxC: maybe(t, celsius), Lapses: pick(t, "", "2026-03-05", "soon"),
	}
}

// anyLimit is what a station may have set for a fill, and its prices.
func anyLimit(t *rapid.T) bath.Body {
	some := func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 40).Draw(t, "some")) }
	few := func(t *rapid.T) int { return rapid.IntRange(0, 5).Draw(t, "few") }
	return &bath.Setting{
		Limit: maybe(t, func(t *rapid.T) float64 { return rapid.Float64Range(0.1, 2).Draw(t, "limit") }), KeptHot: maybe(t, heating),
		MostDays: maybe(t, some), MostLoads: maybe(t, few), MostTopups: maybe(t, few),
		SoapPrice: maybe(t, some), HourPrice: maybe(t, some), RefillPrice: maybe(t, some),
	}
}

// crossOut takes back a line of the bath, or leaves no more of it than a tag
// needs.
func crossOut(t *rapid.T, lines int) bath.Body {
	s := &bath.Strike{Target: uint64(rapid.IntRange(5, 5+lines).Draw(t, "target")), Why: "typed wrong"}
	if yes(t, "instead") {
		s.Instead = json.RawMessage(`{"kind":"leak","why":"see the note"}`)
	}
	return s
}

func ph(t *rapid.T) units.PH { return units.PH(rapid.IntRange(600, 1200).Draw(t, "pH")) / 100 }

// celsius is any temperature of liquid water, as often as not one near a set
// point.
func celsius(t *rapid.T) units.Temperature {
	return units.Temperature(rapid.OneOf(rapid.Float64Range(1, 99), rapid.Float64Range(45, 56)).Draw(t, "°C"))
}

func litres(t *rapid.T) units.Volume { return units.Volume(rapid.Float64Range(0, 300).Draw(t, "L")) }

func heating(t *rapid.T) bool { return yes(t, "heating") }

func yes(t *rapid.T, what string) bool { return rapid.Bool().Draw(t, what) }

func pick(t *rapid.T, words ...string) string { return rapid.SampledFrom(words).Draw(t, "word") }

// maybe is a value, or nil.
func maybe[V any](t *rapid.T, draw func(*rapid.T) V) *V {
	if yes(t, "absent") {
		return nil
	}
	return new(draw(t))
}
