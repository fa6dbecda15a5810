package chem

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Source: the cut points are the columns of difference_power.csv: from 0.12 a
// drop is real and from 0.62 it is stated, calibrated between (u 0.073); 0.10
// and 0.60 with one calibration (0.058); 0.33 and 0.83 with two meters (0.198).
// Up to 0.38, 0.40 and 0.17 the limit is ruled out in the same way.
func TestDropLine(t *testing.T) {
	const one, between, meters = 0.058, 0.073, 0.198
	tests := []struct {
		drop, u float64
		want    string
	}{
		{0.00, between, "0.00: could be noise"},
		{0.11, between, "0.11: could be noise"},
		{0.12, between, "0.12, real, not yet at the limit"},
		{0.31, between, "0.31, real, not yet at the limit"},
		{0.38, between, "0.38, real, not yet at the limit"},
		{0.39, between, "0.39: could be 0.3, could be 0.5; read again with the same meter"},
		{0.47, between, "0.47: could be 0.4, could be 0.6; read again with the same meter"},
		{0.50, between, "0.50: could be 0.4, could be 0.6; read again with the same meter"},
		{0.61, between, "0.61: could be 0.5, could be 0.7; read again with the same meter"},
		{0.62, between, "0.62, over the limit, surely"},
		{-0.11, between, "-0.11: could be noise"},
		{-0.12, between, "-0.12, a rise, and real"},
		{0.09, one, "0.09: could be noise"},
		{0.10, one, "0.10, real, not yet at the limit"},
		{0.40, one, "0.40, real, not yet at the limit"},
		{0.41, one, "0.41: could be 0.3, could be 0.5; read again with the same meter"},
		{0.59, one, "0.59: could be 0.5, could be 0.7; read again with the same meter"},
		{0.60, one, "0.60, over the limit, surely"},
		{0.17, meters, "0.17: could be noise"},
		{0.18, meters, "0.18: could be noise, could be 0.4; read again with the same meter"},
		{0.32, meters, "0.32: could be noise, could be 0.6; read again with the same meter"},
		{0.33, meters, "0.33: could be 0.1, could be 0.6; read again with the same meter"},
		{0.82, meters, "0.82: could be 0.6, could be 1.1; read again with the same meter"},
		{0.83, meters, "0.83, over the limit, surely"},
		{0.49, 0.02, "0.49: could be 0.46, could be 0.52; read again with the same meter"},
		{0.47, math.Inf(1), "0.47: nobody can say; read again with a checked meter"},
		{0.47, 0, "0.47: nobody can say; read again with a checked meter"},
		{math.NaN(), between, "not known: nobody can say; read again with a checked meter"},
	}
	for _, tt := range tests {
		if got := DropLine(tt.drop, tt.u, 0.5); got != tt.want {
			t.Errorf("u %g:\n got %s\nwant %s", tt.u, got, tt.want)
		}
	}
}

// TestDropWordsNeverMislead: nothing is called sure that is not, whatever the
// numbers, and a wider uncertainty never makes words surer.
func TestDropWordsNeverMislead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		drop := rapid.Float64Range(-1, 2).Draw(t, "drop")
		u := rapid.Float64Range(0.03, 0.4).Draw(t, "u")
		limit := rapid.Float64Range(0.2, 1).Draw(t, "limit")
		words := DropWords(drop, u, limit)
		const shown = 0.0101 // two roundings to a hundredth
		switch {
		case strings.HasPrefix(words, "over") && drop < Stated(limit, u)-shown,
			strings.HasPrefix(words, "real") && (drop < Real(u)-shown || drop > limit-Real(u)+shown),
			strings.HasPrefix(words, "a rise") && drop > -Real(u)+shown,
			words == "could be noise" && drop >= limit:
			t.Errorf("%.3f, u %.3f, limit %.2f: %s", drop, u, limit, words)
		}
		wider := DropWords(drop, 1.5*u, limit)
		if !strings.HasPrefix(words, "over") && strings.HasPrefix(wider, "over") {
			t.Errorf("%.3f: %s at u %.3f, %s at %.3f", drop, words, u, wider, 1.5*u)
		}
	})
}
