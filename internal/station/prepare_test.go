package station_test

import (
	"strings"
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// What is written carries what the station knows and the crew need not type.
func TestRecordCompletesWhatWasTyped(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, service()...)
	entries := write(t, s,
		station.Draft{By: " lh ", Bath: "MAIN", At: noon.UTC(), Body: &bath.Reading{PH: 10, SampleC: 50}},
		station.Draft{By: "kim", Body: &bath.Wash{Items: []bath.Load{{Item: "Masks", Count: 2}}, Soil: "normal", Time: 240, BathC: 50, Result: bath.ResultClean}},
		station.Draft{By: "AR", Bath: "main", Body: &bath.Handover{Note: "x"}},
	)
	reading, wash, handover := entries[0], entries[1].Body.(*bath.Wash), entries[2]
	if reading.By != crew || reading.Bath != "main" || reading.Body.(*bath.Reading).Meter != "M1" {
		t.Errorf("got %+v", reading)
	}
	if got, want := reading.At.Format(time.RFC3339), "2026-03-02T12:00:00-07:00"; got != want {
		t.Errorf("got %s, want %s: the station's own zone", got, want)
	}
	// 110 F: 29 CFR 1910.134 App. B-2, for the water that masks are washed in.
	if l := wash.Items[0]; l.Item != "mask" || l.Name == "" || l.Limit != "110 F" || l.LimitC == nil || l.Longest <= 0 {
		t.Errorf("got %+v", l)
	}
	if len(wash.Outside) != 1 || !strings.Contains(wash.Outside[0], "the limit is 110 F") {
		t.Errorf("marked outside the rule for %q", wash.Outside)
	}
	if handover.Bath != "" || handover.By != officer || handover.ID == "" {
		t.Errorf("got %+v", handover)
	}
}

func TestOnlyItemsOfTheCatalogAreWashed(t *testing.T) {
	s := open(t, newFile(t))
	_, err := s.Record(station.Draft{By: keyHolder, Body: &bath.Wash{Items: []bath.Load{{Item: "sofa", Count: 1}}, Soil: "normal", Time: 240, BathC: 40, Result: bath.ResultClean}})
	checkRefused(t, "a sofa", err, "item")
}

// ready is a bath in service that a wash may start in.
func ready() []station.Draft {
	return append(service(),
		station.Draft{By: crew, Body: &bath.Intake{Else: bath.ElseNone}},
		station.Draft{By: officer, Body: &bath.Procedure{Item: "Face-piece", State: bath.PaperPending}},
	)
}

func starts(item string, count int, by string) station.Draft {
	return station.Draft{By: by, Body: &bath.Start{
		Items: []bath.Load{{Item: item, Count: count}}, Soil: "normal", Time: 240, BathC: 40, Checked: true, Lids: true,
	}}
}

// A start carries what its gates and the log book need of the catalog of today.
func TestAStartIsCompleted(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, ready()...)
	if p := stateOf(t, s).Papers; len(p) != 1 || p[0].Item != "mask" {
		t.Errorf("got %+v, want the paper under the item's id", p)
	}
	start := write(t, s, starts("Masks", 4, "kim"))[0].Body.(*bath.Start)
	// 29 CFR 1910.134 App. B-2, for the water that masks are washed in.
	l := start.Items[0]
	if l.Item != "mask" || l.Source != "29 CFR 1910.134 App. B-2" || l.MassKg <= 0 || l.DisplacesL <= 0 || l.Floats {
		t.Errorf("got %+v", l)
	}
	if want := "not here yet, accepted by " + officer; l.Paper != want {
		t.Errorf("got paper %q, want %q", l.Paper, want)
	}
}

func TestAStartNamesTheGatesThatAReasonPassed(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, ready()...)
	d := starts("tool", 1, officer)
	start := d.Body.(*bath.Start)
	start.Visit, start.BathC, start.Override, start.Passed = 4, 30, "tar", []string{"typed by hand"}
	write(t, s, d)
	if got := strings.Join(start.Passed, " "); got != "too-cool again" {
		t.Errorf("got %q", got)
	}
	result := &bath.Wash{Items: []bath.Load{{Item: "tool", Count: 1}}, Soil: "normal", Time: 240, BathC: 30, Result: bath.ResultClean}
	write(t, s, station.Draft{By: crew, Body: result})
	d = starts("tool", 1, officer)
	d.Body.(*bath.Start).Passed = []string{"typed by hand"}
	write(t, s, d)
	if got := d.Body.(*bath.Start).Passed; got != nil {
		t.Errorf("got %q without a reason", got)
	}
}

// What is logged after a start is its result, what was over before is not.
func TestAResultFindsItsStart(t *testing.T) {
	clock := &wall{now: noon}
	s := open(t, newFile(t), clock)
	write(t, s, ready()...)
	clock.wait(time.Minute)
	start := write(t, s, starts("tool", 1, keyHolder))[0]
	wash := func(at time.Time) *bath.Wash {
		w := &bath.Wash{Items: []bath.Load{{Item: "tool", Count: 1}}, Soil: "normal", Time: 240, BathC: 40, Result: bath.ResultClean}
		write(t, s, station.Draft{By: keyHolder, At: at, Body: w})
		return w
	}
	if w := wash(noon); w.Start != 0 || stateOf(t, s).Baths[0].Run == nil {
		t.Errorf("a wash of before is of line %d, and in the bath is %+v", w.Start, stateOf(t, s).Baths[0].Run)
	}
	clock.wait(5 * time.Minute)
	if w := wash(time.Time{}); w.Start != start.Seq || stateOf(t, s).Baths[0].Run != nil {
		t.Errorf("a wash of after is of line %d, and in the bath is %+v", w.Start, stateOf(t, s).Baths[0].Run)
	}
}

// What never goes in is not started, and the refusal says what to do with it;
// once it happened it can be written down.
func TestWhatNeverGoesInIsNotStarted(t *testing.T) {
	s := open(t, newFile(t))
	write(t, s, ready()...)
	_, err := s.Record(starts("radios", 1, officer))
	checkRefused(t, "a radio", err, "never")
	if !strings.Contains(err.Error(), "Not in the bath: radios, because water kills electronics and batteries. Do this: wipe them by hand") {
		t.Errorf("got %v", err)
	}
	_, err = s.Record(starts("sofa", 1, officer))
	checkRefused(t, "a sofa", err, "item")
	_, err = s.Record(station.Draft{By: officer, Body: &bath.Procedure{Item: "sofa", State: bath.PaperPending}})
	checkRefused(t, "a paper for a sofa", err, "item")
	w := &bath.Wash{Items: []bath.Load{{Item: "radio", Count: 1}}, Soil: "normal", Time: 240, BathC: 40, Result: bath.ResultDamaged}
	write(t, s, station.Draft{By: keyHolder, Body: w})
	if len(w.Outside) != 1 || !strings.Contains(w.Outside[0], "never goes in") {
		t.Errorf("got %q", w.Outside)
	}
}

// The timer is in the log book: a program that starts anew goes on with it.
func TestATimerOutlivesTheProgram(t *testing.T) {
	clock, path := &wall{now: noon}, newFile(t)
	s := open(t, path, clock)
	write(t, s, append(ready(), starts("tool", 1, keyHolder))...)
	clock.wait(90 * time.Second)
	write(t, s, station.Draft{By: crew, Body: &bath.Pause{}})
	clock.wait(time.Hour)
	r := stateOf(t, open(t, path, clock)).Baths[0].Run
	if r == nil || r.Left(clock.read()) != 150*time.Second || r.Ran(clock.read()) != 90 {
		t.Errorf("got %+v", r)
	}
}
