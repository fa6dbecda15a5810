package advise_test

import (
	"encoding/json"
	"errors"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestNothingToDecide(t *testing.T) {
	for name, b := range map[string]book{
		"never filled": setUp(),
		"drained":      low().add(week(5, "09:00"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}),
	} {
		x := b.look(t, week(5, "10:00"))
		d, err := x.Decide()
		if !errors.Is(err, advise.ErrNothingToDecide) || d.Choice != "" {
			t.Errorf("%s: got %+v, %v", name, d, err)
		}
		if err := x.Sign(&bath.Decision{Choice: drain}); !errors.Is(err, advise.ErrNothingToDecide) {
			t.Errorf("%s: signed, %v", name, err)
		}
	}
}

// Source: ruling of the trade: decide then says drain, and shows no top-up.
func TestAContaminatedBathShowsNoTopUp(t *testing.T) {
	b := low().add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldContaminated, Why: "asbestos"})
	d, err := b.look(t, week(5, "08:05")).Decide()
	if err != nil || d.Choice != drain || d.TopUp != nil || len(d.Flips) != 0 {
		t.Errorf("got %q, %+v, %q, %v", d.Choice, d.TopUp, d.Flips, err)
	}
	if got := reasons(d); !slices.Equal(got, []string{"contaminated", "disposal", "drop"}) {
		t.Errorf("got the reasons %v", got)
	}
}

// reasons are the ids of what a decision says, in order.
func reasons(d advise.Decision) (out []string) {
	for _, r := range d.Reasons {
		out = append(out, r.ID)
	}
	return out
}

// The weightiest is said first; the first that settles the choice decides.
func TestReasonsInOrder(t *testing.T) {
	oil := func(seen string) *bath.Reading {
		r := sample(9.58, 50, "M2")
		r.Oil = seen
		return r
	}
	bad := low().add(week(5, "08:01"), &bath.Setting{MostDays: new(30.0)}).
		add(week(5, "08:01"), &bath.Hold{Cause: bath.HoldFoil, Why: "worn"})
	tests := []struct {
		name   string
		book   book
		choice string
		want   []string
	}{
		{"kept", kept(), keep, []string{"drop"}},
		{"at the limit", low(), more, []string{"drop", "soap", "gain", "top-up", "disposal"}},
		{"all of it", bad.add(week(5, "08:02"), oil(bath.OilLayer)), drain, []string{"oil", "tag", "age", "meter", "drop", "soap", "gain", "top-up", "disposal"}},
		{"skimming comes last", low().add(week(5, "08:02"), oil(bath.OilDrops)), more, []string{"meter", "drop", "soap", "gain", "top-up", "oil", "disposal"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d, err := tt.book.look(t, week(5, "08:05")).Decide()
			if err != nil || d.Choice != tt.choice {
				t.Errorf("got %q, %v, want %q", d.Choice, err, tt.choice)
			}
			if diff := cmp.Diff(tt.want, reasons(d)); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
			if !slices.IsSortedFunc(d.Reasons, func(a, b advise.Reason) int { return int(1000 * (b.Weight - a.Weight)) }) {
				t.Errorf("not by weight: %+v", d.Reasons)
			}
		})
	}
}

