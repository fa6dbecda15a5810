package report

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// contract is every key of status --json and what it means. Keys stay once
// they are released; more may come.
var contract = map[string]string{
	"schema":                 "number of this shape",
	"station":                "name",
	"bath":                   "id",
	"now":                    "the moment it speaks of, in the station's zone",
	"red_tag.seq":            "line that hung the red tag on this bath",
	"red_tag.at":             "when",
	"red_tag.by":             "who",
	"red_tag.kind":           "contaminated, leak, heater, ultrasound, foil, locked-out or other",
	"red_tag.why":            "one line",
	"fill.number":            "of the open fill, from 1",
	"fill.at":                "when it began",
	"fill.age_days":          "days since",
	"fill.volume_l":          "L, of water, at the fill",
	"fill.dose_l":            "L, all the soap of this fill",
	"fill.topups":            "doses after the first",
	"fill.makeup_l":          "L, all the water added since",
	"fill.loads":             "washes",
	"fill.items":             "pieces in them",
	"fill.filter_h":          "h, the filter ran in this fill",
	"fill.level_l":           "L, when somebody last looked at the mark",
	"fill.level_at":          "when that was",
	"fill.strength_frac":     "of a full first dose, by mass balance; unknown without a ratio",
	"temp.bath_c":            "°C, last measured in this fill",
	"temp.set_c":             "°C, set point in force",
	"temp.at":                "when it was measured",
	"temp.ready_at":          "about when it is at the set point with the heater on; not given once it is",
	"ph.last":                "last reading that is trusted, as read",
	"ph.sample_c":            "°C, of its sample",
	"ph.at":                  "when",
	"ph.baseline":            "first reading that it is held against, as read",
	"ph.baseline_c":          "°C, of that sample",
	"ph.drop":                "baseline less last; unknown where they cannot be compared",
	"ph.equivalent":          "what last would read at baseline_c",
	"ph.u":                   "its standard uncertainty",
	"ph.u_drop":              "standard uncertainty of drop",
	"ph.sure":                "how sure the drop is, in words",
	"forecast.state":         "no-date, dated, later or due; no forecast before a first reading",
	"forecast.q10_days":      "d from now, at the limit sooner in one case of ten; 120 is later; unknown without a date",
	"forecast.q50_days":      "d, as likely sooner as later",
	"forecast.q90_days":      "d, later in one case of ten",
	"forecast.p7":            "probability that it is at the limit within 7 d",
	"forecast.p14":           "within 14 d",
	"forecast.p28":           "within 28 d",
	"forecast.note":          "the same in words",
	"soap.reaches_baseline":  "whether a whole charge at most brings it back: surely, perhaps or no",
	"soap.low_l":             "L, the least that may bring it back",
	"soap.high_l":            "L, what surely does, a whole charge at most",
	"soap.charge_l":          "L, a whole charge",
	"soap.full_ph_low":       "pH with a whole charge, likely range",
	"soap.full_ph_high":      "the upper end of that",
	"soap.recharge_l":        "L, what the drop tests ask for; not given without two",
	"soap.say":               "the same in a sentence",
	"ph.limit":               "allowed drop",
	"ph.state":               "ok, watch, at-limit, past or unknown",
	"ph.why":                 "what is missing, where it is unknown",
	"ph.doubtful[].seq":      "line of a reading that is not trusted",
	"ph.doubtful[].ph":       "as read",
	"ph.doubtful[].sample_c": "°C",
	"ph.doubtful[].at":       "when",
	"ph.doubtful[].why":      "one clause",
	"next[].id":              "stable name of the action",
	"next[].urgency":         "now, today, soon or later",
	"next[].due":             "not given where it has no date",
	"next[].say":             "what to do",
	"next[].why":             "one clause",
	"on_duty.platoon":        "not given where there is one crew",
	"on_duty.names":          "members",
	"on_duty.until":          "the next change",
	"baths[].id":             "every bath of the station",
	"baths[].name":           "as the station calls it",
	"baths[].open":           "a fill is in it",
	"baths[].state":          "as ph.state",
	"baths[].red_tag":        "one hangs there",
}

func TestStatusKeepsItsContract(t *testing.T) {
	got := map[string]bool{}
	for _, x := range states(t) { // no bath has it all: a drop and a reason for having none
		var v any
		decode(t, NewStatus(x), &v)
		keysOf("", v, got)
	}
	if diff := cmp.Diff(slices.Sorted(maps.Keys(contract)), slices.Sorted(maps.Keys(got))); diff != "" {
		t.Errorf("keys (-contract +written):\n%s", diff)
	}
}

// keysOf collects the paths of all values below v.
func keysOf(path string, v any, to map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for k, inner := range v {
			keysOf(path+"."+k, inner, to)
		}
	case []any:
		for _, inner := range v {
			if _, ok := inner.(map[string]any); ok {
				keysOf(path+"[]", inner, to)
				continue
			}
			to[path[1:]] = true
		}
	default:
		to[path[1:]] = true
	}
}

func decode(t *testing.T, s Status, to any) {
	t.Helper()
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, to); err != nil {
		t.Fatal(err)
	}
}

