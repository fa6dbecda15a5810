package station_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// deed is what a victim does to the log book at path: it gives a function that
// does thing number i. When that returns nil the thing is done and on the
// disk. The name keeps apart what several victims do.
//
// A kill may come after a thing is done and before it is told, so the next
// victim of that name does the same number again.
type deed func(path, name string) (do func(i int) error, err error)

// victim is the program that is killed: it does one thing after another, from
// the number that it is given, and tells each once it is done. It tells that it
// is there before it has opened anything. It ends by itself only by an error,
// or when nobody listens any more.
func victim(do deed, path, name, from string) error {
	i, err := strconv.Atoi(from)
	if err != nil {
		return err
	}
	fmt.Println(atWork)
	next, err := do(path, name)
	for ; err == nil; i++ {
		if err = next(i); err == nil {
			_, err = fmt.Println(i)
		}
	}
	return err
}

const atWork = "at work"

func atNoon() time.Time { return noon }

// recording writes records of one to five lines, now and then one that crosses
// out a line of the record before.
func recording(path, name string) (func(int) error, error) {
	s, err := station.Open(path, station.Options{Now: atNoon})
	if err != nil {
		return nil, err
	}
	var before []bath.Entry
	return func(i int) (err error) {
		drafts := batch(name, i)
		if i%8 == 5 && len(before) > 0 {
			drafts[0].Body = &bath.Strike{Target: before[0].Seq, Why: "written twice"}
		}
		before, err = s.Record(drafts...)
		return err
	}, nil
}

// batch is record i of a victim. Its ids are all that is looked for.
func batch(name string, i int) []station.Draft {
	drafts := make([]station.Draft, 1+i%5)
	for k := range drafts {
		drafts[k] = note(batchID(name, i, k))
		if k == 1 {
			drafts[k].Body = &bath.Reading{PH: 10, SampleC: 50, Meter: "M1"}
		}
		drafts[k].ID = batchID(name, i, k)
	}
	return drafts
}

func batchID(name string, i, k int) string { return fmt.Sprint(batchOf(name, i), k) }

// batchOf is what all ids of a batch begin with, and no other's.
func batchOf(name string, i int) string { return fmt.Sprintf("%s-%d-", name, i) }

// resettingPINs gives the crew member one PIN after another: a line and a
// record beside the chain, in one transaction. The PIN follows from how many
// lines there are.
func resettingPINs(path, _ string) (func(int) error, error) {
	s, err := station.Open(path, station.Options{Now: atNoon, PINLine: pinLine})
	if err != nil {
		return nil, err
	}
	return func(int) error {
		st, err := s.State()
		if err != nil {
			return err
		}
		return s.ResetPIN(crew, pinAfter(st.Seq+1))
	}, nil
}

func pinLine(ev station.PINEvent) bath.Body { return &bath.PIN{Member: ev.Member, Event: ev.Kind} }

// pinAfter is the PIN that was set by the line seq.
func pinAfter(seq uint64) station.PIN { return station.PIN(fmt.Sprint(58_203_617 + 7919*seq)) }

// guessing gives one wrong PIN after another. Each line puts the clock on by more
// than the longest lock, for nothing is written while a PIN is locked.
func guessing(path, _ string) (func(int) error, error) {
	clock := &wall{now: noon}
	s, err := station.Open(path, station.Options{Now: clock.read, PINLine: pinLine})
	if err != nil {
		return nil, err
	}
	return func(int) error {
		st, err := s.State()
		if err != nil {
			return err
		}
		clock.wait(noon.Add(time.Duration(st.Seq) * 2 * time.Hour).Sub(clock.read()))
		_, err = s.Authorize(crew, "7702")
		if _, ok := errors.AsType[*station.PINError](err); ok {
			return nil
		}
		return fmt.Errorf("a wrong PIN was not refused: %w", err)
	}, nil
}

// importing makes one copy of the log book after another out of its export.
// A copy that the kill let finish is there already.
func importing(path, name string) (func(int) error, error) {
	s, err := station.Open(path, station.Options{Now: atNoon})
	if err != nil {
		return nil, err
	}
	var lines bytes.Buffer
	if err := s.Export(&lines); err != nil {
		return nil, err
	}
	return func(i int) error {
		_, err := station.Import(copyNumber(path, name, i), bytes.NewReader(lines.Bytes()))
		return unlessThere(err)
	}, nil
}

// settingUp makes one new station after another.
func settingUp(path, name string) (func(int) error, error) {
	return func(i int) error {
		s, err := station.Create(copyNumber(path, name, i), station.Options{Now: atNoon}, first()...)
		if err != nil {
			return unlessThere(err)
		}
		return s.Close()
	}, nil
}

func copyNumber(path, name string, i int) string {
	return filepath.Join(filepath.Dir(path), fmt.Sprintf("%s-%d.db", name, i))
}

func unlessThere(err error) error {
	if errors.Is(err, station.ErrExists) {
		return nil
	}
	return err
}

// lying tells what it has not written: the harness must see that.
func lying(string, string) (func(int) error, error) {
	return func(int) error { return nil }, nil
}

// tearing writes the first line of a record of its own, and then waits for the
// kill: the harness must see that too. The first record of each victim is
// whole, for the kill may wait until it is told.
func tearing(path, name string) (func(int) error, error) {
	s, err := station.Open(path, station.Options{Now: atNoon})
	if err != nil {
		return nil, err
	}
	begun := false
	return func(i int) error {
		drafts := batch(name, i)
		if len(drafts) == 1 || !begun {
			begun = true
			_, err := s.Record(drafts...)
			return err
		}
		if _, err := s.Record(drafts[0]); err != nil {
			return err
		}
		_, err := io.Copy(io.Discard, os.Stdin)
		return err
	}, nil
}