// What is said to change the answer does.
func TestFlipsAreTrue(t *testing.T) {
	read := func(ph units.PH) bath.Body { return sample(ph, 50, "M1") }
	cold := kept().add("2 12:00", &bath.Reading{PH: 10.60, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true}).
		add(week(3, "07:30"), twoBuffers()).add(week(3, "08:00"), sample(10.32, 22, "M1"))
	odd := kept().add(week(3, "07:30"), twoBuffers()).add(week(3, "08:00"), hot(9.30))
	unsure := kept().add(week(3, "08:00"), sample(10.3, 12, "M2"))
	hopeless := tableLow("").add("9 08:01", &bath.Strike{Target: tableLow("").lastSeq(), Why: "typed wrong"}).add("9 08:02", sample(8.40, 50, "M1"))
	oily := sample(9.84, 50, "M1")
	oily.Oil = bath.OilLayer
	tests := []struct {
		name string
		book book
		flip string
		then bath.Body
		not  bath.Body // nearly so, and it does not
	}{
		{"kept", kept().add(week(3, "07:30"), twoBuffers()), "a reading of 9.60 or less", read(9.60), read(9.61)},
		{"kept by a cold reading, said of a hot one", cold, "a reading of 9.60 or less", read(9.60), read(9.61)},
		{"at the limit", low(), "a second reading of 9.61 or more", read(9.61), read(9.60)},
		{"odd", odd, "a second reading within 0.2 of it", read(9.50), read(9.80)},
		{"unknown", unsure, "a reading that can be compared", read(9.58), sample(10.3, 12, "M2")},
		{"soap went in", low().add(week(5, "08:01"), &bath.Dose{VolumeL: 1}), "a reading since the soap went in", read(9.58), nil},
		{"oil", kept().add(week(3, "08:00"), oily), "the oil skimmed off, and none back by the next day", read(9.84), nil},
		{"no soap would do", hopeless, "the soap type from its data sheet", &bath.Tank{Family: "hydroxide"}, &bath.Tank{Family: "buffered-carbonate"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			was, err := tt.book.look(t, week(5, "09:00")).Decide()
			if err != nil || !slices.Contains(was.Flips, tt.flip) {
				t.Fatalf("got %q, %v, want %q", was.Flips, err, tt.flip)
			}
			is, err := tt.book.add(week(5, "09:01"), tt.then).look(t, week(5, "09:02")).Decide()
			if err != nil || is.Choice == was.Choice {
				t.Errorf("still %q: %+v, %v", is.Choice, is.Reasons, err)
			}
			if tt.not == nil {
				return
			}
			if is, err := tt.book.add(week(5, "09:01"), tt.not).look(t, week(5, "09:02")).Decide(); err != nil || is.Choice != was.Choice {
				t.Errorf("what is not said changed it too, to %q: %+v, %v", is.Choice, is.Reasons, err)
			}
		})
	}
}

// A signed entry holds what was on the screen: the lines that it rests on, the
// drop with how sure it is, the reasons and the advice.
func TestSign(t *testing.T) {
	x := low().look(t, week(5, "08:05"))
	d, _ := x.Decide()
	signed := bath.Decision{Choice: more}
	if err := x.Sign(&signed); err != nil {
		t.Fatal(err)
	}
	want := bath.Decision{
		Choice: more, Advice: more, DoseL: new(units.Gallons(1)),
		Evidence: &bath.Evidence{
			Rests: []uint64{started().lastSeq(), low().lastSeq()},
			State: "at-limit", Drop: new(0.5), UDrop: new(x.PH.U), Limit: 0.5,
			Flips: []string{"a second reading of 9.61 or more"}, AdviseL: units.Gallons(1), GainDays: d.TopUp.GainDays, DueDays: new(x.Trend.Q50),
		},
	}
	for _, r := range d.Reasons {
		want.Evidence.Reasons = append(want.Evidence.Reasons, r.Say)
	}
	if diff := cmp.Diff(want, signed); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if _, err := json.Marshal(&signed); err != nil {
		t.Error(err)
	}
}

// A reading held against the cooled pair rests on the pair too.
func TestWhatADecisionRestsOn(t *testing.T) {
	cold := paired().add("9 08:00", sample(10.05, 22, "M1"))
	warm := paired().add("9 08:00", sample(9.55, 50, "M1"))
	pair, hot := paired().lastSeq(), started().lastSeq()
	for name, tt := range map[string]struct {
		book book
		want []uint64
	}{
		"no first reading":  {warmed(), nil},
		"the first alone":   {started(), []uint64{hot}},
		"hot against hot":   {warm, []uint64{hot, warm.lastSeq()}},
		"cold against cold": {cold, []uint64{hot, pair, cold.lastSeq()}},
	} {
		var signed bath.Decision
		if err := tt.book.look(t, "9 08:05").Sign(&signed); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(signed.Evidence.Rests, tt.want) {
			t.Errorf("%s: rests on %v, want %v", name, signed.Evidence.Rests, tt.want)
		}
	}
}

// Only a top-up takes the advised dose, and a typed one stays.
func TestTheDoseOfASignedDecision(t *testing.T) {
	x := low().look(t, week(5, "08:05"))
	for _, tt := range []struct{ typed, want bath.Decision }{
		{bath.Decision{Choice: more}, bath.Decision{DoseL: new(units.Gallons(1))}},
		{bath.Decision{Choice: more, DoseL: new(units.Volume(2))}, bath.Decision{DoseL: new(units.Volume(2))}},
		{bath.Decision{Choice: drain}, bath.Decision{}},
		{bath.Decision{Choice: keep}, bath.Decision{}},
	} {
		if err := x.Sign(&tt.typed); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(tt.want.DoseL, tt.typed.DoseL); diff != "" {
			t.Errorf("%s: -want +got:\n%s", tt.typed.Choice, diff)
		}
	}
}
