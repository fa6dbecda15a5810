package cli

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"
)

const (
	typedPIN = "580213974602"
	freshPIN = "770264193518"
)

// withPINs runs the program with two PINs in its environment, which is that of
// this test.
func withPINs(t *testing.T, change func(*Process), args ...string) (code int, out, said string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	p := process(newStationFile(t), &stdout, &stderr, args...)
	p.Getenv = os.Getenv
	change(&p)
	t.Setenv(pinName, typedPIN)
	t.Setenv(newPINName, freshPIN)
	code = Main(p)
	return code, stdout.String(), stderr.String()
}

// What the program starts must not inherit a PIN.
func TestPINsLeaveTheEnvironment(t *testing.T) {
	code, out, said := withPINs(t, func(*Process) {}, "pin", "set")
	if code != 0 || out != "PIN of Ana Reyes set\n" {
		t.Errorf("got code %d, %s%s", code, out, said)
	}
	for _, name := range []string{pinName, newPINName} {
		if v, there := os.LookupEnv(name); there {
			t.Errorf("$%s is still there: %q", name, v)
		}
	}
}

func TestAPanicTellsNoPIN(t *testing.T) {
	broken := func(p *Process) { p.Now = func() time.Time { panic("the clock broke") } }
	code, out, said := withPINs(t, broken, "log", "setting", "--limit", "0.4")
	if code != 1 || !strings.Contains(said, "the clock broke") || strings.Contains(out+said, typedPIN) || strings.Contains(out+said, freshPIN) {
		t.Errorf("got code %d, %s%s", code, out, said)
	}
}
