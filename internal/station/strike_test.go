package station_test

import (
	"testing"

	"bathside/internal/bath"
	"bathside/internal/station"
	"bathside/internal/units"
)

func TestCrossingOutIsCheckedAgainstTheLineItself(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, service()...)
	strike := func(by string, target uint64) error {
		_, err := s.Record(station.Draft{By: by, Body: &bath.Strike{Target: target, Why: "wrong"}})
		return err
	}
	for _, tt := range []struct {
		name   string
		target uint64
		by, id string
	}{
		{"no line 0", 0, officer, "no-line"},
		{"not yet written", 10, officer, "no-line"},
		{"another's line", 8, crew, "role"},
		{"soap that the first reading rests on", 7, officer, "rests"},
		{"a member", 3, officer, "input"},
	} {
		checkRefused(t, tt.name, strike(tt.by, tt.target), tt.id)
	}
	if err := strike(crew, 9); err != nil {
		t.Error(err)
	}
	checkRefused(t, "crossed out already", strike(officer, 9), "struck")
}

// Crossing out a line that the state does not hold by itself folds the log
// book again, in the one that wrote it and in every other.
func TestCrossingOutWithAWholeFold(t *testing.T) {
	path := newFile(t)
	s, other := open(t, path), open(t, path)
	write(t, s, service()...)
	write(t, s, station.Draft{By: crew, Body: &bath.Filter{Time: units.Hours(10)}}, station.Draft{By: crew, Body: &bath.Hold{Cause: bath.HoldLeak, Why: "other bath"}})
	if st := stateOf(t, other); st.Baths[0].Tag == nil {
		t.Fatal("the tag is not seen")
	}
	write(t, s, station.Draft{By: crew, Body: &bath.Strike{Target: 10, Why: "x"}}, station.Draft{By: crew, Body: &bath.Strike{Target: 11, Why: "x"}})
	for _, st := range []*bath.State{stateOf(t, s), stateOf(t, other)} {
		if b := st.Baths[0]; b.Tag != nil || b.FilterS[0] != 0 || st.Seq != 13 {
			t.Errorf("got tag %v, %v s of filter, %d lines", b.Tag, b.FilterS[0], st.Seq)
		}
	}
}

// A correction cannot lose the limits of the catalog or the marks of what is
// outside the rule, and gets rid of them where they were wrong.
func TestACorrectionIsMarkedLikeTheLine(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, service()...)
	write(t, s, station.Draft{By: keyHolder, Body: &bath.Wash{Items: []bath.Load{{Item: "mask", Count: 2}}, Soil: "normal", Time: units.Minutes(40), BathC: 42, Result: bath.ResultClean}})
	correct := func(instead string) *bath.Wash {
		write(t, s, station.Draft{By: officer, Body: &bath.Strike{Target: 10, Why: "typed wrong", Instead: []byte(instead)}})
		l, _ := stateOf(t, s).Baths[0].Life()
		return bath.Of[*bath.Wash](l.Entries)[0].Is
	}
	if w := correct(`{"items":[{"item":"mask","count":2}],"soil":"normal","time_s":2400,"bath_c":42,"result":"again"}`); len(w.Outside) != 1 || w.Items[0].Limit != "110 F" {
		t.Errorf("still 40 minutes: marked %q, %+v", w.Outside, w.Items)
	}
	if w := correct(`{"items":[{"item":"mask","count":2}],"soil":"normal","time_s":240,"bath_c":42,"result":"clean","outside":["x"]}`); len(w.Outside) != 0 {
		t.Errorf("4 minutes: still marked %q", w.Outside)
	}
}
