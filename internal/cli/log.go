package cli

import (
	"context"
	"encoding/json"
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/plain"
	"bathside/internal/station"
	"bathside/internal/units"
)

const atHelp = "when it happened: 07:05, 7:05pm, yesterday 07:05, 2026-03-01 07:05, 20min ago; now, if left out"

// log holds one command for each kind of entry. They are made from the kinds
// themselves: a new kind needs nothing here.
func (a *app) log() *cobra.Command {
	cmd := parent("log", "Add a line to the log book")
	cmd.Long = "Adds a line to the log book and prints its number. With --stream the lines come from standard input as JSON Lines."
	cmd.Example = "bathside log reading --ph 9.82 --sample 118F\nbathside log temp --bath 118F --at 06:40\nbathside --bath bay2 log wash --item mask=4 --time 4min --bath 104F"
	var at string
	cmd.PersistentFlags().StringVar(&at, "at", "", atHelp)
	for _, spec := range bath.Specs() {
		cmd.AddCommand(a.logKind(spec, &at))
	}
	cmd.AddCommand(logPIN())
	a.addStream(cmd)
	return cmd
}

func (a *app) logKind(spec *bath.Spec, at *string) *cobra.Command {
	body := spec.New()
	word := wordField(spec)
	cmd := &cobra.Command{Use: string(spec.Kind), Short: spec.Title, Args: noWords}
	for _, f := range spec.Fields {
		if f.Name != word {
			addField(cmd, f.Name, f, body)
		}
	}
	if word != "" {
		f, _ := spec.Field(word)
		cmd.Use += " LINE"
		cmd.Args = oneWord("its number")
		cmd.Example = "bathside log " + string(spec.Kind) + " " + f.Example + ` --why "typed 10.9 for 10.09"`
	}
	given := cmd.Args
	cmd.Args = func(cmd *cobra.Command, args []string) error {
		if word != "" && len(args) == 0 && a.talks() {
			return nil // it is asked for
		}
		return given(cmd, args)
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		if a.talks() && lacksField(cmd, spec, word, args) {
			return a.withStation(func(st *station.Station) error { return a.logByTalk(cmd, st, spec, at, word, args) })
		}
		if err := readFields(cmd, spec, word, args, body); err != nil {
			return err
		}
		return a.withStation(func(st *station.Station) error { return a.logOne(cmd.Context(), st, *at, body) })
	}
	return cmd
}

// wordField names the one field that is a word instead of a flag: the line
// that a strike crosses out.
func wordField(spec *bath.Spec) string {
	if spec.Kind == "strike" {
		return "target"
	}
	return ""
}

// readFields puts the word into its field and asks for what is missing.
func readFields(cmd *cobra.Command, spec *bath.Spec, word string, args []string, body bath.Body) error {
	for _, f := range spec.Fields {
		var err error
		if f.Name == word {
			err = f.Set(body, units.Scan, args[0])
		} else {
			err = requireField(cmd, f.Name, f)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (a *app) logOne(ctx context.Context, st *station.Station, at string, body bath.Body) error {
	s, err := a.state(st)
	if err != nil {
		return err
	}
	d := station.Draft{Bath: a.flags.bath, Body: body}
	if d.By, err = a.who(s); err != nil {
		return err
	}
	if at != "" {
		if d.At, err = bath.ParseWhen(at, a.now().In(s.Zone()), s.Times()); err != nil {
			return err
		}
	}
	if err := a.knownGuide(body); err != nil {
		return err
	}
	if err := a.complete(s, body); err != nil {
		return err
	}
	entries, err := a.recordSigned(ctx, st, &d)
	if err != nil {
		return err
	}
	return a.printLine(entries[0], s.System())
}

// complete puts into body what only advice knows. It is what is known now,
// whenever the entry happened. A bath that is not there is left to the log
// book, which refuses it or makes it.
func (a *app) complete(s *bath.State, body bath.Body) error {
	x, err := advise.Assess(s, a.flags.bath, a.now())
	if err != nil {
		return nil
	}
	if err := x.Complete(body); err != nil {
		return err
	}
	if d, ok := body.(*bath.Decision); ok && d.DoseL != nil && d.Choice == bath.ChoiceTopUp {
		return mayPour(x, *d.DoseL)
	}
	return nil
}

// printLine writes a recorded entry: its number first, for scripts.
func (a *app) printLine(e bath.Entry, sys units.System) error {
	if a.flags.json {
		line, err := json.Marshal(e)
		if err != nil {
			return err
		}
		_, err = fmt.Fprintln(a.Out, plain.Escape(string(line)))
		return err
	}
	_, err := fmt.Fprintln(a.text(), e.Seq, e.Say(sys))
	return err
}
