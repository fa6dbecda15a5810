package station_test

import (
	"bufio"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"testing"
	"time"
)

// scene is a log book and the victims that write to it, one kill after another.
type scene struct {
	crash crash
	name  string // of the crash
	path  string
	base  int            // lines that were there before the first victim
	told  map[string]int // by victim, how many things were told to be done
	seen  map[string]int // as many of them were there after the kill before
	maybe int            // things that were there without having been told, all kills together

	beside map[string]string // by name, what the other files there hold, which nothing changes
}

// victimFailed is the exit code of a victim that ended by itself.
const victimFailed = 3

// kill starts the victims where those before them left off, and kills each at
// a moment of its own.
func (sc *scene) kill(t testing.TB, y *tally) {
	t.Helper()
	running := make([]*exec.Cmd, sc.crash.victims)
	told := make([]*bufio.Scanner, sc.crash.victims)
	for k := range running {
		running[k], told[k] = startVictim(t, sc.name, sc.path, victimName(k), sc.told[victimName(k)])
	}
	for k, cmd := range running {
		name := victimName(k)
		if !told[k].Scan() || told[k].Text() != atWork {
			t.Fatalf("%s did not begin: %v", name, cmd.Wait())
		}
		if rand.N(2) == 0 { // on a slow machine the others may die before they have done anything
			sc.hear(t, name, told[k])
		}
		time.AfterFunc(rand.N(sc.crash.within), func() { _ = cmd.Process.Kill() }) // Wait says how it ended
	}
	for k, cmd := range running {
		name := victimName(k)
		for sc.hear(t, name, told[k]) {
		}
		if err := cmd.Wait(); err == nil || cmd.ProcessState.ExitCode() == victimFailed {
			t.Fatalf("%s ended by itself: %v", name, err)
		}
		y.kills++
	}
}

// hear takes one acknowledgement; false at the end of them.
func (sc *scene) hear(t testing.TB, name string, told *bufio.Scanner) bool {
	t.Helper()
	if !told.Scan() {
		return false
	}
	if told.Text() != strconv.Itoa(sc.told[name]) {
		t.Fatalf("%s told %q after %d things", name, told.Text(), sc.told[name])
	}
	sc.told[name]++
	return true
}

// look reads what is there after a kill.
func (sc *scene) look(y *tally) {
	sc.crash.look(y, sc)
	sc.lookAround(y)
	for name, n := range sc.told {
		sc.seen[name] = n
	}
}

func victimName(k int) string { return fmt.Sprint("victim", k) }

// startVictim starts this program as a victim and gives the lines it tells.
func startVictim(t testing.TB, what, path, name string, from int) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	cmd := exec.Command(os.Args[0], path, name, strconv.Itoa(from))
	cmd.Env = append(os.Environ(), childEnv+"="+what)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe() // stays open until it is killed
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = in.(io.Closer).Close() })
	return cmd, bufio.NewScanner(out)
}
