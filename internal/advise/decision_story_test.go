package advise_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// desk is where a station types in what it does: what advice knows is put in,
// the rules of entry are kept, and then it is in the book.
type desk struct {
	*testing.T
	book book
}

func (d *desk) try(when string, body bath.Body) (book, error) {
	d.Helper()
	x := d.book.look(d.T, when)
	if err := x.Complete(body); err != nil {
		return d.book, err
	}
	with := d.book.add(when, body)
	e := with[len(with)-1]
	e.Seq = 0
	return with, bath.Check(x.State, e, at(when))
}

func (d *desk) log(when string, body bath.Body) {
	d.Helper()
	with, err := d.try(when, body)
	if err != nil {
		d.Fatalf("%s: %v", when, err)
	}
	d.book = with
}

func (d *desk) refused(when string, body bath.Body, id string) {
	d.Helper()
	_, err := d.try(when, body)
	var r *bath.Refusal
	if !errors.As(err, &r) || r.ID != id {
		d.Errorf("%s: got %v, want the refusal %q", when, err, id)
	}
}

// answers compares the advice with what is expected, and looks for the words in
// what is said for it.
func (d *desk) answers(when, choice string, words ...string) {
	d.Helper()
	got, err := d.book.look(d.T, when).Decide()
	if err != nil || got.Choice != choice {
		d.Errorf("%s: got %q, %v, want %q", when, got.Choice, err, choice)
	}
	var said []string
	for _, r := range got.Reasons {
		said = append(said, r.Say)
	}
	for _, w := range words {
		if !strings.Contains(strings.Join(said, "\n"), w) {
			d.Errorf("%s: %q is not said in\n%s", when, w, strings.Join(said, "\n"))
		}
	}
}

// aWeek is a busy week up to the reading of the next Monday: five washes, the
// mark, and a calibration. All of it is invented.
func (d *desk) aWeek(n int, ph units.PH) {
	d.Helper()
	for i, when := range []string{week(n-1, "20:10"), week(n-1, "20:40"), week(n-1, "22:00"), week(n-1, "22:30"), week(n-1, "23:00")} {
		if i == 0 {
			d.log(week(n-1, "20:00"), &bath.Temp{BathC: 49, Heat: new(true)})
		}
		d.log(when, wash(49, bath.ResultClean))
	}
	d.log(week(n, "07:00"), looked(units.Gallons(2)))
	d.log(week(n, "07:30"), twoBuffers())
	d.log(week(n, "08:00"), sample(ph, 50, "M1"))
}

// Eight weeks of a busy station: kept, topped up once, drained. Each time the
// sentence says why.
func TestEightWeeksOfABusyStation(t *testing.T) {
	d := &desk{t, started().add(week(0, "11:00"), &bath.Setting{MostTopups: new(1)}).add(week(0, "11:00"), &bath.Tank{Family: "metasilicate"})}
	d.answers(week(0, "12:00"), keep, "no reading since the first; act at 0.50 down")

	d.aWeek(1, 9.98)
	d.answers(week(1, "08:05"), keep, "down 0.12 ± 0.07: real, not yet at the limit; act at 0.50; good for at least 2 weeks")
	d.aWeek(2, 9.87)
	d.answers(week(2, "08:05"), keep, "down 0.23 ± 0.07", "good for at least a week")
	d.aWeek(3, 9.77)
	d.answers(week(3, "08:05"), keep, "down 0.33 ± 0.07", "limit likely about 4 Apr, between Friday and 26 Apr")
	d.aWeek(4, 9.68)
	d.answers(week(4, "08:05"), keep, "down 0.42 ± 0.07", "limit likely about Saturday, between today and 17 Apr")
	d.aWeek(5, 9.58)
	d.answers(week(5, "08:05"), more, "down 0.52 ± 0.07", "more soap: about ", "would gain about ", "with 1.0 gal (1 jug) it would likely read 9.83 to 10.01")

	signed := d.signsTheTopUp()
	d.log(week(5, "09:00"), &bath.Dose{VolumeL: *signed.DoseL})
	d.answers(week(5, "09:05"), keep, "soap went in since the last reading: let it mix, read again, then decide")
	if got := ids(d.book.look(t, week(5, "09:05"))); slices.Contains(got, "top-up") || slices.Contains(got, "limit") {
		t.Errorf("poured, and still %v", got)
	}
	d.log(week(5, "11:00"), sample(9.80, 50, "M1"))
	d.answers(week(5, "11:05"), keep, "down 0.30 ± 0.07: real, not yet at the limit")

	d.aWeek(6, 9.73)
	d.answers(week(6, "08:05"), keep, "down 0.37 ± 0.07", "limit likely about ")
	d.aWeek(7, 9.65)
	d.answers(week(7, "08:05"), keep, "down 0.45 ± 0.07", "limit likely about ")
	d.aWeek(8, 9.55)
	d.answers(week(8, "08:05"), drain, "down 0.55 ± 0.07", "it was topped up once, and the station does so once at most")

	d.log(week(8, "08:10"), &bath.Decision{Choice: drain})
	if a := d.book.action(t, week(8, "08:15"), "drain"); a.Say != "Drain and refill" {
		t.Errorf("signed, and Next says %+v", a)
	}
}

