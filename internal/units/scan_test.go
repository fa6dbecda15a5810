package units_test

import (
	"encoding/json"
	"testing"

	"bathside/internal/units"
)

// TestWaysOfWriting: everybody's spelling of the same thing reads the same.
func TestWaysOfWriting(t *testing.T) {
	t.Run("60 gal", sameAs(units.Gallons(60), "60gal", "60 gal", " 60GAL ", "60 Gallons", "60.0 gal.", "6e1 gal",
		"+60gal", "60\u00a0gal", "60. gal", "\t60 gal\n"))
	t.Run("half a gallon", sameAs(units.Gallons(0.5), ".5gal", "0.5 gallon", "2 qt", "2 quarts", "4 pints", "4pt", "64 fl oz",
		"64floz", "64 Fl. Oz.", "64 fluid ounces"))
	t.Run("2.5 L", sameAs(units.Volume(2.5), "2.5L", "2.5e0 L", "2.5 l", "2.5 litres", "2.5 liters", "2500 mL", "2500ml", "2.5E+3 millilitres"))
	t.Run("122 °F", sameAs(units.Fahrenheit(122), "122F", "122 F", "122°F", "122 °F", "122 ° f", "122ºF", "122℉", "122 deg F",
		"122 degrees Fahrenheit", "50C", "50 °c", "50℃", "50 Celsius"))
	t.Run("0 K", sameAs(units.Kelvin(0), "0K", "0 kelvin", "-459.67F", "-273.15 °C"))
	t.Run("a difference", sameAs(units.Delta(-5), "-9F", "-9 °F", "-5 C", "-5K"))
	t.Run("12.5 kg", sameAs(units.Mass(12.5), "12.5kg", "12500 g", "12.5 kilograms"))
	t.Run("1 lb", sameAs(units.Pounds(1), "1lb", "1 LBS", "1 pound", "16oz", "16 ounces"))
	t.Run("18 in", sameAs(units.Inches(18), "18in", "18 inches", `18"`, "1.5ft", "1.5 feet", "1.5'", "45.72cm", "457.2 mm"))
	t.Run("2 m", sameAs(units.Length(2), "2m", "2 M", "2 metres", "2 meters"))
	t.Run("half a square metre", sameAs(units.Area(0.5), "0.5m2", "0.5 m²", "0.5 sq m", "0.5 square metres"))
	t.Run("4 ft²", sameAs(units.SquareFeet(4), "4ft2", "4 ft²", "4 sq ft", "4 square feet"))
	t.Run("6 kW", sameAs(units.Kilowatts(6), "6kW", "6 KW", "6000 W", "6000watts"))
	t.Run("8 gpm", sameAs(units.GallonsPerMinute(8), "8gpm", "8 GPM", "8 gal/min", "8 gallons per minute"))
	t.Run("0.5 L/s", sameAs(units.Flow(0.5), "0.5L/s", "30 L/min", "30 lpm", "1.8m3/h", "1.8 m³/h"))
	t.Run("90 min", sameAs(units.Hours(1.5), "1h30", "1 h 30", "1h30m", "1h30min", "1 h 30 min", "1 hour 30 minutes", "90min",
		"90 mins", "90m", "1.5h", "1 hr 30", "1H30M", "5400s"))
	t.Run("20 s", sameAs(units.Span(20), "20s", "20 sec", "20 seconds"))
	t.Run("4.5 min", sameAs(units.Span(270), "4min30s", "4 min 30 sec", "4.5min"))
	t.Run("2 days", sameAs(units.Hours(48), "2d", "2 days", "1d 24h", "1d23h59min60s"))
	t.Run("pH", sameAs(units.PH(10.1), "10.10", "10.1", " 10.1 "))
	t.Run("no sign on zero", func(t *testing.T) {
		v, err := units.Parse[units.Volume]("-0 gal")
		if err != nil || units.SI.Number(v) != "0.0" || 1/float64(v) < 0 {
			t.Errorf("got %v, %v, want plain 0", float64(v), err)
		}
	})
}

