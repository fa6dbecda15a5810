package bath_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Loads as the catalog of the day fills them in. Limits: 29 CFR 1910.134 App.
// B-2 prints 110 F and 43 C for masks; CGA P-1, by a summary, 125 F for gas
// cylinders (51 C, with half a degree of margin); 130 F is the top of the
// working band, common practice. Weights and what is displaced are from memory.
func maskLoad(n int) bath.Load {
	return bath.Load{Item: "mask", Name: "Mask", Count: n, Longest: units.Minutes(5), LimitC: p(units.Fahrenheit(110)), Limit: "110 F",
		Source: "29 CFR 1910.134 App. B-2", MassKg: units.Pounds(1.5), DisplacesL: 0.7}
}

func cylinderLoad(n int) bath.Load {
	return bath.Load{Item: "cylinder", Name: "Cylinder", Count: n, Longest: units.Minutes(15), LimitC: p(units.Temperature(51.5)), Limit: "125 F",
		Source: "CGA P-1, by a summary", Floats: true, MassKg: units.Pounds(12), DisplacesL: 10.75}
}

func toolLoad(n int) bath.Load {
	return bath.Load{Item: "tool", Name: "Hand tool", Count: n, Longest: units.Minutes(20), LimitC: p(units.Fahrenheit(130)), Limit: "130 F",
		Source: "common practice, no source", MassKg: units.Pounds(7), DisplacesL: 1.5}
}

// begins is a start of a load that nothing speaks against on ready, but for
// what change makes of it.
func begins(load bath.Load, change func(*bath.Start)) *bath.Start {
	if load.LimitC == nil { // it stands any bath here
		load.LimitC, load.Limit = p(units.Temperature(60)), "60 C"
	}
	s := &bath.Start{Items: []bath.Load{load}, Soil: "normal", Time: units.Minutes(4), BathC: 40, Checked: true, Lids: true}
	if change != nil {
		change(s)
	}
	return s
}

func nothingButSmoke() *bath.Intake { return &bath.Intake{Else: bath.ElseNone} }

// onFile is a maker's paper that allows a bath of c.
func onFile(item string, c units.Temperature) *bath.Procedure {
	return &bath.Procedure{Item: item, State: bath.PaperOnFile, Title: "cleaning guide, rev C", MaxC: &c}
}

// ready is a bath in service with nothing in the way of a start: tools need no
// paper, and the papers for masks and cylinders keep to their limits.
func ready(t testing.TB) *book {
	b := begun(t)
	b.log(crew, nothingButSmoke())
	b.log(officer, &bath.Tank{SurfaceM2: 0.3})
	b.log(crew, &bath.Temp{BathC: 40, Heat: p(true)})
	b.log(officer, &bath.Procedure{Item: "mask", State: bath.PaperPending})
	b.log(officer, &bath.Procedure{Item: "cylinder", State: bath.PaperPending})
	return b
}

// with is ready with further lines of a gear officer.
func with(bodies ...bath.Body) func(testing.TB) *book {
	return func(t testing.TB) *book {
		b := ready(t)
		for _, body := range bodies {
			b.log(officer, body)
		}
		return b
	}
}

// gateCase is a start that one gate stands in the way of.
type gateCase struct {
	name  string
	on    func(testing.TB) *book // ready if nil
	wait  time.Duration
	ago   time.Duration // how long before now it is dated
	start *bath.Start
	say   string // the whole sentence; "" where it passes
	soft  bool   // a gear officer gets by with a reason
}

// checkGate tries each start as a key holder, as a gear officer and as one with
// a reason: none gets by a hard gate, the last by a soft one.
func checkGate(t *testing.T, id string, tests []gateCase) {
	t.Helper()
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.on == nil {
				tt.on = ready
			}
			b := tt.on(t).wait(time.Minute + tt.wait)
			reason := *tt.start
			reason.Override = "trial with the maker"
			for _, by := range []struct {
				who   string
				start bath.Start
				soft  bool
			}{{keyHolder, *tt.start, false}, {officer, *tt.start, false}, {keyHolder, reason, false}, {officer, reason, tt.soft}} {
				err := bath.Check(b.state, b.draft(by.who, b.now.Add(-tt.ago), &by.start), b.now)
				if tt.say == "" || by.soft {
					if err != nil {
						t.Errorf("%s with a reason %q: %v", by.who, by.start.Override, err)
					}
					continue
				}
				checkSentence(t, err, id, tt.say)
			}
		})
	}
}

