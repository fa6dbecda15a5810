package cli

import (
	"errors"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// noWords is the Args of a command that takes flags only, and of one whose
// words are its sub-commands.
func noWords(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if !cmd.HasAvailableSubCommands() {
		return usage("words", "%s takes flags only: %s is left over", cmd.CommandPath(), quote(args[0]))
	}
	say := quote(args[0]) + " is not a command of " + cmd.CommandPath()
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		return usage("command", "%s: did you mean %s?", say, strings.Join(near, ", "))
	}
	return usage("command", "%s: see %s --help", say, cmd.CommandPath())
}

// oneWord is the Args of a command that takes exactly one word, which is what.
func oneWord(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != 1 {
			return usage("words", "%s takes one word, %s: got %d; see %s --help", cmd.CommandPath(), what, len(args), cmd.CommandPath())
		}
		return nil
	}
}

// parent is a command that only holds others.
func parent(use, short string, children ...*cobra.Command) *cobra.Command {
	cmd := &cobra.Command{
		Use: use, Short: short, Args: noWords,
		SuggestionsMinimumDistance: 2,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return usage("command", "%s what? One of %s", cmd.CommandPath(), childNames(cmd))
		},
	}
	cmd.AddCommand(children...)
	return cmd
}

func childNames(cmd *cobra.Command) string {
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return strings.Join(names, ", ")
}

// plainFlagError makes one sentence of what the flag library says. Other
// errors pass.
func (a *app) plainFlagError(cmd *cobra.Command, err error) error {
	var (
		absent  *pflag.NotExistError
		empty   *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
		syntax  *pflag.InvalidSyntaxError
	)
	switch {
	case errors.As(err, &absent):
		return unknownFlag(cmd, absent.GetSpecifiedName())
	case errors.As(err, &empty):
		return usage("flag", "--%s wants a value: give it like --%s %s", empty.GetSpecifiedName(), empty.GetSpecifiedName(), empty.GetFlag().Value.Type())
	case errors.As(err, &invalid):
		return invalidFlag(invalid)
	case errors.As(err, &syntax):
		return usage("flag", "%s is not a flag: see %s --help", quote(syntax.GetSpecifiedFlag()), cmd.CommandPath())
	}
	return err
}

func unknownFlag(cmd *cobra.Command, name string) error {
	say := quote(dashes(name)+name) + " is not a flag of " + cmd.CommandPath()
	if near := nearestFlag(cmd, name); near != "" {
		return usage("flag", "%s: did you mean --%s?", say, near)
	}
	return usage("flag", "%s: see %s --help", say, cmd.CommandPath())
}

func dashes(name string) string {
	if len(name) == 1 {
		return "-"
	}
	return "--"
}

// invalidFlag keeps the sentence of our own values, with the flag before it.
func invalidFlag(e *pflag.InvalidValueError) error {
	name := "--" + e.GetFlag().Name
	f := (&app{}).faultOf(e.Unwrap())
	if f.Kind == kindFailed { // the library's own words
		return usage("flag", "%s cannot be %s", name, quote(e.GetValue()))
	}
	return &fault{Kind: f.Kind, ID: f.ID, Say: name + ": " + f.Say}
}

// nearestFlag finds the flag most like name. The library measures likeness
// among commands only, so the flags pose as commands.
func nearestFlag(cmd *cobra.Command, name string) string {
	flags := &cobra.Command{SuggestionsMinimumDistance: 2}
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if !f.Hidden {
			flags.AddCommand(&cobra.Command{Use: f.Name, Run: func(*cobra.Command, []string) {}})
		}
	})
	if near := flags.SuggestionsFor(name); len(near) > 0 {
		return near[0]
	}
	return ""
}

// quote makes what somebody typed safe to print, and short.
func quote(s string) string {
	const longest = 40
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + "…"
	}
	return strconv.Quote(s)
}

// atMostOneWord is the Args of a command that may take a word, which is what.
func atMostOneWord(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return usage("words", "%s takes one word, %s: %s is left over", cmd.CommandPath(), what, quote(args[1]))
		}
		return nil
	}
}
