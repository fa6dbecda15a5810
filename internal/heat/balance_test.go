package heat

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bathside/internal/units"
)

var monday = time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC)

func after(days float64) time.Time { return monday.Add(time.Duration(days * 24 * float64(time.Hour))) }

// book is a bath of 227.125 L that loses 8 L a day by vapour.
var book = Book{Mark: 227.125, Look: 1.5, PerDay: 8, Unsure: 0.2}

// fill is 2 % of detergent in a bath at its mark.
var fill = []Event{{monday, Filled, 0.98 * 227.125}, {monday, Dosed, 0.02 * 227.125}}

func TestLevel(t *testing.T) {
	tests := []struct {
		name             string
		events           []Event
		days             float64
		volume, u, soapL float64
	}{
		{"at once", nil, 0, 227.125, 1.5, 4.5425},
		{"five days", nil, 5, 187.125, math.Hypot(1.5, 8), 4.5425},
		{"seen and filled up", []Event{{after(5), Looked, 30}, {after(5), Poured, 30}}, 6, 219.125, math.Hypot(1.5, 1.6), 4.5425},
		// trade rule: 10 % of water for carry-out leaves 0.9 of the strength
		{"for carry-out", []Event{{after(0), LookedLost, 22.7125}, {after(0), Poured, 22.7125}}, 0, 227.125, 1.5, 0.9 * 4.5425},
		{"for carry-out, after days of vapour", []Event{{after(3), LookedLost, 22.7125}, {after(3), Poured, 22.7125}}, 3, 227.125, 1.5, 0.9 * 4.5425},
		{"a tenth spilled", []Event{{after(0), CarriedOut, 22.7125}}, 0, 204.4125, math.Hypot(1.5, 6.81375), 0.9 * 4.5425},
		{"topped up", []Event{{after(1), Looked, 8}, {after(1), Dosed, 2}}, 1, 221.125, 1.5, 6.5425},
		{"before the fill, and to come", []Event{{after(-1), CarriedOut, 100}, {after(2), CarriedOut, 100}}, 1, 219.125, math.Hypot(1.5, 1.6), 4.5425},
		{"dried out", nil, 100, 4.5425, math.Hypot(1.5, 0.2*222.5825), 4.5425},
		{"a season later it was seen", []Event{{after(100), Looked, 50}}, 100, 177.125, 1.5, 4.5425},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := book.Level(slices.Concat(fill, tt.events), after(tt.days))
			if !ok {
				t.Fatal("got no level")
			}
			if math.Abs(float64(got.Now.Volume)-tt.volume) > 1e-6 || math.Abs(float64(got.U)-tt.u) > 1e-6 ||
				math.Abs(float64(got.Now.soap())-tt.soapL) > 1e-6 {
				t.Errorf("got %.4f ± %.4f L with %.4f L of soap, want %.4f ± %.4f with %.4f",
					got.Now.Volume, got.U, got.Now.soap(), tt.volume, tt.u, tt.soapL)
			}
		})
	}
}

func TestNoFillNoLevel(t *testing.T) {
	if got, ok := book.Level(fill, after(-1)); ok {
		t.Errorf("before the fill: got %+v", got)
	}
	if got, ok := book.Level(nil, monday); ok {
		t.Errorf("nothing logged: got %+v", got)
	}
}

// By hand: 227.125 L to 196.84 L (52 gal) at 8 L a day are 3.786 days; with one
// chance in twenty 27.815 L gone, 1.645·√(1.5² + (0.2·8·d)²) of it unsure, 2.76.
func TestFallsBelowTheLowMark(t *testing.T) {
	low := units.Gallons(52)
	l, _ := book.Level(fill, monday)
	got, ok := book.Falls(l, low)
	if !ok {
		t.Fatal("got no day")
	}
	about, soonest := got.About.Sub(monday).Hours()/24, got.Soonest.Sub(monday).Hours()/24
	if math.Abs(about-3.786) > 0.001 {
		t.Errorf("about: got %.4f, want 3.786 days", about)
	}
	if left := 227.125 - 8*soonest - 1.645*math.Hypot(1.5, 1.6*soonest) - float64(low); math.Abs(left) > 0.001 {
		t.Errorf("soonest: %.4f days leave %.4f L over the mark, want 0", soonest, left)
	}
	l, _ = book.Level(fill, after(4))
	if got, ok := book.Falls(l, low); !ok || !got.About.Equal(after(4)) || !got.Soonest.Equal(after(4)) {
		t.Errorf("there already: got %+v, %v", got, ok)
	}
	still := book
	still.PerDay = 0
	l, _ = still.Level(fill, monday)
	if got, ok := still.Falls(l, low); ok {
		t.Errorf("nothing evaporates: got %+v", got)
	}
	still.Out = 8
	if got, ok := still.Falls(l, low); !ok || !got.About.Equal(book.mustFall(t, low).About) {
		t.Errorf("carried out as fast: got %+v, %v", got, ok)
	}
}