// signsTheTopUp signs what is advised at week 5, and tries what is not to be.
func (d *desk) signsTheTopUp() *bath.Decision {
	d.Helper()
	when := week(5, "08:10")
	d.refused(when, &bath.Decision{Choice: drain}, "why")
	d.refused(when, &bath.Decision{Choice: keep}, "why")
	d.refused(when, &bath.Decision{Choice: drain, DoseL: new(units.Volume(1)), Why: "hauler comes"}, "input")
	if _, err := d.try(when, &bath.Decision{Choice: drain, Why: "hauler comes tomorrow"}); err != nil {
		d.Errorf("with its why: %v", err)
	}
	x := d.book.look(d.T, when)
	signed := &bath.Decision{Choice: more}
	d.log(when, signed)
	e := signed.Evidence
	want := []uint64{x.PH.First.Seq, x.PH.Last.Seq}
	if diff := cmp.Diff(want, e.Rests); diff != "" || e.State != "at-limit" || *e.Drop != 0.52 || *e.UDrop != x.PH.U || signed.Advice != more || *signed.DoseL != units.Gallons(1) {
		d.Errorf("the signed entry holds %+v, advice %q, dose %v; rests -want +got:\n%s", e, signed.Advice, signed.DoseL, diff)
	}
	if len(e.Reasons) < 4 || !strings.HasPrefix(e.Reasons[0], "down 0.52 ± 0.07") || len(e.Flips) == 0 || e.GainDays == nil || e.DueDays == nil {
		d.Errorf("its reasons are %q, its flips %q", e.Reasons, e.Flips)
	}
	if a := d.book.action(d.T, when, "top-up"); a.Say != "Top up with 1.0 gal (1 jug)" {
		d.Errorf("Next says %+v", a)
	}
	d.struckEvidence(x.PH.Last.Seq)
	return signed
}

// struckEvidence crosses out the reading that the decision rests on, in a copy of
// the book.
func (d *desk) struckEvidence(line uint64) {
	d.Helper()
	copy := d.book.struck(week(5, "08:20"), line)
	x := copy.look(d.T, week(5, "08:25"))
	if _, shaken, ok := x.Decided(); !ok || !shaken {
		d.Errorf("line %d is crossed out, and the decision stands: %v", line, shaken)
	}
	got := ids(x)
	if !slices.Contains(got, "decide-again") || slices.Contains(got, "top-up") {
		d.Errorf("Next says %v", got)
	}
	if again, err := x.Decide(); err != nil || again.Choice != keep || x.PH.State != advise.PHWatch {
		d.Errorf("without it the advice is %q, %v", again.Choice, err)
	}
}
