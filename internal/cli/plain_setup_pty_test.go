//go:build unix

package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// From no station to one with a list of what to do next, by ear; a wrong answer
// gets its sentence and the same question.
func TestPlainSetUp(t *testing.T) {
	data := filepath.Join(t.TempDir(), "station.db")
	const enter = "\n"
	screen := aloud(t, data, 0, []answer{
		{"Set up this station. A dot alone leaves", ""},
		{"station, like Cobble Hill, station 3: ", enter}, {"Station is missing: give it like Cobble Hill", ""}, {"station 3: ", "Ridge Top\n"},
		{"your own name, like Ana Reyes", "Noor Haddad\n"},
		{"units, number or word [us]: ", "2\n"},
		{"volume to the mark, like 64gal: ", "two\n"}, {`"two"`, ""}, {"like 64gal: ", "265\n"}, {"Read as 265.0 L.", ""},
		{"the mark, like middle of the return pipe: ", "upper rivet\n"}, {"heater, like 6kW: ", enter},
		{"1 alkaline: ", ""}, {"soap, number or word [alkaline]: ", enter}, {"ratio, like 30: ", "2\n"},
		{"parts, number or word [of-total]: ", "in-water\n"}, {"set point, like 122F: ", "90\n"}, {"68 to 176 °F (20 to 80 °C) are allowed", ""}, {"set point, like 122F [90 °C]: ", "50\n"}, {"kept hot, like yes [no]: ", enter},
		{"shift pattern, like 24/48@07:00: ", "24/96@07:00\n"}, {"24/96", ""}, {"shift pattern, like 24/48@07:00", "24/48@07:00\n"},
		{"time zone, like America/Denver [", "Mars/Base\n"},
		{`"Mars/Base" is not a time zone`, ""}, {"time zone, like America/Denver [", "Europe/Oslo\n"},
		{"is stronger than the strongest allowed", ""}, // and all is asked again, as it was typed
		{"station 3 [Ridge Top]: ", enter}, {"Ana Reyes [Noor Haddad]: ", enter}, {"[si]: ", enter}, {"[265.0 L]: ", enter},
		{"[upper rivet]: ", enter}, {"heater, like 6kW: ", enter}, {"[alkaline]: ", enter}, {"[2]: ", "40\n"}, {"[in-water]: ", enter},
		{"[50 °C]: ", enter}, {"[no]: ", enter}, {"[24/48@07:00]: ", enter}, {"[Europe/Oslo]: ", enter},
		{"a PIN now, yes or no [no]: ", "yes\n"}, {"new PIN of Noor Haddad", "1234\n"}, {"the same again", "1234\n"}, {"digits in a row", ""},
		{"a PIN now, yes or no [no]: ", "yes\n"}, {"new PIN of Noor Haddad", oddPIN + "\n"}, {"the same again", oddPIN + "\n"},
		{"Ridge Top is set up.", ""}, {"Fill the bath to the mark", ""}, {toList, "0\n"},
	}, "--plain")
	if strings.Contains(screen, oddPIN) {
		t.Error("the PIN was shown")
	}
	wantLine(t, data, `"kind":"member"`, `"by":"Noor Haddad"`, `"role":"officer"`)
	wantLine(t, data, `"kind":"setting"`, `"station":"Ridge Top"`, `"units":"si"`, `"zone":"Europe/Oslo"`, `"shift":"24/48@07:00"`, `"parts":"in-water"`, `"kept_hot":false`)
	wantLine(t, data, `"kind":"tank"`, `"volume_l":265`, `"mark":"upper rivet"`, `"set_c":50`, `"ratio":40`, `"product":`)
	shell(t, data, "verify")

	if out := aloud(t, data, 2, nil, "setup", "--plain"); !strings.Contains(out, "is there already and stays as it is") {
		t.Errorf("a second set-up said\n%s", out)
	}
}

// What is left makes nothing, whatever was typed before; what flags said is not
// asked for with an empty line.
func TestPlainSetUpIsLeft(t *testing.T) {
	data := filepath.Join(t.TempDir(), "station.db")
	for _, left := range []string{".\n", "\x04"} {
		aloud(t, data, 0, []answer{
			{"station 3 [Ridge Top]: ", "\n"}, {"your own name, like Ana Reyes [Noor]: ", "\n"}, {"units, number or word [us]: ", left},
			{"Left, and nothing was set up.", ""},
		}, "setup", "--plain", "--station", "Ridge Top", "--officer", "Noor")
		if _, err := os.Stat(data); !os.IsNotExist(err) {
			t.Errorf("there is a station: %v", err)
		}
	}
}

// Where no screen can be drawn, the first start goes line by line too.
func TestADumbTerminalIsSetUpByLines(t *testing.T) {
	data := filepath.Join(t.TempDir(), "station.db")
	screen, code, _ := atTerminalWith(t, []string{"TERM=dumb", "BATHSIDE_AS="}, data, []answer{
		{"station 3: ", ".\n"}, {"Left, and nothing was set up.", ""},
	})
	if code != 0 || !strings.Contains(screen, "no console can be drawn on this terminal") {
		t.Errorf("got code %d:\n%s", code, screen)
	}
}