func (b Book) mustFall(t *testing.T, low units.Volume) Falls {
	t.Helper()
	l, _ := b.Level(fill, monday)
	f, ok := b.Falls(l, low)
	if !ok {
		t.Fatal("got no day")
	}
	return f
}

func TestSoapNeverComesFromNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := append([]Event{}, fill...)
		dosed := 4.5425
		for i := range rapid.IntRange(0, 12).Draw(t, "events") {
			e := Event{after(rapid.Float64Range(0, 20).Draw(t, "at")), What(rapid.IntRange(1, 5).Draw(t, "what")), units.Volume(rapid.Float64Range(0, 60).Draw(t, "volume"))}
			if events = append(events, e); e.What == Dosed {
				dosed += float64(e.Volume)
			}
			got, ok := book.Level(events, after(20))
			soap, strength := float64(got.Now.soap()), got.Now.Strength
			if !ok || !(soap >= 0 && soap <= dosed+1e-9) || !(got.Now.Volume >= 0) || !(strength >= 0) || !(got.U >= book.Look) {
				t.Fatalf("after %d events: got %+v of %g L dosed", i+1, got, dosed)
			}
			if f, ok := book.Falls(got, 150); ok && (f.Soonest.After(f.About) || f.Soonest.Before(got.At)) {
				t.Fatalf("falls soonest %v, about %v", f.Soonest, f.About)
			}
		}
	})
}

// The closed form agrees with 20000 small steps, whatever goes in and out.
func TestPaceIsTheMassBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := func(name string) units.Volume { return units.Volume(rapid.Float64Range(0, 15).Draw(t, name)) }
		p := Pace{rate("evaporation"), rate("out"), rate("make-up"), rapid.Float64Range(0, 0.1).Draw(t, "strength")}
		if rapid.Bool().Draw(t, "make-up is evaporation") {
			p.MakeUp = p.Evaporation
		}
		start := Liquor{227, 0.02}
		got, want := start.After(p, 5*day), start
		const steps = 20000
		for range steps {
			part := units.Volume(5.0 / steps)
			want = want.Dry(p.Evaporation * part).Less(p.CarryOut * part).Plus(Liquor{p.MakeUp * part, p.Strength})
		}
		if math.Abs(float64(got.Volume-want.Volume)) > 1e-6 || math.Abs(got.Strength-want.Strength) > 1e-6 {
			t.Errorf("%+v: got %+v, in steps %+v", p, got, want)
		}
	})
}

func TestDoseGetsThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Liquor{units.Volume(rapid.Float64Range(100, 227).Draw(t, "volume")), rapid.Float64Range(0, 0.05).Draw(t, "strength")}
		want := rapid.Float64Range(0, 0.1).Draw(t, "want")
		d, err := l.Dose(227, want)
		if err != nil {
			t.Skip(err.Error())
		}
		got := l.Less(d.Drawn).Plus(Liquor{d.Soap, 1}).Plus(Liquor{Volume: d.Water})
		if d.Drawn < 0 || d.Soap < 0 || d.Water < 0 || math.Abs(float64(got.Volume)-227) > 1e-9 || math.Abs(got.Strength-want) > 1e-12 {
			t.Errorf("%+v gives %+v", d, got)
		}
	})
}

func TestDoseRefusals(t *testing.T) {
	for _, tt := range []struct {
		name     string
		l        Liquor
		mark     units.Volume
		strength float64
		want     string
	}{
		{"above the mark", Liquor{230, 0.01}, 227, 0.02, "a bath of 230.0 L is above its mark at 227.0 L: check the unit"},
		{"too strong", Liquor{227, 0.03}, 227, 0.02, "with water to the mark the bath is still at 3.00 %, above 2.00 %: add water only"},
		{"per cent", Liquor{227, 0.01}, 227, 2, "a strength of 2 in a bath of 227.0 L is none we can reckon with: write 0.02 for 2 %"},
		{"no strength", Liquor{227, 0.01}, 227, math.NaN(), "a strength of NaN in a bath of 227.0 L is none we can reckon with: write 0.02 for 2 %"},
	} {
		if _, err := tt.l.Dose(tt.mark, tt.strength); err == nil || err.Error() != tt.want {
			t.Errorf("%s: got %v, want %s", tt.name, err, tt.want)
		}
	}
}
