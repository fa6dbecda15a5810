package advise_test

import (
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

var denver = mustZone("America/Denver")

func mustZone(name string) *time.Location {
	loc, err := time.LoadLocation(name)
	if err != nil {
		panic(err)
	}
	return loc
}

// at reads a time of the invented station: "9 07:00" is Monday 9 March 2026.
// The clock is put forward on Sunday the 8th (15 U.S.C. 260a).
func at(s string) time.Time {
	if len(s) < len("2006-01-02 15:04") {
		s = "2026-03-" + s
	}
	t, err := time.ParseInLocation("2006-01-2 15:04", s, denver)
	if err != nil {
		panic(err)
	}
	return t
}

// book is a log book under construction. Its people and figures are invented.
// Adding to it leaves it as it was, so that cases can start from one book.
type book []bath.Entry

// add writes an entry as soon as it has happened.
func (b book) add(when string, body bath.Body) book {
	e := bath.Entry{Seq: uint64(len(b) + 1), At: at(when), Logged: at(when), By: "Kim Vale", Body: body}
	if s, _ := bath.SpecOf(e.Kind()); s.Scope != bath.OfStation || s.Kind == "tank" {
		e.Bath = "main"
	}
	return append(slices.Clip(b), e)
}

// lastSeq is the line that was added last.
func (b book) lastSeq() uint64 { return b[len(b)-1].Seq }

func (b book) look(t interface {
	Helper()
	Fatal(...any)
}, now string) *advise.Snapshot {
	t.Helper()
	s, err := bath.Fold(b)
	if err != nil {
		t.Fatal(err)
	}
	x, err := advise.Assess(s, "main", at(now))
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// bare is a station that has set down no more of its tank than it must.
func bare() book {
	return book{}.
		add("1 09:00", &bath.Member{Name: "Kim Vale", Role: bath.Officer}).
		add("1 09:00", &bath.Setting{Zone: "America/Denver", Shift: "24/48@07:00"}).
		add("1 09:00", &bath.Tank{VolumeL: units.Gallons(70)})
}

// setUp is a station before its first fill.
func setUp() book {
	return bare().add("1 09:10", &bath.Tank{
		LowL: units.Gallons(58), Mark: "the upper rivet",
		Ratio: 35, ContainerL: units.Gallons(1), Container: "jug",
	})
}

// filled is fresh water.
func filled() book {
	return setUp().add("2 08:00", &bath.Fill{VolumeL: units.Gallons(70), WaterC: new(units.Temperature(12))})
}

// dosed is fresh water with its soap in.
func dosed() book { return filled().add("2 08:10", &bath.Dose{VolumeL: units.Gallons(2)}) }

// warmed is a fill that waits for its first reading.
func warmed() book {
	return dosed().
		add("2 09:50", twoBuffers()).
		add("2 10:00", &bath.Temp{BathC: 50}).
		add("2 10:10", &bath.Degas{Time: units.Minutes(15)})
}

// read is a fill whose first reading is not read again cold yet.
func read() book { return warmed().add("2 10:30", first(10.12)) }

// inService is a fill with nothing left to do at its start.
func inService() book {
	return read().add("2 12:00", &bath.Reading{PH: 10.60, SampleC: 22, Meter: "M1", Baseline: true, Cooled: true})
}

// first is a first reading, in the bath.
func first(ph units.PH) *bath.Reading {
	return &bath.Reading{PH: ph, SampleC: 50, Meter: "M1", Baseline: true}
}

// twoBuffers is the meter of the first reading, calibrated: the worked example
// C1 of testdata/chem/check_values.csv, 98.3 %.
func twoBuffers() *bath.Calibration {
	return &bath.Calibration{Meter: "M1", Points: bath.Points{{Buffer: "phosphate", AtC: 25, MV: 8}, {Buffer: "carbonate", AtC: 25, MV: -175}}}
}

// dip is the same meter in the carbonate buffer, 10.012 at 25 °C.
func dip(ph units.PH) *bath.Calibration {
	return &bath.Calibration{Meter: "M1", Check: &bath.Dip{Buffer: "carbonate", AtC: 25, PH: ph}}
}

// permit is what an invented authority allows.
func permit(lapses string) *bath.Discharge {
	return &bath.Discharge{
		Stream: bath.StreamLiquid, Route: bath.RouteSewer, Number: "permit 7", From: "the sewer district", Title: "sewer rules, part 4", Dated: "2025-05-01",
		PHLow: new(units.PH(5.5)), PHHigh: new(units.PH(10)), MaxC: new(units.Fahrenheit(110)), Lapses: lapses,
	}
}

// permitted is b with that on file.
func (b book) permitted(lapses string) book { return b.add("2 12:20", permit(lapses)) }

// hot is a reading in the bath with the meter of the first one.
func hot(ph units.PH) *bath.Reading { return &bath.Reading{PH: ph, SampleC: 50, Meter: "M1"} }

func wash(c units.Temperature, result string) *bath.Wash {
	return &bath.Wash{
		Items: []bath.Load{{Item: "helmet", Count: 2}}, Soil: "normal",
		Time: units.Minutes(5), BathC: c, Result: result,
	}
}

// moment is a log book looked at, and what one rule says then.
type moment struct {
	name string
	book book
	now  string
	want advise.Action // the zero Action is silence
}

// soapSays is what more soap would do, which has its own tests.
var soapSays = regexp.MustCompile(`more soap: .*(and refill|would reach .*|bring it .*?|add nothing);`)

// says compares what the rule of that id says with what each moment wants.
func says(t *testing.T, id string, moments []moment) {
	t.Helper()
	for _, m := range moments {
		t.Run(m.name, func(t *testing.T) {
			t.Helper()
			var got advise.Action
			for _, a := range m.book.look(t, m.now).Next {
				if a.ID == id {
					got = a
				}
			}
			got.From = nil // where figures come from has its own test
			got.Why = soapSays.ReplaceAllString(got.Why, "more soap: …;")
			if m.want.ID = id; m.want.Say == "" {
				m.want = advise.Action{}
			}
			if diff := cmp.Diff(m.want, got); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		})
	}
}

// ids are the actions of a snapshot in their order.
func ids(x *advise.Snapshot) (out []string) {
	for _, a := range x.Next {
		out = append(out, a.ID)
	}
	return out
}
