package advise_test

import (
	"math"
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// month is a time of a month before the fill of March.
func month(n int, day string) string {
	return [...]string{"2025-08-", "2025-09-", "2025-10-", "2025-11-", "2025-12-", "2026-01-", "2026-02-"}[n] + day
}

// toppedUp has fills of the table's bath before that of March, each down to 9.60
// and topped up with a whole charge, which took it to after.
func toppedUp(fills int, after units.PH) book {
	b := tableFill("")[:3]
	for n := 7 - fills; n < 7; n++ {
		b = b.add(month(n, "02 08:00"), &bath.Fill{VolumeL: 227}).
			add(month(n, "02 08:10"), &bath.Dose{VolumeL: tableCharge}).
			add(month(n, "02 10:30"), first(10.10)).
			add(month(n, "12 08:00"), sample(9.60, 50, "M1")).
			add(month(n, "12 09:00"), &bath.Dose{VolumeL: tableCharge}).
			add(month(n, "12 12:00"), sample(after, 50, "M1")).
			add(month(n, "20 08:00"), &bath.Drain{VolumeL: 227, Route: bath.RouteHauler})
	}
	return b
}

// march opens the fill of March and lets it come down to 9.60.
func (b book) march() book {
	for _, e := range tableFill("")[3:] {
		b = b.add(e.At.In(denver).Format("2006-01-02 15:04"), e.Body)
	}
	return lowered(b)
}

// Source: testdata/chem/dosing_summary.csv, pH_after_one_whole_charge: what the
// top-ups did is what the table has of metasilicate, or of buffered carbonate.
// From them alone the console learns what a whole charge would do, and becomes
// surer.
func TestTopUpsTeachWhatTheSoapDoes(t *testing.T) {
	untaught := wide(tableLow("unknown").soapAt(t, "9 08:05"))
	for _, name := range []string{metaLine, bufferedLine} {
		ref, line := tableSoap(t, name)
		truth := ref.number(t, line, wholeCharge)
		last := untaught
		for _, fills := range []int{1, 2, 4, 7} {
			o := toppedUp(fills, units.PH(truth)).march().soapAt(t, "9 08:05")
			if o.Learned != fills {
				t.Errorf("%s: learned from %d of %d", name, o.Learned, fills)
			}
			if wide(o) > last+0.005 {
				t.Errorf("%s: after %d top-ups a whole charge is good to %.3f, and was to %.3f", name, fills, wide(o), last)
			}
			last = wide(o)
			near(t, name+", with a whole charge", float64(o.Full.Mid), truth, 0.08/math.Sqrt(float64(fills))+0.01)
		}
		if last > untaught/2+0.05 {
			t.Errorf("%s: after 7 top-ups a whole charge is good to %.3f, and was to %.3f", name, last, untaught)
		}
	}
}

// More than twelve tell little.
func TestOnlyTheLastTopUpsTeach(t *testing.T) {
	b := tableFill("")
	for day := 3; day < 9; day++ {
		for _, hour := range []string{"08", "10", "12"} {
			d := string(rune('0'+day)) + " " + hour
			b = b.add(d+":00", sample(9.60, 50, "M1")).
				add(d+":30", &bath.Dose{VolumeL: 0.5}).
				add(d+":40", sample(9.65, 50, "M1"))
		}
	}
	if o := lowered(b).soapAt(t, "9 08:05"); o.Learned != 12 {
		t.Errorf("learned from %d of 18, want 12", o.Learned)
	}
}

// A fill that is summed up keeps the name of its soap: another product's top-ups
// say nothing of this one.
func TestAnotherProductTeachesNothing(t *testing.T) {
	past := func(product string) bath.Summary {
		return bath.Summary{
			VolumeL: 227, Product: product, FirstL: tableCharge, First: &bath.Read{PH: 10.10, SampleC: 50},
			Poured: []bath.Poured{{AddedL: tableCharge, Charged: 1, Before: bath.Read{PH: 9.60, SampleC: 50}, After: bath.Read{PH: 10.12, SampleC: 50}}},
		}
	}
	for product, want := range map[string]int{"alkaline liquid": 1, "another": 0, "": 0} {
		s, err := bath.Fold(tableLow(""))
		if err != nil {
			t.Fatal(err)
		}
		s.Baths[0].Past = []bath.Summary{past(product)}
		x, err := advise.Assess(s, "main", at("9 08:05"))
		if err != nil || x.Soap == nil || x.Soap.Learned != want {
			t.Errorf("%q: %v, want %d learned", product, err, want)
		}
	}
}

// What a reading in doubt says of a top-up is not believed, in this fill or in
// the one before.
func TestADoubtedReadingBesideATopUpTeachesNothing(t *testing.T) {
	this := func(check *bath.Calibration) book {
		return lowered(tableFill("").
			add("3 08:00", sample(9.60, 50, "M1")).
			add("3 08:30", &bath.Dose{VolumeL: 3}).
			add("3 09:00", check).
			add("3 09:30", sample(9.85, 50, "M1")))
	}
	before := func(check *bath.Calibration) book {
		b := toppedUp(1, 10.12)
		return b.add(month(6, "12 10:00"), check).march()
	}
	for name, fill := range map[string]func(*bath.Calibration) book{"this fill": this, "the fill before": before} {
		if o := fill(dip(10.02)).soapAt(t, "9 08:05"); o.Learned != 1 {
			t.Errorf("%s: learned from %d, want 1", name, o.Learned)
		}
		if o := fill(dip(10.20)).soapAt(t, "9 08:05"); o.Learned != 0 {
			t.Errorf("%s: learned from %d beside a meter that had failed", name, o.Learned)
		}
	}
}

// Source: testdata/chem/temperature_shift_by_family.csv: what metasilicate and
// carbonate with bicarbonate, 0.03 C, that read 10.10 at 50 °C read at 25 °C;
// dosing_summary.csv: what a whole charge does to metasilicate and to the like,
// 0.02 C. The pair tells a steep soap from a flat one.
func TestThePairTellsWhatTheSoapDoes(t *testing.T) {
	plain := tableLow("unknown").soapAt(t, "9 08:05")
	shifts := readChem(t, "temperature_shift_by_family.csv")
	for family, name := range map[string]string{"metasilicate Na2SiO3": metaLine, "carbonate/bicarbonate 0.03 C": bufferedLine} {
		cold := shifts.line(t, map[string]string{"family": family, "t_measured_C": "50", "pH_measured": "10.1"})
		ref, line := tableSoap(t, name)
		o := lowered(tableFill("unknown").add("2 12:00", &bath.Reading{
			PH: units.PH(shifts.number(t, cold, "pH_25")), SampleC: 25, Meter: "M1", Baseline: true, Cooled: true,
		})).soapAt(t, "9 08:05")
		if o.Learned != 1 || wide(o) > 0.8*wide(plain) {
			t.Errorf("%s: learned from %d, a whole charge is good to %.2f, and was to %.2f", family, o.Learned, wide(o), wide(plain))
		}
		near(t, family+", with a whole charge", float64(o.Full.Mid), ref.number(t, line, wholeCharge), 0.06)
	}
}

// drops is a drop test of 100 mL with 0.1 N acid: as many mL as thousandths of
// an equivalent to the litre.
func drops(p, total float64) *bath.Titration {
	t := &bath.Titration{SampleL: 0.1, AcidN: 0.1, To83L: bath.Burette(units.Volume(p / 1000))}
	if total > 0 {
		t.To45L = new(bath.Burette(units.Volume(total / 1000)))
	}
	return t
}

// Source: testdata/chem/dosing_summary.csv: carbonate with bicarbonate that reads
// 10.10 at 50 °C is Na 0.03272 with C 0.02000, of which acid to 4.5 takes the Na,
// and to 8.3 what is left of it beyond the C.
func TestADropTestTellsWhatTheSoapDoes(t *testing.T) {
	ref, line := tableSoap(t, bufferedLine)
	if got := line["bath_composition_molal"]; got != "Na=0.03272 C=0.02000" {
		t.Fatalf("the table has %s", got)
	}
	plain := tableLow("unknown").soapAt(t, "9 08:05")
	fresh := drops(12.72, 32.72)
	tests := []struct {
		name    string
		book    book
		told    bool
		learned int
	}{
		{"beside the first reading", tableFill("unknown").add("2 11:00", fresh), true, 1},
		{"two days after it", tableFill("unknown").add("4 10:30", fresh), true, 1},
		{"too long after it", tableFill("unknown").add("4 10:31", fresh), false, 0},
		{"soap between, which is a top-up", tableFill("unknown").add("2 10:40", &bath.Dose{VolumeL: 0.5}).add("2 11:00", fresh), false, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := lowered(tt.book).soapAt(t, "9 08:05")
			if o.Learned != tt.learned {
				t.Fatalf("learned from %d, want %d", o.Learned, tt.learned)
			}
			if narrower := wide(o) <= 0.8*wide(plain); narrower != tt.told {
				t.Errorf("a whole charge is good to %.2f, and was to %.2f", wide(o), wide(plain))
			}
			if tt.told {
				near(t, "with a whole charge", float64(o.Full.Mid), ref.number(t, line, wholeCharge), 0.03)
			}
		})
	}
}

