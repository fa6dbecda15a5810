package journal_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"bathside/internal/journal"
)

// childEnv makes the test binary act as another process that uses a journal:
// "append PATH NAME COUNT", "hold PATH" or "full PATH".
const childEnv = "JOURNAL_TEST_CHILD"

// children are those that not every system has.
var children = map[string]func(path string) error{}

func TestMain(m *testing.M) {
	if os.Getenv(childEnv) == "" {
		os.Exit(m.Run())
	}
	if err := child(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func child(args []string) error {
	switch args[0] {
	case "append":
		count, err := strconv.Atoi(args[3])
		if err != nil {
			return err
		}
		return appendAndTell(args[1], args[2], count)
	case "hold":
		return hold(args[1])
	}
	if act, ok := children[args[0]]; ok {
		return act(args[1])
	}
	return fmt.Errorf("unknown child %q", args)
}

// appendAndTell prints each ID once the entry is acknowledged.
func appendAndTell(path, name string, count int) error {
	j, err := journal.Open(path)
	if err != nil {
		return err
	}
	j.LockWait = time.Minute // the test is of loss, not of patience
	for i := range count {
		id := fmt.Sprintf("%s-%d", name, i)
		if err := appendTo(j, id); err != nil {
			return err
		}
		fmt.Println(id)
	}
	return nil
}

// hold keeps bbolt's own lock until its standard input is closed.
func hold(path string) error {
	db, err := bolt.Open(path, 0o600, nil)
	if err != nil {
		return err
	}
	fmt.Println("held")
	_, _ = io.Copy(io.Discard, os.Stdin)
	return db.Close()
}

func command(args ...string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), childEnv+"=1")
	cmd.Stderr = os.Stderr
	return cmd
}

// start runs a child and returns it with the lines it prints and a way to
// close its standard input.
func start(t *testing.T, args ...string) (*exec.Cmd, *bufio.Scanner, io.Closer) {
	t.Helper()
	cmd := command(args...)
	in, err := cmd.StdinPipe()
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
	return cmd, bufio.NewScanner(out), in
}

// newJournal makes a journal which is checked from end to end when the test is
// over, as bbolt's own test helper does with its files.
func newJournal(t testing.TB) *journal.Journal {
	t.Helper()
	j, err := journal.Create(filepath.Join(t.TempDir(), "station.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { mustVerify(t, j.Path()) })
	return j
}

func mustVerify(t testing.TB, path string) journal.Report {
	t.Helper()
	report, err := journal.Verify(path)
	if err != nil {
		t.Fatalf("verify: %v\nfindings: %q", err, report.Findings)
	}
	if err := journal.CheckPages(path); err != nil {
		t.Fatal(err)
	}
	return report
}

func entry(id string) journal.Entry {
	at := time.Date(2026, 3, 14, 7, 2, 11, 0, time.FixedZone("", -5*3600))
	return journal.Entry{
		ID: id, At: at, Logged: at.Add(4 * time.Second), By: "kim", Bath: "main", Kind: "reading",
		Body: json.RawMessage(`{"ph":9.82,"sample_c":49.4}`),
	}
}

func appendTo(j *journal.Journal, ids ...string) error {
	return j.Update(func(tx *journal.Tx) error {
		for _, id := range ids {
			if _, err := tx.Append(entry(id)); err != nil {
				return err
			}
		}
		return nil
	})
}

func mustAppend(t testing.TB, j *journal.Journal, ids ...string) {
	t.Helper()
	if err := appendTo(j, ids...); err != nil {
		t.Fatal(err)
	}
}

// numbered returns n IDs.
func numbered(n int) []string {
	ids := make([]string, n)
	for i := range ids {
		ids[i] = fmt.Sprintf("id-%04d", i+1)
	}
	return ids
}

func all(t testing.TB, j *journal.Journal) []journal.Entry {
	t.Helper()
	var entries []journal.Entry
	err := j.View(func(tx *journal.Tx) error {
		for e, err := range tx.Since(0) {
			if err != nil {
				return err
			}
			entries = append(entries, e)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return entries
}
