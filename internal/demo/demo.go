// Package demo makes station files that nobody worked for: a made-up station
// to look at (Build), and a very long log book to measure with (BuildLarge).
//
// It judges nothing and knows no rules of its own. The story of the made-up
// station is data, assets/demo/station.toml; its lines go in by the same door
// as the crew's, so that the demo cannot show what a station could not log.
package demo

import (
	"errors"
	"fmt"
	"time"

	"bathside/assets"
	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/station"
)

// Build makes a station file at path: the demo's ten weeks, moved in time so
// that the duty day which is on at now follows its last one. The station lies
// in now's own zone where that has a name, so that its clock is the reader's.
//
// The same now gives the same lines, to the seal. ErrExists, of package
// station, where there is a file already; after any other error there may be a
// part of one.
func Build(path string, now time.Time, cat *catalog.Catalog) error {
	script, err := readScript(assets.FS)
	if err != nil {
		return fmt.Errorf("read the demo: %w", err)
	}
	days, err := script.stage(now)
	if err != nil {
		return fmt.Errorf("read the demo: %w", err)
	}
	if err := play(path, days, cat); err != nil {
		return fmt.Errorf("make the demo station: %w", err)
	}
	return nil
}

// play records one duty day after the other, each in one go and by a clock
// that stands just after its last line: a commit for every line would wait
// five times as often for the disk.
func play(path string, days []stagedDay, cat *catalog.Catalog) error {
	clock := days[0].written
	o := station.Options{Now: func() time.Time { return clock }, Catalog: cat}
	s, err := station.Create(path, o, days[0].drafts...)
	if err != nil {
		return err
	}
	for _, day := range days[1:] {
		clock = day.written
		if err := record(s, day.drafts); err != nil {
			return errors.Join(fmt.Errorf("%d days ago: %w", day.ago, err), s.Close())
		}
	}
	return s.Close()
}

// record writes the lines of a day. A decision rests on what the lines before
// it say, so these go in first.
func record(s *station.Station, drafts []station.Draft) error {
	for i, d := range drafts {
		decision, ok := d.Body.(*bath.Decision)
		if !ok {
			continue
		}
		if i > 0 {
			if _, err := s.Record(drafts[:i]...); err != nil {
				return err
			}
			return record(s, drafts[i:])
		}
		state, err := s.State()
		if err != nil {
			return err
		}
		x, err := advise.Assess(state, d.Bath, d.At)
		if err != nil {
			return err
		}
		if err := x.Complete(decision); err != nil {
			return err
		}
	}
	_, err := s.Record(drafts...)
	return err
}
