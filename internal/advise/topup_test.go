package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// Common practice, no source: from 10.10 a reading of 9.60 at the same
// temperature calls for the decision, and after part depletion half the first
// dose is added.
func TestTheCommonExampleCallsForADecision(t *testing.T) {
	before, err := tableFill("").look(t, "9 07:00").Decide()
	if err != nil || before.Choice != keep {
		t.Fatalf("at 10.10: got %q, %v", before.Choice, err)
	}
	above := tableFill("").add("9 07:00", twoBuffers()).add("9 08:00", sample(9.61, 50, "M1"))
	if d, _ := above.look(t, "9 08:05").Decide(); d.Choice != keep {
		t.Errorf("at 9.61: got %q", d.Choice)
	}
	x := tableLow("").look(t, "9 08:05")
	d, err := x.Decide()
	if err != nil || d.Choice == keep || x.PH.State != advise.PHAtLimit {
		t.Errorf("at 9.60: got %q, %s, %v", d.Choice, x.PH.State, err)
	}
	near(t, "the slider's start over the first dose", float64(d.TopUp.DoseL/tableCharge), 0.5, 1e-9)
}

// Half the first dose (common practice, no source) unless less is likely
// enough, and no more than the label allows.
func TestWhereTheSliderStarts(t *testing.T) {
	watch := func(family string, ph units.PH) book {
		return tableFill(family).add("9 07:00", twoBuffers()).add("9 08:00", sample(ph, 50, "M1"))
	}
	label := func(b book, strongest float64) book {
		return b.add("9 08:01", &bath.Tank{Strongest: strongest}).add("9 08:01", &bath.Setting{Parts: bath.PartsInWater})
	}
	half := tableCharge / 2
	tests := []struct {
		name string
		book book
		want units.Volume // 0: no top-up is shown
	}{
		{"a soap nobody knows", tableLow(""), half},
		{"metasilicate", tableLow("metasilicate"), half},
		{"a soap that cannot do it: half all the same", tableLow("buffered-carbonate"), half},
		{"hydroxide, a little down: less is enough", watch("hydroxide", 9.90).add("9 08:01", &bath.Setting{Limit: new(0.2)}), 2.84},
		{"room on the label for more", label(tableLow(""), 15), half},
		{"room for less", label(tableLow(""), 25), 227./26 - tableCharge},
		{"no room", label(tableLow(""), 30), 0},
		{"not near the limit", watch("", 9.95), 0},
		{"soap just went in", tableLow("").add("9 08:01", &bath.Dose{VolumeL: 1}), 0},
		{"contaminated", tableLow("").add("9 08:01", &bath.Hold{Cause: bath.HoldContaminated, Why: "x"}), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := tt.book.look(t, "9 08:05").Decide()
			if err != nil {
				t.Fatal(err)
			}
			if (d.TopUp == nil) != (tt.want == 0) {
				t.Fatalf("got %+v, want %.2f L", d.TopUp, float64(tt.want))
			}
			if d.TopUp != nil {
				near(t, "litres", float64(d.TopUp.DoseL), float64(tt.want), 0.01)
			}
		})
	}
}

// Source: testdata/chem/dosing_summary.csv: what the first litre does on a bath
// that is 0.5 down, and what a whole charge reaches.
func TestTopUpIsWhatTheTableSays(t *testing.T) {
	for family, name := range map[string]string{"buffered-carbonate": bufferedLine, "metasilicate": metaLine, "soda-ash": sodaLine} {
		ref, line := tableSoap(t, name)
		x := tableLow(family).look(t, "9 08:05")
		near(t, family+", a litre", float64(x.TopUp(1).PH.Mid)-9.60, ref.number(t, line, "dpH_first_litre_on_bath_0.5_low"), 0.015)
		near(t, family+", a charge", float64(x.TopUp(tableCharge).PH.Mid), ref.number(t, line, wholeCharge), 0.015)
	}
}

