package cli

import (
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/report"
	"bathside/internal/station"
)

func (a *app) handover() *cobra.Command {
	var note string
	cmd := &cobra.Command{
		Use: "handover", Short: "What the next shift must know", Args: noWords,
		Long:    "Prints what was done since the change of shift and what is due. With --note the note goes into the log book first.",
		Example: `bathside handover --note "packs still drip"`,
		RunE: func(*cobra.Command, []string) error {
			return a.withStation(func(st *station.Station) error { return a.handOver(st, note) })
		},
	}
	cmd.Flags().StringVar(&note, "note", "", "what the next shift must know")
	return cmd
}

func (a *app) handOver(st *station.Station, note string) error {
	if note != "" {
		if err := a.leaveNote(st, note); err != nil {
			return err
		}
	}
	x, err := a.snapshot(st)
	if err != nil {
		return err
	}
	entries, err := a.linesOfShift(st, x.Shift.Start)
	if err != nil {
		return err
	}
	if a.flags.json {
		return a.printJSON(map[string]any{"status": report.NewStatus(x), "entries": entries})
	}
	return report.WriteHandover(a.Out, x, entries)
}

func (a *app) leaveNote(st *station.Station, note string) error {
	s, err := st.State()
	if err != nil {
		return err
	}
	by, err := a.who(s)
	if err != nil {
		return err
	}
	_, err = a.record(st, station.Draft{By: by, Body: &bath.Handover{Note: note}})
	return err
}

// linesOfShift are the lines written since the change of shift: one about the
// shift before that was logged late is news all the same.
func (a *app) linesOfShift(st *station.Station, change time.Time) ([]bath.Entry, error) {
	const most = 500 // more than a shift writes
	lines, err := st.Lines(0, most)
	if err != nil {
		return nil, err
	}
	since := []bath.Entry{} // not null in JSON
	for _, e := range lines {
		if !e.Logged.Before(change) && !e.Logged.After(a.now()) {
			since = append(since, e)
		}
	}
	return since, nil
}
