package station_test

import (
	"testing"
	"time"

	"bathside/internal/station"
)

func TestSession(t *testing.T) {
	at := func(clock string) time.Time {
		t.Helper()
		parsed, err := time.Parse(time.DateTime, "2026-03-02 "+clock+":00")
		if err != nil {
			t.Fatal(err)
		}
		return parsed
	}
	tests := []struct {
		name, begun, shiftEnd string
		washes                []string // when they ended
		until                 string
	}{
		{"no wash", "02:00", "07:00", nil, "02:30"},
		{"one wash", "02:00", "07:00", []string{"02:10"}, "02:40"},
		{"washes on end", "02:00", "07:00", []string{"02:20", "02:45", "03:10"}, "03:40"},
		{"a wash logged late", "02:00", "07:00", []string{"02:20", "02:05"}, "02:50"},
		{"a wash before it", "02:00", "07:00", []string{"01:50"}, "02:30"},
		{"a wash as it ends", "02:00", "07:00", []string{"02:30"}, "02:30"},
		{"a wash after it", "02:00", "07:00", []string{"03:00"}, "02:30"},
		{"change of shift", "06:50", "07:00", nil, "07:00"},
		{"a wash before the change", "06:20", "07:00", []string{"06:45"}, "07:00"},
		{"a wash after the change", "06:20", "07:00", []string{"07:05"}, "06:50"},
		{"no shifts", "02:00", "", []string{"02:20"}, "02:50"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var change time.Time
			if tt.shiftEnd != "" {
				change = at(tt.shiftEnd)
			}
			s := station.BeginSession(keyHolder, at(tt.begun), change)
			for _, wash := range tt.washes {
				s = s.Washed(at(wash))
			}
			if !s.Until().Equal(at(tt.until)) {
				t.Errorf("it ends at %s, want %s", s.Until().Format("15:04"), tt.until)
			}
			for _, now := range []time.Duration{-time.Second, 0} {
				if got, want := s.Covers("kim sato", at(tt.until).Add(now)), now < 0; got != want {
					t.Errorf("%s from its end: got %v", now, got)
				}
			}
			if s.Covers(officer, at(tt.begun)) || s.Covers("", at(tt.begun)) || s.Covers(keyHolder, at(tt.begun).Add(-time.Second)) {
				t.Error("it covers somebody else, or a time before it")
			}
		})
	}
}

func TestTheZeroSessionCoversNobody(t *testing.T) {
	var s station.Session
	if s.Covers("", time.Time{}) || s.Covers(keyHolder, noon) || s.Washed(noon).Covers("", noon) {
		t.Error("it covers somebody")
	}
}