// checkSentence wants this whole sentence, with what to do and whom to wake.
func checkSentence(t testing.TB, err error, id, say string) {
	t.Helper()
	r, ok := err.(*bath.Refusal)
	if !ok {
		t.Fatalf("got %v, want a refusal %q", err, id)
	}
	if diff := cmp.Diff([]string{id, say}, []string{r.ID, r.Say}); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

func TestAReadyBathTakesALoad(t *testing.T) {
	checkGate(t, "", []gateCase{
		{name: "masks", start: begins(maskLoad(4), nil)},
		{name: "cylinders", start: begins(cylinderLoad(2), nil)},
		{name: "tools", start: begins(toolLoad(4), nil)},
	})
}

// What nobody knows the limit of is not taken to have none.
func TestGateKnown(t *testing.T) {
	lamp := begins(toolLoad(1), func(s *bath.Start) {
		s.Items = append(s.Items, bath.Load{Item: "lamp", Name: "Lamp", Count: 1, Longest: units.Minutes(5)})
	})
	checkGate(t, "no-limit", []gateCase{
		{name: "in no list", start: lamp, soft: true,
			say: "Not in the bath: how warm the bath may be for Lamp is not known. Do this: wash it by hand, or put its maker's paper on file. Wake the gear officer."},
		{name: "by its maker's paper", on: with(onFile("lamp", 45)), start: lamp},
	})
}

// Source: ruling of the trade: no wash starts under a red tag, which a gear
// officer alone lifts.
func TestGateTag(t *testing.T) {
	checkGate(t, "tagged", []gateCase{
		{name: "tagged", on: with(&bath.Hold{Cause: bath.HoldLeak, Why: "drips at the valve"}), start: begins(toolLoad(1), nil),
			say: "Not in the bath: the bath is red-tagged by Ana Reyes: drips at the valve. Do this: leave it off. Wake the gear officer, who alone lifts the tag."},
		{name: "lifted", on: with(&bath.Hold{Cause: bath.HoldLeak, Why: "drips"}, &bath.Release{Why: "valve replaced"}), start: begins(toolLoad(1), nil)},
	})
}

// Source: ruling of the trade on the intake: class A foam is no flag,
// fluorinated foam is counted only; blood is rinsed below 45 °C first; asbestos
// and the like have no path to the bath.
func TestGateOther(t *testing.T) {
	met := func(what string) func(testing.TB) *book { return with(&bath.Intake{Else: what}) }
	held := func(what string) string {
		return "Not in the bath: the gear met " + what + ". Do this: bag it, tag it red, keep it apart: there is no way into the bath. Wake the gear officer."
	}
	tools := begins(toolLoad(1), nil)
	checkGate(t, "not-smoke", []gateCase{
		{name: "asbestos", on: met(bath.ElseAsbestos), start: tools, say: held("asbestos")},
		{name: "an opioid", on: met(bath.ElseOpioid), start: tools, say: held("an opioid")},
		{name: "a chemical", on: met(bath.ElseChemical), start: tools, say: held("a chemical")},
		{name: "an agent", on: met(bath.ElseCBRN), start: tools, say: held("a CBRN agent")},
		{name: "unknown", on: met(bath.ElseUnknown), start: tools, say: held("something nobody has named")},
		{name: "rinsing does not help", on: with(&bath.Intake{Else: bath.ElseAsbestos, Rinsed: true}), start: tools, say: held("asbestos")},
		{name: "class A foam", on: met(bath.ElseClassA), start: tools},
		{name: "fluorinated foam", on: met(bath.ElseFluorinated), start: tools},
		{name: "the next incident", on: with(&bath.Intake{Else: bath.ElseAsbestos}, nothingButSmoke()), start: tools},
	})
	checkGate(t, "blood", []gateCase{
		{name: "blood", on: met(bath.ElseBlood), start: tools,
			say: "Not in the bath: there is blood on the gear, and a hot bath sets it. Do this: rinse it cool, below 113 °F (45 °C), disinfect it, and log the intake as rinsed. Wake the gear officer."},
		{name: "rinsed cool", on: with(&bath.Intake{Else: bath.ElseBlood, Rinsed: true}), start: tools},
	})
	unasked := "Not in the bath: nobody has said whether there was anything but smoke. Do this: ask who wore it, then log the intake. Wake the officer of the incident."
	checkGate(t, "intake", []gateCase{
		{name: "never asked", on: begun, start: tools, say: unasked},
		{name: "asked a day ago", wait: 23 * time.Hour, start: tools},
		{name: "asked longer ago", wait: 25 * time.Hour, start: tools, say: unasked},
	})
}

func TestGateNever(t *testing.T) {
	radio := bath.Load{Item: "radio", Name: "Radio", Count: 1, Never: "water kills electronics and batteries"}
	checkGate(t, "never", []gateCase{
		{name: "a radio among tools", start: begins(toolLoad(1), func(s *bath.Start) { s.Items = append(s.Items, radio) }),
			say: "Not in the bath: Radio, because water kills electronics and batteries. Do this: take it out of the basket. Wake the gear officer if in doubt."},
	})
}

func TestGateRunning(t *testing.T) {
	running := func(t testing.TB) *book {
		b := ready(t)
		b.log(keyHolder, begins(toolLoad(1), nil))
		return b
	}
	full := "Not in the bath: the wash that Kim Sato started has no result yet. Do this: log how it came out first. Wake Kim Sato."
	checkGate(t, "running", []gateCase{
		{name: "while it runs", on: running, start: begins(toolLoad(1), nil), say: full},
		{name: "when it is over", on: running, wait: time.Hour, start: begins(toolLoad(1), nil), say: full},
	})
}

func TestGateSoapAndBubbles(t *testing.T) {
	noSoap := func(t testing.TB) *book {
		b := newBook(t)
		b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
		b.log(keyHolder, &bath.Degas{Time: units.Minutes(15)})
		b.log(crew, nothingButSmoke())
		return b
	}
	bubbles := func(t testing.TB) *book {
		b := justFilled(t)
		b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
		b.log(crew, nothingButSmoke())
		return b
	}
	checkGate(t, "no-soap", []gateCase{{name: "water alone", on: noSoap, start: begins(toolLoad(1), nil),
		say: "Not in the bath: no soap is logged in this fill. Do this: log the first dose. Wake the gear officer."}})
	checkGate(t, "bubbles", []gateCase{{name: "not run empty", on: bubbles, start: begins(toolLoad(1), nil), soft: true,
		say: "Not in the bath: the bath was not run empty to clear bubbles since it was filled. Do this: run it empty for 15 min with the lid shut, and log it. Wake a key holder."}})
}

// Below 48 gal the heater of this tank runs dry.
func TestGateMark(t *testing.T) {
	missing := func(gal float64) func(testing.TB) *book {
		return with(&bath.Water{Cause: bath.CauseEvaporation, BelowL: p(units.Gallons(gal))})
	}
	low := "Not in the bath: the bath stands no higher than the heater's low mark. Do this: heater off, fill up to the mark, log the water. Wake the gear officer."
	checkGate(t, "low", []gateCase{
		{name: "above it", on: missing(11), start: begins(toolLoad(1), nil)},
		{name: "at it", on: missing(12), start: begins(toolLoad(1), nil), say: low},
		{name: "below it", on: missing(20), start: begins(toolLoad(1), nil), say: low},
	})
}

// Source: ruling of the trade: a measurement older than 15 min is asked again.
func TestGateMeasured(t *testing.T) {
	checkGate(t, "old-temperature", []gateCase{
		{name: "just now", start: begins(toolLoad(1), nil)},
		{name: "15 min ago", wait: 15 * time.Minute, ago: 15 * time.Minute, start: begins(toolLoad(1), nil)},
		{name: "16 min ago", wait: 15 * time.Minute, ago: 16 * time.Minute, start: begins(toolLoad(1), nil),
			say: "Not in the bath: the bath was measured more than 15 min ago. Do this: measure it again, pump off; a wash that ran already is logged as a wash. Wake nobody: this you can do."},
	})
	b := ready(t)
	gates, err := bath.Gates(b.state, b.draft("", b.now, &bath.Start{Items: []bath.Load{toolLoad(1)}, Time: 240, Checked: true}), b.now)
	if err != nil || len(gates) != 1 || gates[0].Wrong != "nobody has said how warm the bath is" {
		t.Errorf("of an empty form: got %v, %v", gates, err)
	}
}

// Source: ruling of the trade: a bath above its band stops everything; limits
// are compared with half a degree of margin.
func TestGateBand(t *testing.T) {
	at := func(c units.Temperature) *bath.Start {
		return begins(bath.Load{Item: "lamp", Name: "Lamp", Count: 1}, func(s *bath.Start) { s.BathC = c })
	}
	checkGate(t, "over-band", []gateCase{
		{name: "at the top", start: at(units.Fahrenheit(130))},
		{name: "inside the margin", start: at(units.Fahrenheit(130) + 0.5)},
		{name: "above it", start: at(55), say: "Not in the bath: the bath is at 131 °F, and the hottest allowed here is 130 °F. Do this: heater off, gear out, let it cool. Wake the gear officer."},
		{name: "just above it", start: at(54.95), say: "Not in the bath: the bath is at 131 °F, and the hottest allowed here is 130 °F. Do this: heater off, gear out, let it cool. Wake the gear officer."},
		{name: "above the tank's own", on: with(&bath.Tank{MaxC: p(units.Temperature(52)), SetC: p(units.Temperature(50))}), start: at(53),
			say: "Not in the bath: the bath is at 127 °F, and the hottest allowed here is 126 °F. Do this: heater off, gear out, let it cool. Wake the gear officer."},
	})
}

// 95 °F is common practice, no source.
func TestGateCool(t *testing.T) {
	at := func(c units.Temperature) *bath.Start { return begins(toolLoad(1), func(s *bath.Start) { s.BathC = c }) }
	checkGate(t, "too-cool", []gateCase{
		{name: "95 °F", start: at(units.Fahrenheit(95))},
		{name: "inside the margin", start: at(34.5)},
		{name: "cool", start: at(30), soft: true, say: "Not in the bath: the bath is at 86 °F, and nothing comes clean below 95 °F. Do this: wait until it is warmer. Wake nobody: this you can do."},
	})
}

// Source: ruling of the trade: "don't have it yet" stands for 30 days with the
// gear officer's acceptance, then each wash wants a reason.
func TestGatePaper(t *testing.T) {
	short := onFile("mask", 45)
	short.Longest = units.Minutes(3)
	lapsed := onFile("mask", 45)
	lapsed.Lapses = "2026-03-02"
	pending := &bath.Procedure{Item: "mask", State: bath.PaperPending}
	for _, again := range []bool{false, true} {
		on := func(t testing.TB) *book {
			b := ready(t)
			b.wait(31 * 24 * time.Hour)
			if again { // said once more, it is not put off
				b.log(officer, pending)
			}
			b.log(crew, nothingButSmoke())
			return b
		}
		checkGate(t, "paper", []gateCase{{name: "missing for 31 days", on: on, start: begins(maskLoad(4), nil), soft: true,
			say: "Not in the bath: the maker's paper for Mask has been missing for more than 30 days. Do this: get it, and log it. Wake the gear officer."}})
	}
	checkGate(t, "paper", []gateCase{
		{name: "missing for a day", start: begins(maskLoad(4), nil)},
		{name: "on file", on: with(onFile("mask", 45)), start: begins(maskLoad(4), nil)},
		{name: "none, and nobody answers for it", start: begins(bath.Load{Item: "pack", Name: "Harness pack", Count: 1}, nil), soft: true,
			say: "Not in the bath: no maker's paper for Harness pack is on file. Do this: log the paper, or that you do not have it yet. Wake the gear officer."},
		{name: "on its last day", on: with(lapsed), start: begins(maskLoad(4), nil)},
		{name: "lapsed", on: func(t testing.TB) *book { b := with(lapsed)(t).wait(17 * time.Hour); return b }, start: begins(maskLoad(4), nil), soft: true,
			say: "Not in the bath: no maker's paper for Mask is on file. Do this: log the paper, or that you do not have it yet. Wake the gear officer."},
		{name: "washed outside", on: with(&bath.Procedure{Item: "mask", State: bath.PaperOutside}), start: begins(maskLoad(4), nil),
			say: "Not in the bath: this station washes Mask outside the bath. Do this: wash it by hand. Wake the gear officer."},
		{name: "longer than the paper", on: with(short), start: begins(maskLoad(4), nil),
			say: "Not in the bath: 4 min is longer than the 3 min that the maker's paper allows for Mask. Do this: set less. Wake the gear officer."},
		{name: "tools want none", start: begins(toolLoad(1), nil)},
		{name: "tools have one all the same", on: with(&bath.Procedure{Item: "tool", State: bath.PaperOutside}), start: begins(toolLoad(1), nil),
			say: "Not in the bath: this station washes Hand tool outside the bath. Do this: wash it by hand. Wake the gear officer."},
		{name: "a reason for one item lets no other through", on: func(t testing.TB) *book {
			return with(lapsed, &bath.Procedure{Item: "tool", State: bath.PaperOutside})(t).wait(17 * time.Hour)
		}, start: begins(maskLoad(4), func(s *bath.Start) { s.Items = append(s.Items, toolLoad(1)) }),
			say: "Not in the bath: this station washes Hand tool outside the bath. Do this: wash it by hand. Wake the gear officer."},
	})
}

// Source: ruling of the trade: the shortest longest-minutes of anything in the
// load rules; a mask is washed 3 to 5 min.
func TestGateLongest(t *testing.T) {
	for5 := func(sec float64) *bath.Start {
		return begins(toolLoad(1), func(s *bath.Start) { s.Items, s.Time = append(s.Items, maskLoad(2)), units.Span(sec) })
	}
	const do = " Do this: set less, or take it out and wash it by itself. Wake the gear officer."
	checkGate(t, "too-long", []gateCase{
		{name: "5 min", start: for5(300)},
		{name: "not a second more", start: for5(300.4)},
		{name: "a second more", start: for5(301), say: "Not in the bath: 5 min 1 s is longer than the longest for Mask, 5 min." + do},
		{name: "too long for both", on: with(&bath.Temp{BathC: 40, Heat: p(false)}), start: for5(1500), say: "Not in the bath: 25 min is longer than the longest for Mask, 5 min." + do},
	})
}

// An unsealed light and a tool wet with fuel are among the checks.
func TestGateChecks(t *testing.T) {
	checkGate(t, "checks", []gateCase{{name: "not looked at", start: begins(toolLoad(1), func(s *bath.Start) { s.Checked = false }),
		say: "Not in the bath: the checks of the items were not looked at. Do this: go through them one by one, as the cycle lists them: cap and seal off, parts off, nothing unsealed, nothing fuel-wet. Wake the gear officer if one fails."}})
}

// Source: common practice: helmets and cylinders float, lid always.
func TestGateLids(t *testing.T) {
	helmet := bath.Load{Item: "helmet", Name: "Helmet shell", Count: 2, Floats: true}
	noLid := func(l bath.Load) *bath.Start { return begins(l, func(s *bath.Start) { s.Lids = false }) }
	checkGate(t, "lid", []gateCase{
		{name: "a helmet without", on: with(onFile("helmet", 50)), start: noLid(helmet),
			say: "Not in the bath: Helmet shell floats, and no lid is clipped over it. Do this: put it in a basket with its lid clipped. Wake nobody: this you can do."},
		{name: "a helmet with", on: with(onFile("helmet", 50)), start: begins(helmet, nil)},
		{name: "tools sink", start: noLid(toolLoad(1))},
	})
}

// Source: the load limit of a general purpose manual, 100 L for 50 kg exactly.
// Two trays of 5 masks or 4 tools go in at once, or one deep basket of 8 masks,
// 3 helmets or 7 tools: so at most 10 masks, or 8 tools. The counts are a
// station's own.
func TestGateBaskets(t *testing.T) {
	tools := func(n int) bath.Load {
		return bath.Load{Item: "tool", Name: "Hand tool", Count: n, LimitC: p(units.Fahrenheit(130))}
	}
	tray := &bath.Basket{Name: "tray", Make: bath.BasketShallow, Count: p(3), AtOnce: p(2), Holds: []bath.Load{{Item: "mask", Count: 5}, {Item: "tool", Count: 4}}}
	deep := &bath.Basket{Name: "deep", Make: bath.BasketDeep, Holds: []bath.Load{{Item: "mask", Count: 8}, {Item: "helmet", Count: 3}, {Item: "tool", Count: 7}}}
	sized := &bath.Basket{Name: "wide", Make: bath.BasketDeep, LengthM: 0.5, WidthM: 0.4, HeightM: 0.3}
	filed, measured := with(tray, deep), with(tray, deep, sized)
	mixed := begins(maskLoad(5), func(s *bath.Start) { s.Items = append(s.Items, tools(5)) })
	fits := begins(maskLoad(5), func(s *bath.Start) { s.Items = append(s.Items, tools(4)) })
	const counts = " Wake the gear officer if the counts on file are wrong."
	checkGate(t, "overfull", []gateCase{
		{name: "no baskets on file", start: begins(maskLoad(40), nil)},
		{name: "two trays of masks", on: filed, start: begins(maskLoad(10), nil)},
		{name: "a mask more", on: filed, start: begins(maskLoad(11), nil), soft: true,
			say: "Not in the bath: Mask × 11 is too much: the baskets on file take 10 at once. Do this: wash it in 2 loads." + counts},
		{name: "tools", on: filed, start: begins(tools(17), nil), soft: true,
			say: "Not in the bath: Hand tool × 17 is too much: the baskets on file take 8 at once. Do this: wash it in 3 loads." + counts},
		{name: "a tray of each", on: filed, start: fits},
		{name: "a tool more than a tray of each", on: filed, start: mixed, soft: true,
			say: "Not in the bath: the load takes 1.2 times the room that the baskets on file have in the bath. Do this: wash it in 2 loads." + counts},
		{name: "what no basket counts", on: filed, start: begins(bath.Load{Item: "lamp", Name: "Lamp", Count: 40}, nil)},
		{name: "what a measured basket may hold", on: measured, start: begins(tools(17), nil)},
	})
}

func TestGateMass(t *testing.T) {
	small := func(t testing.TB) *book {
		b := newBook(t)
		b.log(officer, &bath.Tank{VolumeL: 100, LowL: 80})
		b.log(crew, &bath.Fill{VolumeL: 100})
		b.log(crew, &bath.Dose{VolumeL: 3})
		b.log(keyHolder, &bath.Degas{Time: units.Minutes(15)})
		b.log(crew, nothingButSmoke())
		return b
	}
	weighs := func(n int, kg units.Mass) *bath.Start {
		return begins(bath.Load{Item: "anvil", Name: "Anvil", Count: n, MassKg: kg}, nil)
	}
	const do = " Do this: wash it in two loads. Wake the gear officer."
	checkGate(t, "too-heavy", []gateCase{
		{name: "50 kg", on: small, start: weighs(5, 10)},
		{name: "a gram more", on: small, start: weighs(1, 50.001), say: "Not in the bath: the load weighs a little more than the 110.2 lb that may go in, half of what the water weighs." + do},
		{name: "60 kg", on: small, start: weighs(6, 10), say: "Not in the bath: the load weighs about 132.3 lb, and at most 110.2 lb may go in, half of what the water weighs." + do},
	})
}

// Source: ruling of the trade: four cylinders under lids push up about 43 L; 4
// in above 0.3 m² are 30.48 L.
func TestGateOverflow(t *testing.T) {
	four := &bath.Tank{FreeboardM: units.Inches(4)}
	brim := begins(bath.Load{Item: "drum", Name: "Drum", Count: 1, DisplacesL: 30.49}, nil)
	const do = " Do this: wash it in two loads. Wake the gear officer."
	checkGate(t, "overflow", []gateCase{
		{name: "four cylinders", on: with(four), start: begins(cylinderLoad(4), nil),
			say: "Not in the bath: the load pushes 11.4 gal of the bath up, and between the mark and the rim there is room for 8.1 gal: it would flow over." + do},
		{name: "a spoonful too much", on: with(four), start: brim,
			say: "Not in the bath: the load pushes up a little more than the 8.1 gal that there is room for between the mark and the rim: the bath would flow over." + do},
		{name: "two cylinders", on: with(four), start: begins(cylinderLoad(2), nil)},
		{name: "a rim that nobody measured", start: begins(cylinderLoad(4), nil)},
	})
}

// Source: ruling of the trade: after the third wash in one visit, or more than
// twice the item's longest in total, stop and look; on only with the gear
// officer.
func TestGateAgain(t *testing.T) {
	nth := func(n int, min float64, l bath.Load) *bath.Start {
		return begins(l, func(s *bath.Start) { s.Visit, s.Time = n, units.Minutes(min) })
	}
	const do = " Do this: stop and look: soap strength, foil, what the soil is. Wake the gear officer, who may go on with it."
	checkGate(t, "again", []gateCase{
		{name: "the second", start: nth(2, 5, maskLoad(4))},
		{name: "the third, short", start: nth(3, 3, maskLoad(4))},
		{name: "the third, long", start: nth(3, 4, maskLoad(4)), soft: true,
			say: "Not in the bath: wash 3 makes it 12 min in all for Mask in one visit, more than twice its longest, 5 min." + do},
		{name: "the third of tools", start: nth(3, 10, toolLoad(1))},
		{name: "the fourth", start: nth(4, 2, toolLoad(1)), soft: true,
			say: "Not in the bath: this is wash 4 of Hand tool in one visit, and after 3 somebody looks first." + do},

		// The log book counts where nobody does.
		{name: "the second in the log book", on: with(again(maskLoad(4), 5)), start: nth(0, 5, maskLoad(4))},
		{name: "the third in the log book", on: with(again(maskLoad(4), 5), again(maskLoad(4), 5)), start: nth(0, 5, maskLoad(4)), soft: true,
			say: "Not in the bath: wash 3 makes it 15 min in all for Mask in one visit, more than twice its longest, 5 min." + do},
		{name: "the fourth in the log book", on: with(again(toolLoad(1), 2), again(toolLoad(1), 2), again(toolLoad(1), 2)), start: nth(2, 2, toolLoad(1)), soft: true,
			say: "Not in the bath: this is wash 4 of Hand tool in one visit, and after 3 somebody looks first." + do},
		{name: "of other items", on: with(again(maskLoad(4), 5), again(maskLoad(4), 5), again(maskLoad(4), 5)), start: nth(0, 5, toolLoad(1))},
		{name: "one came out clean", on: with(again(toolLoad(1), 10), again(toolLoad(1), 10), washed(bath.ResultClean, toolLoad(1), 10), again(toolLoad(1), 10)), start: nth(0, 10, toolLoad(1))},
		{name: "yesterday's", on: with(again(toolLoad(1), 10), again(toolLoad(1), 10), again(toolLoad(1), 10)), wait: 13 * time.Hour, start: nth(0, 10, toolLoad(1))},
	})
}

func washed(result string, l bath.Load, min float64) *bath.Wash {
	return &bath.Wash{Items: []bath.Load{l}, Soil: "normal", Time: units.Minutes(min), BathC: 40, Result: result}
}

func again(l bath.Load, min float64) *bath.Wash { return washed(bath.ResultAgain, l, min) }

// TestAReasonPassesSoftGatesOnly: a hard gate stands, however many soft ones a
// gear officer's reason passes.
func TestAReasonPassesSoftGatesOnly(t *testing.T) {
	b := ready(t).wait(time.Minute)
	cool := begins(toolLoad(1), func(s *bath.Start) { s.BathC, s.Visit, s.Override = 30, 4, "trial with the maker" })
	if err := bath.Check(b.state, b.draft(officer, b.now, cool), b.now); err != nil {
		t.Error(err)
	}
	cool.Checked = false
	checkID(t, bath.Check(b.state, b.draft(officer, b.now, cool), b.now), "checks")
	gates, err := bath.Gates(b.state, b.draft(officer, b.now, cool), b.now)
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, g := range gates {
		ids = append(ids, fmt.Sprintf("%s %v", g.ID, g.Soft))
	}
	if diff := cmp.Diff([]string{"too-cool true", "checks false", "again true"}, ids); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}

func checkID(t testing.TB, err error, id string) {
	t.Helper()
	if r, ok := err.(*bath.Refusal); !ok || r.ID != id {
		t.Errorf("got %v, want a refusal %q", err, id)
	}
}
