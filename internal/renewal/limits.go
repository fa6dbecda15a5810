package renewal

import "math"

// Limits are how long the site keeps a bath, whatever the cost. The zero value
// is no limit.
type Limits struct {
	TopUps      *int    // most in one fill; nil is no limit, and none may be allowed
	AgeDays     float64 // most from refill to drain; 0 is no limit
	Loads       int     // most washed in one fill; 0 is no limit
	LoadsPerDay float64 // how fast Loads is used up; read only with it
}

// hair is the part of a day, below a millisecond, that sums of gains may be off.
const hair = 1e-9

// days is the longest that a fill may serve, by age and by loads.
func (l Limits) days() float64 {
	days := math.Inf(1)
	if l.AgeDays > 0 {
		days = l.AgeDays
	}
	if l.Loads > 0 {
		days = min(days, float64(l.Loads)/l.LoadsPerDay)
	}
	return days
}

// cut returns the gains that the limits leave. A gain that runs past the last
// day counts up to it, at the full cost of its top-up.
func (l Limits) cut(gainDays []float64) []float64 {
	var kept []float64
	left := l.days()
	for n, gain := range gainDays {
		if n > 0 && left <= hair || l.TopUps != nil && n > *l.TopUps {
			break
		}
		kept = append(kept, min(gain, left))
		left -= gain
	}
	return kept
}

// reached tells whether a fill with all these gains, n of them by top-ups, has
// come to a limit.
func (l Limits) reached(n int, gainDays []float64) bool {
	days := 0.0
	for _, gain := range gainDays {
		days += gain
	}
	return l.TopUps != nil && n >= *l.TopUps || days >= l.days()-hair
}
