package cli

import (
	"github.com/spf13/cobra"

	"bathside/internal/advise"
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

// shiftLines is more than a shift writes.
const shiftLines = 500

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
	lines, err := st.Lines(0, shiftLines)
	if err != nil {
		return err
	}
	entries := x.ThisShift(lines)
	if !a.flags.json {
		return a.onPaper(st, x, func() error { return report.WriteHandover(a.text(), x, entries) })
	}
	seal, err := st.SealOf(x.State.Seq)
	if err != nil {
		return err
	}
	return a.printJSON(map[string]any{"status": report.NewStatus(x), "entries": entries, "lines": x.State.Seq, "seal": seal})
}

// onPaper writes a report and, below it, the seal number that the log book had
// when it said what the report says.
func (a *app) onPaper(st *station.Station, x *advise.Snapshot, write func() error) error {
	seal, err := st.SealOf(x.State.Seq)
	if err != nil {
		return err
	}
	if err := write(); err != nil {
		return err
	}
	return report.WriteSeal(a.text(), seal, x.State.Seq)
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