// Source: formulators' practice: of a charge the part that is gone of the
// alkalinity. A fifth of a charge between it and the pH is worth a word
// (judgement). The charge is 7.32 L; to 10.10 pH asks for 6.88 L, see above.
func TestTheDropTestAsksForSoap(t *testing.T) {
	const more, less = "the drop test asks for more soap than pH", "pH asks for more soap than the drop test"
	fresh := tableFill("metasilicate").add("2 11:00", drops(1.2, 0))
	low := lowered(fresh)
	tests := []struct {
		name     string
		book     book
		recharge float64 // litres; below 0 for none
		disagree string
	}{
		{"one test", low, -1, ""},
		{"nothing is gone", low.add("9 08:01", drops(1.2, 0)), 0, less},
		{"half is gone", low.add("9 08:01", drops(0.6, 0)), float64(tableCharge) / 2, less},
		{"nine tenths are gone", low.add("9 08:01", drops(0.12, 0)), 0.9 * float64(tableCharge), ""},
		{"long before the last reading", lowered(fresh.add("5 08:00", drops(0.6, 0))), float64(tableCharge) / 2, ""},
		{"soap since the last test", lowered(fresh.add("8 08:00", drops(0.6, 0)).add("8 09:00", &bath.Dose{VolumeL: 3})), -1, ""},
		{"nearly all is gone, and pH asks for little", fresh.add("9 07:00", twoBuffers()).add("9 08:00", sample(9.80, 50, "M1")).add("9 08:01", drops(0.02, 0)), 7.2, more},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := tt.book.soapAt(t, "9 08:05")
			if (o.Recharge == nil) != (tt.recharge < 0) {
				t.Fatalf("asks for %v", o.Recharge)
			}
			if o.Recharge != nil {
				near(t, "litres", float64(*o.Recharge), tt.recharge, 0.01)
			}
			if !strings.HasPrefix(o.Disagree, tt.disagree) || tt.disagree == "" && o.Disagree != "" {
				t.Errorf("pH asks for %.2f L: %q, want %q", float64(o.Litres.Mid), o.Disagree, tt.disagree)
			}
		})
	}
	if o := low.soapAt(t, "9 08:05"); o.Reaches != chem.Perhaps {
		t.Errorf("got %v", o.Reaches)
	}
}

// A drop test after a top-up finds the soap of both. Twice as much metasilicate
// as at 10.10 reads 10.36 at 50 °C: testdata/chem/dosing_summary.csv has 0.0006
// of it, and chemistry of the trade 2.68 e-folds of it for one pH.
func TestADropTestReckonsWithTheSoapBefore(t *testing.T) {
	topUp := func(b book) book {
		return b.add("3 08:00", &bath.Dose{VolumeL: tableCharge}).add("3 09:00", sample(10.36, 50, "M1"))
	}
	once := lowered(topUp(tableFill("metasilicate").add("2 11:00", drops(1.18, 1.20)))).soapAt(t, "9 08:05")
	twice := lowered(topUp(tableFill("metasilicate")).add("3 09:30", drops(2.36, 2.40))).soapAt(t, "9 08:05")
	if once.Learned != 2 || twice.Learned != 2 {
		t.Fatalf("learned from %d and %d, want 2", once.Learned, twice.Learned)
	}
	near(t, "with a whole charge", float64(twice.Full.Mid), float64(once.Full.Mid), 0.01)
	near(t, "how sure", wide(twice), wide(once), 0.01)
}
