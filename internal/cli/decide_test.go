package cli

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/chem"
)

// A dose that only may bring the bath back is not said to.
func TestOnlyASureDoseReachesTheFirstReading(t *testing.T) {
	x := &advise.Snapshot{Bath: &bath.Bath{ID: "main"}}
	for _, c := range []struct {
		reaches chem.Chance
		want    bool
	}{
		{chem.Not, false}, {chem.Perhaps, false}, {chem.Surely, true},
	} {
		got := newDecideAnswer(x, advise.Decision{TopUp: &advise.TopUp{Reaches: c.reaches}}, nil)
		if got.TopUp.Reaches != c.want {
			t.Errorf("%s: got %t, want %t", c.reaches, got.TopUp.Reaches, c.want)
		}
	}
}

// The dose that was asked about takes the place of the advised one, which may
// be none.
func TestTheDoseAskedAboutIsAnswered(t *testing.T) {
	x := &advise.Snapshot{Bath: &bath.Bath{ID: "main"}}
	for _, advised := range []*advise.TopUp{nil, {DoseL: 4}} {
		got := newDecideAnswer(x, advise.Decision{TopUp: advised}, &advise.TopUp{DoseL: 2})
		if got.TopUp == nil || got.TopUp.DoseL != 2 {
			t.Errorf("advised %v: got %+v, want 2 L", advised, got.TopUp)
		}
	}
}
