package cli

import (
	"testing"
	"time"

	"bathside/internal/units"
)

// Clocks in Denver went from 02:00 to 03:00 on 8 March 2026 (tz database).
func TestNextAt(t *testing.T) {
	zone, err := time.LoadLocation("America/Denver")
	if err != nil {
		t.Fatal(err)
	}
	at := func(day, hour, minute int) time.Time { return time.Date(2026, 3, day, hour, minute, 0, 0, zone) }
	tests := []struct {
		name string
		text string
		now  time.Time
		want time.Time // zero: refused
	}{
		{"later today", "23:00", at(1, 22, 0), at(1, 23, 0)},
		{"after midnight", "04:00", at(1, 22, 0), at(2, 4, 0)},
		{"now is not to come", "22:00", at(1, 22, 0), at(2, 22, 0)},
		{"with am", "4:00am", at(1, 22, 0), at(2, 4, 0)},
		{"with its date", "2026-03-03 04:00", at(1, 22, 0), at(3, 4, 0)},
		{"with its zone", "2026-03-02T05:00:00-06:00", at(1, 22, 0), at(2, 4, 0)},
		{"skipped tonight", "02:30", at(7, 22, 0), at(9, 2, 30)},
		{"skipped this morning", "02:30", at(8, 12, 0), at(9, 2, 30)},
		{"over", "2026-03-01 04:00", at(1, 22, 0), time.Time{}},
		{"skipped", "2026-03-08 02:30", at(7, 22, 0), time.Time{}},
		{"no hour", "25:00", at(1, 22, 0), time.Time{}},
		{"what has been", "2h ago", at(1, 22, 0), time.Time{}},
		{"a word", "soon", at(1, 22, 0), time.Time{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := nextAt(tt.text, tt.now, units.Times{})
			if (err != nil) != tt.want.IsZero() || err == nil && !got.Equal(tt.want) {
				t.Errorf("got %v, %v; want %v", got, err, tt.want)
			}
		})
	}
}
