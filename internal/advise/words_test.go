package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: the words on screen that the trade ruled. OVER LIMIT is never PAST,
// and what is missing is never OK.
func TestStateWord(t *testing.T) {
	for s, want := range map[advise.PHState]string{
		advise.PHOK: "OK", advise.PHWatch: "GETTING CLOSE", advise.PHAtLimit: "AT LIMIT",
		advise.PHPast: "OVER LIMIT", advise.PHUnknown: "READ AGAIN", "": "READ AGAIN", "new": "READ AGAIN",
	} {
		if got := advise.StateWord(s); got != want {
			t.Errorf("%q: got %q, want %q", s, got, want)
		}
	}
}

// Source of the form: the words on screen that the trade ruled, "down 0.27, act
// at 0.50".
func TestDropSay(t *testing.T) {
	tests := []struct {
		name, want string
		book       book
	}{
		{"down", "down 0.27, act at 0.50", inService().add("9 08:00", hot(9.85))},
		{"up", "up 0.03, act at 0.50 down", inService().add("9 08:00", hot(10.15))},
		{"the same", "down 0.00, act at 0.50", inService()},
		{"a limit of its own", "down 0.27, act at 0.40", inService().add("9 08:00", hot(9.85)).add("9 08:01", &bath.Setting{Limit: new(0.4)})},
		{"no first reading", "no first reading: name one", dosed()},
		{"no fill", "no fill is open", setUp()},
		{"another temperature", "down 0.54, act at 0.50", read().add("9 08:00", &bath.Reading{PH: 9.9, SampleC: 30})},
		{"another temperature and meter", "too unsure to compare, give or take 0.28: read again at about the first one's temperature, with a checked meter", read().add("9 08:00", &bath.Reading{PH: 9.9, SampleC: 15, Meter: "M2"})},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.book.look(t, "9 09:00").DropSay(); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}

func TestTagSay(t *testing.T) {
	b := inService().add("3 02:10", &bath.Hold{Cause: bath.HoldHeater, Why: "trips the breaker"})
	for now, want := range map[string]string{
		"3 07:00":  "DO NOT USE, tagged by Kim Vale 02:10: trips the breaker",
		"4 07:00":  "DO NOT USE, tagged by Kim Vale Tue 02:10: trips the breaker",
		"20 07:00": "DO NOT USE, tagged by Kim Vale 3 Mar 02:10: trips the breaker",
	} {
		if got := b.look(t, now).TagSay(); got != want {
			t.Errorf("on %s: got %q, want %q", now, got, want)
		}
	}
	if got := inService().look(t, "3 07:00").TagSay(); got != "" {
		t.Errorf("no tag: got %q", got)
	}
}

// Source: common practice, no source: 30 to 1 on 60 gal is 2 gal, two jugs of a
// gallon.
func TestAmount(t *testing.T) {
	tests := []struct {
		name, want string
		tank       bath.Tank
		volume     units.Volume
	}{
		{"two jugs", "2.0 gal: 2 jugs", bath.Tank{ContainerL: units.Gallons(1), Container: "jug"}, units.Gallons(60) / 30},
		{"one", "1.0 gal: 1 jug", bath.Tank{ContainerL: units.Gallons(1), Container: "jug"}, units.Gallons(1)},
		{"half a jug", "0.5 gal: 0.5 jugs", bath.Tank{ContainerL: units.Gallons(1), Container: "jug"}, units.Gallons(0.5)},
		{"pails", "10.0 gal: 2 pails", bath.Tank{ContainerL: units.Gallons(5), Container: "pail"}, units.Gallons(10)},
		{"no container on file", "2.0 gal", bath.Tank{}, units.Gallons(2)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x := bare().look(t, "2 07:00")
			x.Bath.Tank.ContainerL, x.Bath.Tank.Container = tt.tank.ContainerL, tt.tank.Container
			if got := x.Amount(tt.volume); got != tt.want {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}
