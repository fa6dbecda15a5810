package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// What makes doctor speak up; our judgement, no source.
const (
	linesLooked = 5000                // of the newest, for jumps of the clock
	silentFor   = 31 * 24 * time.Hour // without a line: nobody wrote, or this clock runs ahead
	backupAge   = 7 * 24 * time.Hour  // as Next has it
)

// clock compares this clock with the ones that wrote.
func (x *checkup) clock(st *station.Station, s *bath.State) {
	now := x.now().In(s.Zone())
	const form = "2 Jan 2006 15:04"
	switch ahead := s.Logged.Sub(now); {
	case s.Logged.IsZero():
		return
	case ahead > bath.Slack:
		x.mend("clock", "set the date and time here; where they are right, the one that wrote that line was wrong: its lines count from when this clock gets there",
			"The newest line was written %s, and here it is %s: this clock is behind, or was set back.", s.Logged.In(s.Zone()).Format(form), now.Format(form))
	case -ahead > silentFor:
		x.mend("clock", "check the date here", "The newest line was written %s, and here it is %s: nobody wrote since, or this clock is ahead.", s.Logged.In(s.Zone()).Format(form), now.Format(form))
	default:
		x.fine("clock", "It is %s here, and the newest line was written %s.", now.Format(form), s.Logged.In(s.Zone()).Format(form))
	}
	if say := jumpsBack(st, s); say != "" {
		x.fine("clock-before", "%s", say)
	}
}

// jumpsBack tells where a line was written earlier than the one before it.
// Lines keep their order, so that nothing is lost by it.
func jumpsBack(st *station.Station, s *bath.State) string {
	lines, err := st.Lines(0, linesLooked)
	if err != nil {
		return ""
	}
	var times int
	var most time.Duration
	var at uint64
	for i := 1; i < len(lines); i++ {
		back := lines[i-1].Logged.Sub(lines[i].Logged)
		if back <= bath.Slack {
			continue
		}
		times++
		if back > most {
			most, at = back, lines[i].Seq
		}
	}
	if times == 0 {
		return ""
	}
	return fmt.Sprintf("A clock was behind the one before it %s, most before line %d, by %s. Lines keep the order in which they were written.", timesSay(times), at, most.Round(time.Minute))
}

func timesSay(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// zone compares the station's zone with that of this machine.
func (x *checkup) zone(s *bath.State) {
	here := localZone(x.Getenv)
	if s.Site.Zone == "" {
		x.mend("zone", "bathside log setting --zone "+here, "The station has no time zone, so times are shown in UTC.")
		return
	}
	if _, err := time.LoadLocation(s.Site.Zone); err != nil {
		x.mend("zone", "bathside log setting --zone "+here, "The station's time zone %s is not known here, so times are shown in UTC.", quote(s.Site.Zone))
		return
	}
	now := x.now()
	local := now.Local()
	if loc, err := time.LoadLocation(here); err == nil {
		local = now.In(loc)
	}
	_, there := now.In(s.Zone()).Zone()
	if _, offset := local.Zone(); offset != there {
		x.fine("zone", "The station keeps the time of %s, and this machine that of %s: lines are shown in the station's.", s.Site.Zone, here)
		return
	}
	x.fine("zone", "Times are those of %s.", s.Site.Zone)
}

// backups looks at those in the usual folder and at what was logged.
func (x *checkup) backups(st *station.Station, s *bath.State) {
	dir := filepath.Join(filepath.Dir(x.path), backupsName)
	kept, err := st.Backups(dir)
	if err != nil && !notThere(err) {
		x.mend("backup", "give this account the right to read it", "The folder %s cannot be read.", dir)
		return
	}
	last, logged := s.Duties[bath.DutyBackup]
	if len(kept) == 0 {
		x.backupElsewhere(dir, last, logged, s.Zone())
		return
	}
	newest := kept[len(kept)-1]
	if _, err := station.Verify(newest.Path); err != nil {
		x.mend("backup", "bathside backup; then move the damaged one away", "The newest backup %s is damaged.", newest.Path)
		return
	}
	if made, err := os.Stat(newest.Path); err == nil && (!logged || made.ModTime().After(last)) {
		last = made.ModTime()
	}
	say := fmt.Sprintf("The newest of %d backups in %s is whole, and has %d of %s", len(kept), dir, min(newest.Lines, s.Seq), countLines(s.Seq))
	if x.now().Sub(last) > backupAge {
		x.mend("backup", "bathside backup", "%s; the last was made %s.", say, last.In(s.Zone()).Format("2 Jan 2006"))
		return
	}
	if same, known := sameDisk(x.real, newest.Path); known && same {
		say += "; it is on the same disk as the log book, so copy one to another disk now and then"
	}
	x.fine("backup", "%s.", say)
}

// backupElsewhere is for a station whose usual folder has no backup.
func (x *checkup) backupElsewhere(dir string, last time.Time, logged bool, zone *time.Location) {
	switch {
	case !logged:
		x.mend("backup", "bathside backup", "No backup was ever logged, and none is in %s.", dir)
	case x.now().Sub(last) > backupAge:
		x.mend("backup", "bathside backup", "The last backup was logged %s.", last.In(zone).Format("2 Jan 2006"))
	default:
		x.fine("backup", "The last backup was logged %s; it is not in %s.", last.In(zone).Format("2 Jan 2006 15:04"), dir)
	}
}