// The slider: more soap reads no lower and is no less likely to reach the first
// reading; the range is in order, and no dose is no top-up.
func TestMoreSoapReadsHigher(t *testing.T) {
	for _, family := range []string{"", "metasilicate", "hydroxide", "buffered-carbonate"} {
		x := tableLow(family).look(t, "9 08:05")
		last := advise.TopUp{}
		for _, share := range []units.Volume{0.1, 0.25, 0.5, 0.75, 1} {
			is := x.TopUp(share * tableCharge)
			if is.PH.Low < last.PH.Low || is.PH.High < last.PH.High || is.Reaches < last.Reaches || is.PH.Low > is.PH.Mid || is.PH.Mid > is.PH.High {
				t.Errorf("%s: with %.2f of a charge %+v after %+v", family, float64(share), is, last)
			}
			last = *is
		}
		for _, none := range []units.Volume{0, -1} {
			if got := x.TopUp(none); got != nil {
				t.Errorf("%s: %g L is %+v", family, float64(none), got)
			}
		}
	}
	if x := tableLow("hydroxide").look(t, "9 08:05"); x.TopUp(tableCharge).Reaches != chem.Surely || x.TopUp(1).Reaches != chem.Not {
		t.Error("a litre of hydroxide does not bring it back, and a charge does")
	}
}

// A rise lasts as long as the fall of late takes to eat it up.
func TestGainIsTheRiseOverTheFall(t *testing.T) {
	x := low().look(t, week(5, "08:05"))
	d, _ := x.Decide()
	fall := x.Trend.PerDay()
	near(t, "days of a top-up", *d.TopUp.GainDays, float64(d.TopUp.PH.Mid-9.60)/fall, 1e-9)
	near(t, "days of a refill", *d.Refill.GainDays, 0.5/fall, 1e-9)
	if once := tableFill("").look(t, "9 08:00"); once.Trend.Known() {
		t.Error("a date from one reading")
	} else if d, _ := once.Decide(); d.Refill.GainDays != nil {
		t.Errorf("a refill gains %.1f days, by one reading", *d.Refill.GainDays)
	}
}

// Money stands only where the station gave its prices; hours are its own, or
// ours from memory.
func TestWhatItCosts(t *testing.T) {
	priced := func(s bath.Setting) advise.Decision {
		d, err := low().add(week(5, "08:01"), &s).look(t, week(5, "08:05")).Decide()
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	soap, hour, refill := new(20.0), new(30.0), new(40.0)
	all := priced(bath.Setting{SoapPrice: soap, HourPrice: hour, RefillPrice: refill, TopupTime: units.Minutes(45), RefillTime: units.Minutes(180)})
	near(t, "a jug and 45 minutes", *all.TopUp.Cost, 20+0.75*30, 1e-9)
	near(t, "two jugs, 3 h, water and disposal", *all.Refill.Cost, 2*20+3*30+40, 1e-9)
	near(t, "a day of the top-up", *all.TopUp.PerDay, *all.TopUp.Cost / *all.TopUp.GainDays, 1e-9)
	near(t, "a day of the refill", *all.Refill.PerDay, *all.Refill.Cost / *all.Refill.GainDays, 1e-9)

	few := priced(bath.Setting{SoapPrice: soap, HourPrice: hour})
	near(t, "a jug and half an hour", *few.TopUp.Cost, 20+0.5*30, 1e-9)
	near(t, "two jugs and 2.5 h", *few.Refill.Cost, 2*20+2.5*30, 1e-9)
	for name, s := range map[string]bath.Setting{"nothing": {}, "soap alone": {SoapPrice: soap}, "work alone": {HourPrice: hour, RefillPrice: refill}} {
		if d := priced(s); d.TopUp.Cost != nil || d.Refill.Cost != nil || d.TopUp.PerDay != nil || reason(d, "cost") != "" {
			t.Errorf("%s: %+v, %+v", name, d.TopUp, d.Refill)
		}
	}
}

func TestDaysSay(t *testing.T) {
	for days, want := range map[float64]string{
		0: "less than a day", 0.49: "less than a day", 0.5: "about a day", 1.49: "about a day", 1.5: "about 2 days",
		20.4: "about 20 days", 20.6: "about 3 weeks", 24.4: "about 3 weeks", 24.6: "about 4 weeks", 70: "about 10 weeks",
	} {
		if got := advise.DaysSay(days); got != want {
			t.Errorf("%g: got %q, want %q", days, got, want)
		}
	}
}