// sameAs checks that every text reads as want, to twelve digits.
func sameAs[Q units.Quantity](want Q, texts ...string) func(*testing.T) {
	return func(t *testing.T) {
		for _, text := range texts {
			got, err := units.Parse[Q](text)
			if err != nil {
				t.Error(err)
				continue
			}
			near(t, text, float64(got), float64(want))
		}
	}
}

// TestFormsTakeBareNumbers: a form shows its unit beside the field.
func TestFormsTakeBareNumbers(t *testing.T) {
	us, si := units.US, units.SI
	t.Run("gallons", bareIs(us, "60", units.Gallons(60)))
	t.Run("litres", bareIs(si, "60", units.Volume(60)))
	t.Run("litres though the form shows gallons", bareIs(us, "60 L", units.Volume(60)))
	t.Run("°F", bareIs(us, "122", units.Fahrenheit(122)))
	t.Run("°C", bareIs(si, "50", units.Temperature(50)))
	t.Run("°F apart", bareIs(us, "9", units.Delta(5)))
	t.Run("minutes in US", bareIs(us, "4.5", units.Span(270)))
	t.Run("minutes in SI", bareIs(si, "4.5", units.Span(270)))
	t.Run("hours and bare minutes", bareIs(us, "1h05", units.Span(3900)))
	t.Run("pounds", bareIs(us, "20", units.Pounds(20)))
	t.Run("kilograms", bareIs(si, "20", units.Mass(20)))
	t.Run("inches", bareIs(us, "18", units.Inches(18)))
	t.Run("centimetres", bareIs(si, "45", units.Length(0.45)))
	t.Run("square feet", bareIs(us, "4", units.SquareFeet(4)))
	t.Run("square metres", bareIs(si, "0.5", units.Area(0.5)))
	t.Run("kilowatts in US", bareIs(us, "6", units.Power(6000)))
	t.Run("kilowatts in SI", bareIs(si, "6", units.Power(6000)))
	t.Run("gpm", bareIs(us, "8", units.GallonsPerMinute(8)))
	t.Run("litres a minute", bareIs(si, "30", units.Flow(0.5)))
	t.Run("pH", bareIs(us, "10.10", units.PH(10.1)))
	t.Run("a number", bareIs(us, "1.5", 1.5))
	t.Run("a count", bareIs(us, "-3", -3))
}

func bareIs[Q units.Quantity | float64 | int](sys units.System, text string, want Q) func(*testing.T) {
	return func(t *testing.T) {
		var got Q
		if err := sys.Scan(&got, text); err != nil {
			t.Fatal(err)
		}
		near(t, text, float64(got), float64(want))
	}
}

func TestRefusalKeepsTheOldValue(t *testing.T) {
	v := units.Gallons(60)
	if err := units.Scan(&v, "60 furlongs"); err == nil || v != units.Gallons(60) {
		t.Errorf("got %v and error %v, want the old value and an error", v, err)
	}
}

func TestScanIntoAnythingElse(t *testing.T) {
	var s string
	if err := units.Scan(&s, "60gal"); err == nil {
		t.Error("a string was scanned into: want an error")
	}
}

func TestSystems(t *testing.T) {
	for text, want := range map[string]units.System{"us": units.US, " US": units.US, "si": units.SI, "Si": units.SI} {
		if got, err := units.ParseSystem(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	var zero units.System
	if zero.String() != "us" {
		t.Errorf("zero value: got %q, want us", zero)
	}
}

func TestJSON(t *testing.T) {
	type entry struct {
		Water  units.Volume `json:"water_l"`
		PH     units.PH     `json:"ph"`
		For    units.Span   `json:"for_s"`
		System units.System `json:"units"`
	}
	want := entry{Water: 227.5, PH: 10.1, For: 90, System: units.SI}
	data, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if text := `{"water_l":227.5,"ph":10.1,"for_s":90,"units":"si"}`; string(data) != text {
		t.Errorf("got %s, want %s", data, text)
	}
	var got entry
	if err := json.Unmarshal(data, &got); err != nil || got != want {
		t.Errorf("got %+v, %v, want %+v", got, err, want)
	}
	if err := json.Unmarshal([]byte(`{"units":"metric"}`), &got); err == nil {
		t.Error("units metric was taken: want an error")
	}
}
