package cli

import (
	"context"
	"log/slog"
	"os"
	"strings"
	"time"

	"charm.land/fang/v2"
	"github.com/spf13/cobra"

	"bathside/internal/units"
)

// globals are the flags of every command.
type globals struct {
	data, catalog, bath, as string
	json, plain             bool
	now                     time.Time     // zero: the clock
	units                   *units.System // nil: the station's
	color                   colorFlag
	charts                  chartsFlag
}

// root is the whole tree of commands.
func (a *app) root() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "bathside",
		Short:   "The chart at the bath's side",
		Long:    "Keeps the chart of a heated ultrasonic bath for protective gear, and says what to do next and why. Without a command it opens the console, or with --plain it asks line by line.",
		Example: "bathside setup --station \"Cobble Hill 3\" --tank 64gal --detergent alkaline\nbathside log reading --ph 9.82 --sample 118F\nbathside status",
		Version: a.Version,
		Args:    noWords,
		RunE:    func(cmd *cobra.Command, _ []string) error { return a.openOrStatus(cmd.Context()) },

		SilenceErrors: true, SilenceUsage: true, // told by Main
		// A global flag before the command is read as one even where the
		// command has a flag of that name: --bath bay2 log temp --bath 118F.
		TraverseChildren: true,

		SuggestionsMinimumDistance: 2,
	}
	cmd.SetIn(a.In)
	cmd.SetOut(a.Out)
	cmd.SetErr(a.Err)
	cmd.SetHelpFunc(a.help)
	cmd.SetFlagErrorFunc(a.plainFlagError)
	a.addGlobals(cmd)
	cmd.AddCommand(
		a.setup(), a.pin(), a.demo(), a.status(), a.log(), a.decide(), a.cycle(), a.guide(), a.plan(), a.calc(), a.handover(), a.tally(),
		a.gear(), a.export(), a.importLines(), a.backup(), a.restore(), a.verify(), a.doctor(), a.checkPages(), a.paths(), a.man(),
	)
	return cmd
}

func (a *app) addGlobals(cmd *cobra.Command) {
	f := cmd.PersistentFlags()
	f.StringVar(&a.flags.data, "data", "", "station file; else $BATHSIDE_DATA, else "+dataName+" in the XDG data home")
	f.StringVar(&a.flags.catalog, "catalog", "", "TOML file with item and soap types of your own; else items.toml and detergents.toml beside the station file, where they are")
	f.StringVar(&a.flags.bath, "bath", "", "which bath; the first, if left out")
	f.StringVar(&a.flags.as, "as", "", "who it is: name or initials; else $BATHSIDE_AS")
	f.BoolVar(&a.flags.json, "json", false, "write JSON, in SI units")
	f.BoolVar(&a.flags.plain, "plain", false, "at a terminal, ask line by line instead of the console; else plain text")
	f.BoolFunc("debug", "keep what the program does in its trace file; paths says where", func(string) error {
		a.traceLevel.Set(slog.LevelDebug)
		return nil
	})
	f.Var(&clockFlag{&a.flags.now}, "now", "as of this time, RFC 3339")
	f.Var(&systemFlag{&a.flags.units}, "units", "show us or si units; the station's, if left out")
	f.Var(&a.flags.color, "color", "colour: auto, always or never")
	a.flags.color.when = "auto"
	f.Lookup("color").DefValue = "auto"
	f.Var(&a.flags.charts, "charts", "what charts are drawn with: auto, braille, block or ascii, which the rest of the console is then too; else $BATHSIDE_CHARTS")
	f.Lookup("charts").DefValue = "auto"
	for name, words := range map[string][]string{"units": {"us", "si"}, "color": colorWords, "charts": chartWords} {
		offer(cmd, name, words)
	}
}

// help lets fang draw the help. Fang asks the terminal for its background
// before it does anything else, errors included, so it is kept out of every
// other run.
func (a *app) help(cmd *cobra.Command, _ []string) {
	root := cmd.Root()
	root.SetArgs(append(strings.Fields(cmd.CommandPath())[1:], "--help"))
	ctx := cmd.Context()
	if ctx == nil {
		ctx = context.Background()
	}
	if lettersFor(localeOf(a.Getenv)) != nil { // no colours then: they would be taken for text
		root.SetOut(a.text())
		_, _ = os.Setenv("NO_COLOR", "1"), os.Setenv("CLICOLOR_FORCE", "")
	}
	_ = fang.Execute(ctx, root, fang.WithVersion(a.Version), fang.WithoutManpage())
}

// now is the time that everything goes by.
func (a *app) now() time.Time {
	if !a.flags.now.IsZero() {
		return a.flags.now
	}
	return a.Now()
}
