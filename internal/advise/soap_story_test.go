package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
	"bathside/internal/units"
)

// tableFill is the bath of dosing_summary.csv: 227 L with 1 part of soap to 30
// of water, which reads 10.10 at 50 °C by a calibrated meter.
func tableFill(family string) book {
	return book{}.
		add("1 09:00", &bath.Member{Name: "Kim Vale", Role: bath.Officer}).
		add("1 09:00", &bath.Setting{Zone: "America/Denver", Shift: "24/48@07:00", Units: "si"}).
		add("1 09:00", &bath.Tank{VolumeL: 227, Ratio: 30, Family: family, Product: "alkaline liquid"}).
		add("2 08:00", &bath.Fill{VolumeL: 227}).
		add("2 08:10", &bath.Dose{VolumeL: tableCharge}).
		add("2 09:50", twoBuffers()).
		add("2 10:30", first(10.10))
}

const tableCharge = units.Volume(227) / 31

// tableLow is the same a week later, down to 9.60.
func tableLow(family string) book { return lowered(tableFill(family)) }

func lowered(b book) book {
	return b.add("9 07:00", twoBuffers()).add("9 08:00", sample(9.60, 50, "M1"))
}

// tableSoap is a line of dosing_summary.csv at 50 °C.
func tableSoap(t *testing.T, family string) (table, map[string]string) {
	ref := readChem(t, "dosing_summary.csv")
	return ref, ref.line(t, map[string]string{"family": family, "t_C": "50.0"})
}

const (
	bufferedLine = "carbonate+bicarbonate, 0.02 total C"
	metaLine     = "Na2SiO3 (meta) only"
	sodaLine     = "Na2CO3 only"
	wholeCharge  = "pH_after_one_whole_charge(7.32L)"
	toRestore    = "litres_to_full_restore"
)

// limitWhy is why the crew is told of the limit.
func limitWhy(t *testing.T, x *advise.Snapshot) string {
	t.Helper()
	for _, a := range x.Next {
		if a.ID == "limit" {
			return a.Why
		}
	}
	t.Fatalf("nothing is said of the limit: %v", ids(x))
	return ""
}

// Source: testdata/chem/dosing_summary.csv: a whole charge takes the bath from
// 9.60 to 9.83, and no amount takes it to 10.10.
func TestABufferedBathCannotBeBroughtBack(t *testing.T) {
	ref, line := tableSoap(t, bufferedLine)
	x := tableLow("buffered-carbonate").look(t, "9 08:05")
	if line[toRestore] != ">200/unreachable" || x.Soap.Reaches != chem.Not {
		t.Errorf("reaches %v, the table says %s", x.Soap.Reaches, line[toRestore])
	}
	near(t, "with a whole charge", float64(x.Soap.Full.Mid), ref.number(t, line, wholeCharge), 0.015)
	const want = "down 0.50, act at 0.50; more soap: a full charge would reach only about 9.82: drain and refill; if it is the same, tell the gear officer"
	if got := limitWhy(t, x); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Source: the same table: 6.86 L of 7.32 bring it back.
func TestAMetasilicateBathIsToldHowManyLitres(t *testing.T) {
	ref, line := tableSoap(t, metaLine)
	x := tableLow("metasilicate").look(t, "9 08:05")
	litres := ref.number(t, line, toRestore)
	near(t, "litres", float64(x.Soap.Litres.Mid), litres, 0.03*litres)
	near(t, "with a whole charge", float64(x.Soap.Full.Mid), ref.number(t, line, wholeCharge), 0.015)
	near(t, "a whole charge", float64(x.Soap.Charge), 7.32, 0.005)
	const want = "down 0.50, act at 0.50; more soap: about 6.9 L would likely bring it to 10.10 (5.0 L may, a full charge of 7.3 L may not); if it is the same, tell the gear officer"
	if got := limitWhy(t, x); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Source: the same table: soda ash would take 10.3 L, more than a whole charge.
func TestASodaAshBathMayNotComeBack(t *testing.T) {
	ref, line := tableSoap(t, sodaLine)
	x := tableLow("soda-ash").look(t, "9 08:05")
	if need := ref.number(t, line, toRestore); need <= float64(x.Soap.Charge) || x.Soap.Reaches != chem.Perhaps {
		t.Errorf("the table asks for %.1f L of %.1f, got %v", need, float64(x.Soap.Charge), x.Soap.Reaches)
	}
	near(t, "with a whole charge", float64(x.Soap.Full.Mid), ref.number(t, line, wholeCharge), 0.015)
	if got, want := limitWhy(t, x), "perhaps 6.4 L or more would bring it to 10.10; a full charge of 7.3 L would reach about 10.02;"; !strings.Contains(got, want) {
		t.Errorf("got %q, want %q in it", got, want)
	}
}

// Source: the same table, at 50 °C: with a whole charge the soaps of it lie from
// 9.80 to 10.20. Nobody who does not know which it is gets one number.
func TestAnUnknownSoapGetsARange(t *testing.T) {
	x := tableLow("unknown").look(t, "9 08:05")
	full, soap := x.Soap.Full, x.Soap
	if soap.Reaches != chem.Perhaps || full.High-full.Low < 0.3 || soap.Litres.Low >= soap.Litres.High {
		t.Errorf("got %v, %+v, %+v", soap.Reaches, soap.Litres, full)
	}
	ref := readChem(t, "dosing_summary.csv")
	inside := 0
	for _, line := range ref.lines {
		if ph := units.PH(ref.number(t, line, wholeCharge)); line["t_C"] == "50.0" && ph >= full.Low && ph <= full.High {
			inside++
		}
	}
	if inside != 11 {
		t.Errorf("%d of 11 soaps lie within %.2f to %.2f", inside, float64(full.Low), float64(full.High))
	}
	if got, want := limitWhy(t, x), "more soap: perhaps 5.2 L or more would bring it to 10.10; a full charge of 7.3 L would reach 9.78 to 10.20;"; !strings.Contains(got, want) {
		t.Errorf("got %q, want %q in it", got, want)
	}
	if strings.Contains(limitWhy(t, x), "about") {
		t.Errorf("one number: %q", limitWhy(t, x))
	}
}

// Source: the same table, dpH_first_litre_on_bath_0.5_low. What a dose would do
// is said before it is poured.
func TestWhatALitreWouldDo(t *testing.T) {
	for family, name := range map[string]string{"buffered-carbonate": bufferedLine, "metasilicate": metaLine, "soda-ash": sodaLine} {
		ref, line := tableSoap(t, name)
		x := tableLow(family).look(t, "9 08:05")
		after, err := x.Soap.After(1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, family, float64(after.Mid)-9.60, ref.number(t, line, "dpH_first_litre_on_bath_0.5_low"), 0.015)
		if say := x.PreviewBody(&bath.Dose{VolumeL: 1}); !strings.Contains(say, " Then it would likely read 9.") || !strings.Contains(say, " at 50 °C.") {
			t.Errorf("%s: %q", family, say)
		}
	}
}