func TestStatusOfANewStation(t *testing.T) {
	got, err := json.MarshalIndent(NewStatus(setUp().look(t, "1 09:30")), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	// Nothing is known of the bath but its tank: no key says 0 for it.
	want := `{
  "schema": 1,
  "station": "Harrow Point, station 5",
  "bath": "main",
  "now": "2026-11-01T09:30:00-07:00",
  "temp": {
    "set_c": 50
  },
  "ph": {
    "limit": 0.5,
    "state": "unknown",
    "why": "no fill is open"
  },
  "next": [
    {
      "id": "fill",
      "urgency": "today",
      "say": "Fill the bath to the mark",
      "why": "75.0 gal to the mark: top of the weld seam; drain valve shut first"
    }
  ],
  "on_duty": {
    "platoon": "B",
    "names": [
      "Ilse Varga",
      "Teo Lund"
    ],
    "until": "2026-11-02T07:00:00-07:00"
  },
  "baths": [
    {
      "id": "main",
      "name": "Bay 2 bath",
      "open": false,
      "state": "unknown",
      "red_tag": false
    }
  ]
}`
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestTrueZerosAreKept(t *testing.T) {
	var got struct{ Fill map[string]any }
	decode(t, NewStatus(setUp().add("2 08:00", "Teo Lund", &bath.Fill{VolumeL: units.Gallons(75)}).look(t, "2 08:00")), &got)
	for _, key := range []string{"age_days", "dose_l", "topups", "makeup_l", "loads", "items", "filter_h", "strength_frac"} {
		if v, ok := got.Fill[key]; !ok || v != 0.0 {
			t.Errorf("%s: got %v, want 0", key, v)
		}
	}
}

func TestStatusNumbers(t *testing.T) {
	s := NewStatus(inUse().look(t, "26 06:52"))
	// NIST Handbook 44, Appendix C: 1 gal is 3.785412 L.
	// NIST SP 811, B.8: °C is (°F - 32)/1.8.
	const gal = 3.785412
	for name, c := range map[string]struct{ got, want float64 }{
		"volume of 75 gal":            {float64(s.Fill.VolumeL), 75 * gal},
		"dose of 2 gal":               {float64(s.Fill.DoseL), 2 * gal},
		"make-up of 1.5 gal":          {float64(s.Fill.MakeupL), 1.5 * gal},
		"level, made up to the mark":  {*s.Fill.LevelL, 75 * gal},
		"bath at 112 °F":              {float64(*s.Temp.BathC), (112 - 32) / 1.8},
		"sample at 121 °F":            {float64(*s.PH.BaselineC), (121 - 32) / 1.8},
		"half an hour of filter":      {s.Fill.FilterH, 0.5},
		"22 days, 22 h and 52 min":    {s.Fill.AgeDays, 22 + (22+52.0/60)/24},
		"2 gal of 75/40, 2 % spilled": {*s.Fill.StrengthFrac, 2 * (1 - 1.5/75) / (75.0 / 40)},
		"10.42 - 10.08":               {*s.PH.Drop, 0.34},
	} {
		if math.Abs(c.got-c.want) > 1e-4*c.want {
			t.Errorf("%s: got %v, want %v", name, c.got, c.want)
		}
	}
	if s.Fill.Loads != 2 || s.Fill.Items != 11 {
		t.Errorf("got %d washes with %d items, want 2 with 11", s.Fill.Loads, s.Fill.Items)
	}
}

func TestStateWords(t *testing.T) {
	// 0.5 is common practice, no source; the other steps are the station's own
	// rules for when a drop can be stated.
	for _, c := range []struct {
		ph, sample float64
		want       string
	}{
		{10.13, 121, "OK: down 0.29, act at 0.50"},
		{10.45, 121, "OK: up 0.03, act at 0.50 down"},
		{10.12, 121, "GETTING CLOSE: down 0.30, act at 0.50"},
		{9.92, 121, "AT LIMIT: down 0.50, act at 0.50"},
		{9.80, 121, "OVER LIMIT: down 0.62, act at 0.50"},
		{10.50, 96, "OK: down 0.24, act at 0.50"}, // by the slope of the pair, -0.0191 + 0.004 per °C
	} {
		t.Run(fmt.Sprintf("%.2f at %g", c.ph, c.sample), func(t *testing.T) {
			x := inUse().add("26 06:40", "Teo Lund", &bath.Reading{
				PH: units.PH(c.ph), SampleC: units.Fahrenheit(c.sample), Meter: "M2", Rose: bath.RoseSoap,
			}).look(t, "26 06:52")
			if got := facts(x)[0].say; got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

func TestStatusSeesEveryBath(t *testing.T) {
	b := inUse().
		add("20 09:00", "Ilse Varga", &bath.Tank{VolumeL: units.Gallons(20)}).last(func(e *bath.Entry) { e.Bath = "small" }).
		add("20 09:05", "Teo Lund", &bath.Hold{Cause: bath.HoldLeak, Why: "drips at the valve"}).last(func(e *bath.Entry) { e.Bath = "small" })
	want := []BathStatus{
		{ID: "main", Name: "Bay 2 bath", Open: true, State: advise.PHWatch},
		{ID: "small", State: advise.PHUnknown, RedTag: true},
	}
	for _, id := range []string{"main", "small"} {
		x, err := advise.Assess(b.state(t), id, at("26 06:52"))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, NewStatus(x).Baths); diff != "" {
			t.Errorf("asked of %s (-want +got):\n%s", id, diff)
		}
	}
}
