package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	bolt "go.etcd.io/bbolt"
)

// The words that our stories have besides those of testscript.

// cmdCode runs a command and wants this exit code: code 3 bathside status.
func cmdCode(ts *testscript.TestScript, _ bool, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	if got := exitCode(ts, ts.Exec(args[1], args[2:]...)); got != want {
		ts.Fatalf("%s: exit code got %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

func exitCode(ts *testscript.TestScript, err error) int {
	if exit := new(exec.ExitError); errors.As(err, &exit) {
		return exit.ExitCode()
	}
	ts.Check(err)
	return 0
}

// cmdRefused runs bathside and wants a refusal: exit code 2, nothing on
// standard output, one sentence on one line of standard error that fits a
// pattern, and the log book as it was: refused 'no fill is open' log temp ...
func cmdRefused(ts *testscript.TestScript, _ bool, args []string) {
	before := digest(ts)
	cmdCode(ts, false, append([]string{"2", "bathside"}, args[1:]...))
	said := ts.ReadFile("stderr")
	if out := ts.ReadFile("stdout"); out != "" {
		ts.Fatalf("standard output got %q, want nothing", out)
	}
	if !oneSentence.MatchString(said) {
		ts.Fatalf("standard error got %q, want one line", said)
	}
	if !regexp.MustCompile(args[0]).MatchString(said) {
		ts.Fatalf("standard error got %q, want a match for %q", said, args[0])
	}
	if after := digest(ts); !bytes.Equal(before, after) {
		ts.Fatalf("%s changed the station file", strings.Join(args[1:], " "))
	}
}

var oneSentence = regexp.MustCompile(`^bathside: [^\n]+\n$`)

// digest is the bytes of the station file. They stay the same where nothing is
// written, so the export does too.
func digest(ts *testscript.TestScript) []byte {
	data, err := os.ReadFile(ts.Getenv("BATHSIDE_DATA"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		ts.Check(err)
	}
	return data
}

// cmdNewer makes the station file one that a later version wrote: newer FILE.
func cmdNewer(ts *testscript.TestScript, _ bool, args []string) {
	db, err := bolt.Open(ts.MkAbs(args[0]), 0o600, nil)
	ts.Check(err)
	ts.Check(db.Update(func(tx *bolt.Tx) error {
		return tx.Bucket([]byte("meta")).Put([]byte("format"), []byte("bathside-journal/99"))
	}))
	ts.Check(db.Close())
}

// cmdFlip changes a stored line behind the program's back: flip FILE OLD NEW,
// of the same length.
func cmdFlip(ts *testscript.TestScript, _ bool, args []string) {
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	if !bytes.Contains(data, []byte(args[1])) || len(args[1]) != len(args[2]) {
		ts.Fatalf("%s has no %q to flip", args[0], args[1])
	}
	ts.Check(os.WriteFile(path, bytes.ReplaceAll(data, []byte(args[1]), []byte(args[2])), 0o600))
}

// cmdHold keeps the station file locked to the end of the story: hold FILE.
func cmdHold(ts *testscript.TestScript, _ bool, args []string) {
	db, err := bolt.Open(ts.MkAbs(args[0]), 0o600, nil)
	ts.Check(err)
	ts.Defer(func() { ts.Check(db.Close()) })
}

// cmdNoEscape wants no control character but the ends of lines, tabs and pages
// in what was written last.
func cmdNoEscape(ts *testscript.TestScript, _ bool, _ []string) {
	for _, name := range []string{"stdout", "stderr"} {
		for i, r := range ts.ReadFile(name) {
			if r < ' ' && !strings.ContainsRune("\n\t\f", r) || r == 0x7f || r >= 0x80 && r < 0xa0 {
				ts.Fatalf("%s: got control character %U at %d", name, r, i)
			}
		}
	}
}

// cmdJSON looks into the JSON that was written last: json fill.volume_l 242.27
// wants that value, numbers to a thousandth of it or to a third word: json ph
// 9.661 0.005. ! json wants no such key.
func cmdJSON(ts *testscript.TestScript, neg bool, args []string) {
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &v))
	got, ok := dig(v, strings.Split(args[0], "."))
	switch {
	case neg && ok:
		ts.Fatalf("%s: got %v, want it absent", args[0], got)
	case neg:
	case !ok:
		ts.Fatalf("%s is absent in %s", args[0], ts.ReadFile("stdout"))
	case len(args) > 1 && !same(got, args[1], args[2:]...):
		ts.Fatalf("%s: got %v, want %s", args[0], got, args[1])
	}
}

func dig(v any, keys []string) (any, bool) {
	for _, key := range keys {
		switch in := v.(type) {
		case map[string]any:
			next, ok := in[key]
			if !ok {
				return nil, false
			}
			v = next
		case []any:
			i, err := strconv.Atoi(key)
			if err != nil || i >= len(in) {
				return nil, false
			}
			v = in[i]
		default:
			return nil, false
		}
	}
	return v, true
}

func same(got any, want string, within ...string) bool {
	if x, ok := got.(float64); ok {
		y, err := strconv.ParseFloat(want, 64)
		far := 1e-3 * math.Abs(y)
		if err == nil && len(within) > 0 {
			far, err = strconv.ParseFloat(within[0], 64)
		}
		return err == nil && math.Abs(x-y) <= far
	}
	return fmt.Sprint(got) == want
}
