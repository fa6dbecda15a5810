package advise_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/heat"
	"bathside/internal/units"
)

// Source: testdata/heat/heatup_times.csv, 6 kW, 227.125 L from 15 to 52 °C.
func TestReadyAt(t *testing.T) {
	tests := []struct {
		name           string
		lid, insulated bool
		hours          float64
	}{
		{"lid on, insulated", true, true, 1.675},
		{"lid on, bare", true, false, 1.736},
		{"lid off, insulated", false, true, 1.719},
		{"lid off, bare", false, false, 1.786},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b := setUp().
				add("1 10:00", &bath.Tank{VolumeL: 227.125, LowL: 150, HeaterW: 6000, SetC: new(units.Temperature(52)), Lid: &tt.lid, Insulated: &tt.insulated}).
				add("2 07:30", &bath.Fill{VolumeL: 227.125, WaterC: new(units.Temperature(15))}).
				add("2 08:00", &bath.Dose{VolumeL: 7})
			x := b.look(t, "2 08:05")
			ready, ok := x.ReadyAt()
			if got := ready.Sub(at("2 08:00")).Hours(); !ok || math.Abs(got-tt.hours) > 0.01*tt.hours {
				t.Fatalf("got %.3f h after the soap, %v; want %.3f", got, ok, tt.hours)
			}
			want := advise.Action{
				Urgency: advise.Today, Due: ready, Kind: "temp", Say: "Heat to 126 °F, then measure",
				Why: fmt.Sprintf("ready about %s with 6 kW, from 59 °F", ready.Format("15:04")),
			}
			says(t, "heat", []moment{{"said", b, "2 08:05", want}})
		})
	}
}

// Water that nobody measured is taken as 15 °C, and said to be supposed.
func TestReadyAtFromWaterNobodyMeasured(t *testing.T) {
	b := bare().add("2 08:00", &bath.Fill{VolumeL: units.Gallons(70)}).add("2 08:00", &bath.Dose{VolumeL: 7})
	x := b.look(t, "2 08:05")
	ready, _ := x.ReadyAt()
	says(t, "heat", []moment{{"supposed", b, "2 08:05", advise.Action{
		Urgency: advise.Today, Due: ready, Kind: "temp", Say: "Heat to 122 °F, then measure",
		Why: "ready about " + ready.Format("15:04") + " with 6 kW, from 59 °F, supposed",
	}}})
}

func TestReadyAtIsUnknown(t *testing.T) {
	off := false
	for name, b := range map[string]book{
		"never filled":  setUp(),
		"drained":       dosed().add("2 09:00", &bath.Drain{VolumeL: 200, Route: "hold"}),
		"warm":          inService(),
		"logged as off": dosed().add("2 09:00", &bath.Temp{BathC: 30, Heat: &off}),
		"too weak":      dosed().add("2 09:00", &bath.Tank{HeaterW: 500}),
		"no water":      bare().add("2 08:00", &bath.Fill{}),
	} {
		if ready, ok := b.look(t, "2 12:00").ReadyAt(); ok {
			t.Errorf("%s: got %v, want none", name, ready)
		}
	}
}

// What a station has set down of its tank goes into the model; the rest is the
// tank that a bath of such a volume is likely to have.
func TestVessel(t *testing.T) {
	likely := heat.NewVessel(250)
	known := likely
	known.Surface, known.Lid, known.Insulated = 0.4, true, true
	yes := true
	for name, tt := range map[string]struct {
		tank bath.Tank
		want heat.Vessel
	}{
		"nothing set down": {bath.Tank{}, likely},
		"all of it":        {bath.Tank{SurfaceM2: 0.4, Lid: &yes, Insulated: &yes}, known},
	} {
		if diff := cmp.Diff(tt.want, advise.Vessel(tt.tank, 250)); diff != "" {
			t.Errorf("%s: -want +got:\n%s", name, diff)
		}
	}
}
