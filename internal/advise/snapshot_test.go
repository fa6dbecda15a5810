package advise_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestAssessRefuses(t *testing.T) {
	one, err := bath.Fold(setUp())
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name  string
		state *bath.State
		id    string
		want  string // id of the refusal
	}{
		{"an empty station", bath.NewState(), "", "no-bath"},
		{"an unknown bath", one, "spare", "bath"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x, err := advise.Assess(tt.state, tt.id, at("2 07:00"))
			var r *bath.Refusal
			if x != nil || !errors.As(err, &r) || r.ID != tt.want {
				t.Errorf("got %v, %v; want the refusal %q", x, err, tt.want)
			}
		})
	}
	if x, err := advise.Assess(one, "", at("2 07:00")); err != nil || x.Bath.ID != "main" {
		t.Errorf("no id: got %v, %v; want the first bath", x, err)
	}
}

func TestNowIsInTheZoneOfTheStation(t *testing.T) {
	s, err := bath.Fold(setUp())
	if err != nil {
		t.Fatal(err)
	}
	x, err := advise.Assess(s, "", at("9 07:00").UTC())
	if err != nil {
		t.Fatal(err)
	}
	if got := x.Now.Format("15:04 MST"); got != "07:00 MDT" {
		t.Errorf("got %s, want 07:00 MDT", got)
	}
	if !x.Shift.Start.Equal(at("9 07:00")) {
		t.Errorf("the shift began %v, want %v", x.Shift.Start, at("9 07:00"))
	}
}

// A wash is measured before its start, so it is a measurement of the bath; of
// the heater it says nothing.
func TestTemp(t *testing.T) {
	on := true
	cool := inService().add("3 08:00", &bath.Temp{BathC: 45, Heat: &on})
	washed := cool.add("3 09:00", wash(48, bath.ResultClean))
	tests := []struct {
		name string
		book book
		want *advise.Temp
	}{
		{"never filled", setUp(), nil},
		{"not measured", dosed(), nil},
		{"measured", cool, &advise.Temp{C: 45, At: at("3 08:00"), HeaterOn: &on}},
		{"a wash since", washed, &advise.Temp{C: 48, At: at("3 09:00")}},
		{"a wash logged late", cool.add("3 07:30", wash(48, bath.ResultClean)), &advise.Temp{C: 45, At: at("3 08:00"), HeaterOn: &on}},
		{"measured since", washed.add("3 09:30", &bath.Temp{BathC: 47}), &advise.Temp{C: 47, At: at("3 09:30")}},
		{"the wash was crossed out", washed.add("3 09:30", &bath.Strike{Target: washed.lastSeq(), Why: "other bath"}), &advise.Temp{C: 45, At: at("3 08:00"), HeaterOn: &on}},
		{"drained", washed.add("3 10:00", &bath.Drain{VolumeL: 200, Route: "hold"}), nil},
		{"refilled", washed.add("3 10:00", &bath.Drain{VolumeL: 200, Route: "hold"}).add("3 11:00", &bath.Fill{VolumeL: 260}), nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, tt.book.look(t, "3 12:00").Temp); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

func TestSet(t *testing.T) {
	asked := inService().add("3 08:00", &bath.Temp{BathC: 45, SetC: new(units.Temperature(48))})
	tests := []struct {
		name string
		book book
		want units.Temperature
	}{
		{"unless set, 122 °F", setUp(), 50},
		{"the tank's", setUp().add("1 10:00", &bath.Tank{SetC: new(units.Temperature(46))}), 46},
		{"logged in this fill", asked, 48},
		{"and not measured again", asked.add("3 09:00", &bath.Temp{BathC: 47}), 48},
		{"drained", asked.add("3 10:00", &bath.Drain{VolumeL: 200, Route: "hold"}), 50},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.book.look(t, "3 12:00").Set(); got != tt.want {
				t.Errorf("got %g °C, want %g °C", got, tt.want)
			}
		})
	}
}
