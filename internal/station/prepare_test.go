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
