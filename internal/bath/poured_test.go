package bath_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

const aDay = 24 * time.Hour

func (b *book) read(ph units.PH, meter string) bath.Entry {
	b.t.Helper()
	return b.log(crew, &bath.Reading{PH: ph, SampleC: 50, Meter: meter})
}

// pour is a top-up of half a gallon, a quarter of the first dose of begun.
func (b *book) pour() bath.Entry {
	b.t.Helper()
	return b.log(crew, &bath.Dose{VolumeL: units.Gallons(0.5)})
}

// What a top-up did is known where a reading stands on either side of it, near
// enough, with no other soap between.
func TestPoured(t *testing.T) {
	type pair struct{ Before, After units.PH }
	tests := []struct {
		name string
		days func(*book) // from the first reading on, 10.10
		want []pair
	}{
		{"nothing poured", func(b *book) { b.read(9.8, "M1") }, nil},
		{"read, poured, read", func(b *book) { b.wait(aDay).read(9.8, "M1"); b.pour(); b.read(9.9, "M1") }, []pair{{9.8, 9.9}}},
		{"the nearest readings count", func(b *book) {
			b.read(9.9, "M1")
			b.read(9.8, "M1")
			b.pour()
			b.read(9.9, "M1")
			b.read(9.7, "M1")
		}, []pair{{9.8, 9.9}}},
		{"twice", func(b *book) {
			b.read(9.8, "M1")
			b.pour()
			b.wait(aDay).read(9.9, "M1")
			b.pour()
			b.read(9.95, "M1")
		}, []pair{{9.8, 9.9}, {9.9, 9.95}}},
		{"not read after", func(b *book) { b.read(9.8, "M1"); b.pour() }, nil},
		{"two in a row", func(b *book) { b.read(9.8, "M1"); b.pour(); b.pour(); b.read(9.9, "M1") }, nil},
		{"two in a row, then one told", func(b *book) {
			b.read(9.8, "M1")
			b.pour()
			b.pour()
			b.read(9.9, "M1")
			b.pour()
			b.read(9.95, "M1")
		}, []pair{{9.9, 9.95}}},
		{"read 8 days before", func(b *book) { b.read(9.8, "M1"); b.wait(8*aDay - time.Minute).pour(); b.read(9.9, "M1") }, []pair{{9.8, 9.9}}},
		{"read more than 8 days before", func(b *book) { b.read(9.8, "M1"); b.wait(8 * aDay).pour(); b.read(9.9, "M1") }, nil},
		{"read 8 days after", func(b *book) { b.read(9.8, "M1"); b.pour(); b.wait(8*aDay-time.Minute).read(9.9, "M1") }, []pair{{9.8, 9.9}}},
		{"read more than 8 days after", func(b *book) { b.read(9.8, "M1"); b.pour(); b.wait(8*aDay).read(9.9, "M1") }, nil},
		{"strips before", func(b *book) { b.wait(9*aDay).read(9.5, "strips"); b.pour(); b.read(9.9, "M1") }, nil},
		{"strips after", func(b *book) {
			b.read(9.8, "M1")
			b.pour()
			b.read(10, "strip")
			b.wait(9*aDay).read(9.9, "M1")
		}, nil},
		{"strips beside meters", func(b *book) {
			b.read(9.8, "M1")
			b.read(9.5, "strips")
			b.pour()
			b.read(10, "strips")
			b.read(9.9, "M1")
		}, []pair{{9.8, 9.9}}},
		{"the reading before was crossed out", func(b *book) {
			b.wait(9 * aDay)
			e := b.read(9.8, "M1")
			b.pour()
			b.read(9.9, "M1")
			b.mustStrike(e)
		}, nil},
		{"the reading after was crossed out", func(b *book) {
			b.read(9.8, "M1")
			b.pour()
			e := b.read(10.9, "M1")
			b.read(9.9, "M1")
			b.mustStrike(e)
		}, []pair{{9.8, 9.9}}},
		{"the top-up was crossed out", func(b *book) { b.read(9.8, "M1"); e := b.pour(); b.read(9.9, "M1"); b.mustStrike(e) }, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := begun(t)
			tt.days(b)
			var got []pair
			for _, x := range b.life().Poured() {
				got = append(got, pair{x.Before.PH, x.After.PH})
				near(t, "litres added", float64(x.AddedL), float64(units.Gallons(0.5)), 1e-9)
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func (b *book) mustStrike(e bath.Entry) {
	b.t.Helper()
	if err := b.strike(officer, e, nil); err != nil {
		b.t.Fatal(err)
	}
}

// What the soap does to plain water is another thing than a top-up, and would
// be learned from as one.
func TestTheFirstDoseIsNoTopUp(t *testing.T) {
	b := newBook(t)
	b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	b.read(7.6, "M1")
	b.log(crew, &bath.Dose{VolumeL: units.Gallons(2)})
	b.read(10.1, "M1")
	if got := b.life().Poured(); len(got) != 0 {
		t.Errorf("got %+v, want none", got)
	}
}

// Charged is the soap in the bath before, over the first dose: what was poured
// since, less what carry-out took. 6 of 60 gallons made up take a tenth of it.
func TestPouredKnowsHowMuchSoapThereWas(t *testing.T) {
	b := begun(t)
	b.pour()
	b.read(10, "M1")
	b.log(crew, &bath.Water{VolumeL: units.Gallons(6), Cause: bath.CauseCarryOut})
	before := b.read(9.8, "M1")
	at := b.pour()
	after := b.read(9.9, "M1")
	got := b.life().Poured()
	if len(got) != 2 {
		t.Fatalf("got %d top-ups, want 2", len(got))
	}
	near(t, "first, of the first dose", got[0].Charged, 1, 1e-9)
	near(t, "second, of the first dose", got[1].Charged, 1.25*0.9, 1e-9)
	want := bath.Poured{
		At: at.At, AddedL: units.Gallons(0.5), Charged: got[1].Charged,
		Before: bath.Read{Seq: before.Seq, At: before.At, PH: 9.8, SampleC: 50, Meter: "M1"}, After: bath.Read{Seq: after.Seq, At: after.At, PH: 9.9, SampleC: 50, Meter: "M1"},
	}
	if diff := cmp.Diff(want, got[1]); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// A fill that is long over is summed up with what its top-ups told.
func TestASummedUpFillKeepsItsTopUps(t *testing.T) {
	b := begun(t)
	b.read(9.8, "M1")
	b.pour()
	b.read(9.9, "M1")
	want := b.life().Poured()
	for range 2 {
		b.log(officer, &bath.Drain{VolumeL: units.Gallons(60), Route: bath.RouteHauler})
		b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
	}
	past := b.bath().Past
	if len(past) != 1 {
		t.Fatalf("%d fills are summed up, want 1", len(past))
	}
	s := past[0]
	if diff := cmp.Diff(want, s.Poured); diff != "" || len(want) != 1 {
		t.Errorf("(-want +got)\n%s", diff)
	}
	if s.Product != "soap" || s.FirstL != units.Gallons(2) || s.First == nil || s.First.PH != 10.10 || s.First.SampleC != 50 {
		t.Errorf("got product %q, first dose %v, first reading %+v", s.Product, s.FirstL, s.First)
	}
}
