package load_test

import (
	"testing"

	"bathside/internal/load"
	"bathside/internal/units"

	"pgregory.net/rapid"
)

// checkSpots holds that all lie on the floor and none on another.
func checkSpots(t fataler, length, width units.Length, spots []load.Spot) {
	t.Helper()
	const loose = 1e-6 // m
	for i, s := range spots {
		if s.X < 0 || s.Y < 0 || s.X+s.Length > length+loose || s.Y+s.Width > width+loose {
			t.Fatalf("%v is not on a floor of %v by %v", s, length, width)
		}
		for _, o := range spots[:i] {
			if s.X < o.X+o.Length-loose && o.X < s.X+s.Length-loose && s.Y < o.Y+o.Width-loose && o.Y < s.Y+s.Width-loose {
				t.Fatalf("%v lies on %v", s, o)
			}
		}
	}
}

// The floor is 16 by 20 in, common practice. The wants follow by hand.
func TestPlace(t *testing.T) {
	tests := []struct {
		name          string
		n             int
		length, width float64 // in
		want          bool
	}{
		{"nothing", 0, 1, 1, true},
		{"the whole floor", 1, 20, 16, true},
		{"the whole floor, turned", 1, 16, 20, true},
		{"a hair too long", 1, 20.01, 10, false},
		{"four masks, two by two", 4, 9, 7, true},
		{"six masks have more than the floor", 6, 9, 7, false},
		{"two helmets, 14 by 11", 2, 14, 11, false},
		{"two helmets, 12 by 10", 2, 12, 10, true},
		{"five of 8 by 8, four fit", 5, 8, 8, false},
		{"ten of 8 by 4 fill it", 10, 8, 4, true},
		{"eleven do not", 11, 8, 4, false},
		{"five of 16 by 4, side by side", 5, 16, 4, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var things []load.Rect
			for range tt.n {
				things = append(things, load.Rect{Length: units.Inches(tt.length), Width: units.Inches(tt.width)})
			}
			spots, got := load.Place(units.Inches(20), units.Inches(16), things)
			if got != tt.want || got && len(spots) != tt.n {
				t.Errorf("got %v, %d spots; want %v", got, len(spots), tt.want)
			}
			checkSpots(t, units.Inches(20), units.Inches(16), spots)
		})
	}
}

// What is found lies apart and inside, each thing at its size; more than the
// floor's area is never found; and up to half of it always is, where each side
// is at most half the floor's shorter one (Steinberg, SIAM Journal on
// Computing 26, 1997: such things go in without being turned; from memory).
func TestPlaceAlwaysHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(0.02, 0.2)
		var things []load.Rect
		area := units.Length(0)
		for range rapid.IntRange(0, 14).Draw(t, "n") {
			r := load.Rect{Length: units.Length(side.Draw(t, "length")), Width: units.Length(side.Draw(t, "width"))}
			things = append(things, r)
			area += r.Length * r.Width
		}
		const length, width = units.Length(0.5), units.Length(0.4)
		spots, ok := load.Place(length, width, things)
		switch {
		case ok && area > length*width*(1+1e-6):
			t.Fatalf("%v m² on %v m²", area, length*width)
		case !ok && area <= length*width/2:
			t.Fatalf("no way found for %v m² on %v m²", area, length*width)
		case !ok:
			return
		}
		checkSpots(t, length, width, spots)
		for _, s := range spots {
			r := things[s.Of]
			if (s.Length != r.Length || s.Width != r.Width) && (s.Length != r.Width || s.Width != r.Length) {
				t.Fatalf("%v lies as %v", r, s)
			}
		}
	})
}
