package cli

import (
	"os"
	"testing"
	"time"

	"github.com/adrg/xdg"
	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain makes this test binary serve as the program too, so that each
// command of a story is a process of its own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"bathside": func() {
			os.Exit(Main(Process{
				Args: os.Args[1:],
				In:   os.Stdin, Out: os.Stdout, Err: os.Stderr,
				Getenv: os.Getenv, Now: testClock(os.Getenv("BATHSIDE_TEST_CLOCK")), Version: "test",
				State: xdg.StateHome,
			}))
		},
	})
}

// testClock is the clock of a program under test: the time in the file at path,
// which the test moves; the machine's where there is none.
func testClock(path string) func() time.Time {
	if path == "" {
		return time.Now
	}
	return func() time.Time {
		text, err := os.ReadFile(path)
		if err != nil {
			panic(err)
		}
		t, err := time.Parse(time.RFC3339, string(text))
		if err != nil {
			panic(err)
		}
		return t
	}
}

func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"code": cmdCode, "refused": cmdRefused, "newer": cmdNewer, "flip": cmdFlip, "hold": cmdHold, "noescape": cmdNoEscape, "json": cmdJSON,
		},
		Setup: func(env *testscript.Env) error {
			// Nothing of the machine's own station, zone or colours.
			for name, value := range map[string]string{
				"HOME": env.WorkDir, "XDG_DATA_HOME": env.WorkDir + "/data", "XDG_STATE_HOME": env.WorkDir + "/state",
				"XDG_CONFIG_HOME": env.WorkDir + "/config", "TZ": "America/Denver", "TERM": "xterm-256color", "COLORTERM": "truecolor",
				"BATHSIDE_DATA": env.WorkDir + "/station.db", "GORACE": os.Getenv("GORACE"),
			} {
				env.Setenv(name, value)
			}
			return nil
		},
	})
}
