package units_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"bathside/internal/units"

	"pgregory.net/rapid"
)

// TestTextReadsBack: what is printed can be typed again, and comes back
// within half of the step it was rounded to (the coarser of the two systems).
func TestTextReadsBack(t *testing.T) {
	t.Run("volume", readsBack[units.Volume](0, 1e6, half(0.1*3.785411784)))
	t.Run("temperature", readsBack[units.Temperature](-273, 1000, half(1/1.8)))
	t.Run("difference", readsBack[units.Delta](-200, 200, half(0.1)))
	t.Run("mass", readsBack[units.Mass](0, 1e5, half(0.1)))
	t.Run("length", readsBack[units.Length](0, 1e3, half(0.1*0.0254)))
	t.Run("area", readsBack[units.Area](0, 1e4, half(0.01)))
	t.Run("power", readsBack[units.Power](0, 1e6, func(x float64) float64 {
		if x < 999.5 {
			return 0.5
		}
		return 50
	}))
	t.Run("flow", readsBack[units.Flow](0, 1e3, half(0.1*3.785411784/60)))
	t.Run("pH", readsBack[units.PH](0, 14, half(0.01)))
	t.Run("span", readsBack[units.Span](0, 1e9, func(x float64) float64 {
		switch {
		case x < 3599.5:
			return 0.5
		case x < 48*3600-30:
			return 30
		}
		return 1800
	}))
}

// half returns half of step at any value.
func half(step float64) func(float64) float64 {
	return func(float64) float64 { return step / 2 }
}

// readsBack draws values and checks the error of one trip through text.
func readsBack[Q units.Quantity](least, most float64, within func(float64) float64) func(*testing.T) {
	return func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			x := rapid.Float64Range(least, most).Draw(t, "x")
			sys := rapid.SampledFrom([]units.System{units.US, units.SI}).Draw(t, "sys")
			text := sys.Text(Q(x))
			got, err := units.Parse[Q](text)
			if err != nil {
				t.Fatal(err)
			}
			// The sliver over is for values half way between two steps.
			if math.Abs(float64(got)-x) > within(x)+1e-9 {
				t.Fatalf("%v printed as %q and read as %v", x, text, float64(got))
			}
			if again := sys.Text(got); again != text {
				t.Fatalf("%q printed again as %q", text, again)
			}
		})
	}
}

// TestAdviceIsTaken: writing what a refusal of a bare number offers works.
func TestAdviceIsTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.StringMatching(`[0-9]{1,6}(\.[0-9]{1,3})?`).Draw(t, "number")
		var refused *units.Error
		if _, err := units.Parse[units.Mass](number); !errors.As(err, &refused) {
			t.Fatalf("%q: got %v, want a refusal", number, err)
		}
		for _, offer := range strings.Split(strings.TrimPrefix(refused.Do, "write "), " or ") {
			if _, err := units.Parse[units.Mass](offer); err != nil {
				t.Fatalf("offered %q: %v", offer, err)
			}
		}
	})
}

// TestPHKeysAgreeWithThePoint: keys that are taken read as with their point.
func TestPHKeysAgreeWithThePoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.StringMatching(`[0-9]{3,4}`).Draw(t, "keys")
		got, err := units.ParsePHKeys(keys)
		if err != nil {
			return
		}
		want, err := units.ParsePH(keys[:len(keys)-2] + "." + keys[len(keys)-2:])
		if err != nil || got != want {
			t.Fatalf("%s: got %v, want %v (%v)", keys, got, want, err)
		}
	})
}

// FuzzScan: no input panics, none gives NaN or infinity or an impossible
// value, and no refusal can harm a terminal.
func FuzzScan(f *testing.F) {
	for _, s := range []string{
		"", "60gal", " 60 GAL ", "2,5", "1,000gal", "5:00", ":", "1h30", "1 h 30 min", "30min 1h", "1d2h3m4s5",
		"NaN", "Inf gal", "1e309 L", "-1e309F", "1e-400 L", "-0 L", "-459.67F", "-1K", ".", "-", "+.e5", "5e gal", "1e5e5 L",
		strings.Repeat("9", 5000), "1e999999999 gal", "\u202e60gal", "60\u200bgal", "\u009b60gal", "-0", "-0e309 F", strings.Repeat("👩\u200d🚒", 200), "שלום gal", "\xed\xa0\x80",
		"982", "101", "98", "10.10", "60\x1b[2J", "\xff\xfe", "٣ gal", "½ gal", "1.2.3 L", "126 °F", "1h.5", "1h5.", "0x1p-2",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, scan := range []func(any, string) error{units.Scan, units.US.Scan, units.SI.Scan} {
			allowed[units.Volume](t, scan, s, 0)
			allowed[units.Temperature](t, scan, s, -273.15)
			allowed[units.Delta](t, scan, s, -1e9)
			allowed[units.Span](t, scan, s, 0)
			allowed[units.Mass](t, scan, s, 0)
			allowed[units.Length](t, scan, s, 0)
			allowed[units.Area](t, scan, s, 0)
			allowed[units.Power](t, scan, s, 0)
			allowed[units.Flow](t, scan, s, 0)
			allowed[units.PH](t, scan, s, 0)
			allowed[float64](t, scan, s, -1e9)
			allowed[int](t, scan, s, -1e9)
		}
	})
}

// FuzzKeys: what is typed at the bath is a pH or refused in a safe sentence,
// and a pH reads back from its own text; so does a system of units.
func FuzzKeys(f *testing.F) {
	for _, s := range []string{"982", "1024", "98", "101", "9.82", " 9.82 ", "1e309", "-0", "NaN", "9,82", "٩٨٢", "99999999999999999999", "\x00982", "982\x1b[2J", "us", "SI", "\u202esi", "\ufffd", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		switch ph, err := units.ParsePHKeys(s); {
		case err != nil:
			safe(t, err.Error())
		case !(ph >= 0 && ph <= 14) || math.Signbit(float64(ph)):
			t.Errorf("pH keys %q: got %v", s, ph)
		default:
			if again, err := units.ParsePH(ph.String()); err != nil || math.Abs(float64(again-ph)) > 0.005001 {
				t.Errorf("%q is %v, which reads back as %v (%v)", s, ph, again, err)
			}
		}
		if _, err := units.ParseSystem(s); err != nil {
			safe(t, err.Error())
		}
	})
}

// allowed reads s as a Q: either a finite value, least or more, or a refusal.
func allowed[Q units.Quantity | float64 | int](t *testing.T, scan func(any, string) error, s string, least float64) {
	t.Helper()
	var q Q
	err := scan(&q, s)
	var refused *units.Error
	switch x := float64(q); {
	case errors.As(err, &refused):
		safe(t, err.Error())
	case err != nil:
		t.Errorf("%q: error %v is a %T", s, err, err)
	case math.IsInf(x, 0) || !(x >= least):
		t.Errorf("%q as %T: got %v", s, q, x)
	}
}

// safe checks that a sentence is one short line of printable text.
func safe(t *testing.T, sentence string) {
	t.Helper()
	if len(sentence) > 600 {
		t.Errorf("sentence of %d bytes: %.80s…", len(sentence), sentence)
	}
	if !utf8.ValidString(sentence) {
		t.Errorf("sentence that is no text: %q", sentence)
	}
	for _, r := range sentence {
		if !unicode.IsPrint(r) {
			t.Errorf("sentence with %U: %q", r, sentence)
		}
	}
}
