package cli

import (
	"bufio"
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"bathside/internal/bath"
)

// run runs the program within this process, on the station file at path.
func run(t testing.TB, path string, args ...string) (code int, out, said string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = Main(process(path, &stdout, &stderr, args...))
	return code, stdout.String(), stderr.String()
}

func process(path string, stdout, stderr *bytes.Buffer, args ...string) Process {
	return Process{
		Args: append([]string{"--data", path}, args...),
		In:   strings.NewReader(""), Out: stdout, Err: stderr,
		Getenv: func(string) string { return "" }, Now: time.Now, Version: "test",
	}
}

func newStationFile(t testing.TB) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "station.db")
	if code, _, said := run(t, path, "setup", "--station", "Drill", "--tank", "64gal", "--officer", "Ana Reyes"); code != 0 {
		t.Fatalf("setup: code %d, %s", code, said)
	}
	return path
}

// A Go panic exits with 2, which would read as an input that was refused.
func TestPanicIsAFailure(t *testing.T) {
	var stdout, stderr bytes.Buffer
	p := process(newStationFile(t), &stdout, &stderr, "status")
	p.Now = func() time.Time { panic("the clock broke") }
	if code := Main(p); code != 1 {
		t.Errorf("exit code got %d, want 1", code)
	}
	if said := stderr.String(); !strings.HasPrefix(said, "bathside: ") || !strings.Contains(said, "the clock broke") {
		t.Errorf("standard error got %q", said)
	}
}

func TestReaderThatLeavesEarlyIsNoError(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a closed pipe is another error there; see windowsNoData")
	}
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	r.Close()
	var stderr bytes.Buffer
	p := process(newStationFile(t), nil, &stderr, "export")
	p.Out = w
	if code := Main(p); code != 0 || stderr.Len() > 0 {
		t.Errorf("got code %d, standard error %q, want 0 and nothing", code, stderr.String())
	}
}

// TestInterrupt stops a stream that waits for its next line. What came before
// is on disk.
func TestInterrupt(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process cannot be sent an interrupt there")
	}
	t.Parallel()
	path := newStationFile(t)
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	child := exec.Command(exe, "--data", path, "log", "--stream")
	child.Args[0] = "bathside"
	in, err := child.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = in.Close() }()
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := in.Write([]byte(`{"kind": "handover", "body": {"note": "packs still drip"}}` + "\n")); err != nil {
		t.Fatal(err)
	}
	line, _ := bufio.NewReader(out).ReadString('\n')
	if want := "4 packs still drip\n"; line != want {
		t.Errorf("got %q, want %q", line, want)
	}
	if err := child.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	exit := new(exec.ExitError)
	if err := child.Wait(); !errors.As(err, &exit) || exit.ExitCode() != 130 {
		t.Errorf("got %v, want exit code 130", err)
	}
	if _, log, _ := run(t, path, "export"); !strings.Contains(log, "packs still drip") {
		t.Errorf("the line that was told as recorded is not in the log book:\n%s", log)
	}
}

// TestEveryKindHasItsCommand keeps names of fields from colliding with flags
// that a command needs for itself, and kinds from being left out.
func TestEveryKindHasItsCommand(t *testing.T) {
	root := (&app{Process: Process{Getenv: os.Getenv}}).root()
	for _, spec := range bath.Specs() {
		cmd, _, err := root.Find([]string{"log", string(spec.Kind)})
		if err != nil || cmd.Name() != string(spec.Kind) {
			t.Errorf("log %s: got %v, %v", spec.Kind, cmd.CommandPath(), err)
			continue
		}
		for _, f := range spec.Fields {
			if f.Name == wordField(spec) {
				continue
			}
			if flag := cmd.Flags().Lookup(f.Name); flag == nil || flag.Value.Type() != (&fieldFlag{field: f}).Type() {
				t.Errorf("log %s has no flag --%s of its own", spec.Kind, f.Name)
			}
			if f.Name == "at" || f.Name == "as" || f.Name == "data" || f.Name == "json" || f.Name == "help" {
				t.Errorf("log %s: field %q hides a flag that every kind needs", spec.Kind, f.Name)
			}
		}
	}
}
