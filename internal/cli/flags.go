package cli

import (
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// fieldFlag is a field of an entry as a flag. What is typed goes into the body
// at once, and a unit is always asked for: a script has no eyes to see which
// one was meant.
type fieldFlag struct {
	field bath.Field
	body  bath.Body
	typed []string // for plain talk, which asks for the rest
}

func (f *fieldFlag) Set(text string) error {
	f.typed = append(f.typed, text)
	return f.field.Set(f.body, units.Scan, text)
}

func (f *fieldFlag) String() string { return "" }

// Type stands after the flag in the help.
func (f *fieldFlag) Type() string {
	if len(f.field.Words) > 0 {
		return strings.Join(f.field.Words, "|")
	}
	return f.field.Example
}

// addField gives cmd the flag for field, which may be called something else
// there.
func addField(cmd *cobra.Command, name string, field bath.Field, body bath.Body) {
	flag := cmd.Flags().VarPF(&fieldFlag{field: field, body: body}, name, "", fieldHelp(field))
	if field.YesNo {
		flag.NoOptDefVal = "yes"
	}
	offer(cmd, name, field.Words)
}

// fieldHelp begins with what may be typed: "as in 121F: sample at; typed,
// never filled in".
func fieldHelp(field bath.Field) string {
	say := field.Label
	switch {
	case len(field.Words) > 0:
		say = strings.Join(field.Words, ", ") + ": " + say
	case !field.YesNo:
		say = "as in " + field.Example + ": " + say
	}
	if field.Help != "" {
		say += "; " + field.Help
	}
	if field.List {
		say += "; may be given several times"
	}
	return say
}

// requireField refuses a command line without a flag that must be there.
func requireField(cmd *cobra.Command, name string, field bath.Field) error {
	if field.Optional || cmd.Flags().Changed(name) {
		return nil
	}
	if len(field.Words) > 0 {
		return refuse("missing", "%s is missing: give --%s with one of %s", field.Label, name, strings.Join(field.Words, ", "))
	}
	example := field.Example
	if strings.Contains(example, " ") {
		example = `"` + example + `"`
	}
	return refuse("missing", "%s is missing: give it like --%s %s", field.Label, name, example)
}

// offer completes a flag with words in the shell.
func offer(cmd *cobra.Command, flag string, words []string) {
	if len(words) > 0 {
		offerLater(cmd, flag, func() []string { return words })
	}
}

// offerLater is offer for words that are looked up where a shell asks for them:
// a program that only starts has no time for it.
func offerLater(cmd *cobra.Command, flag string, words func() []string) {
	// The only error is a flag that is not there, which a test would see.
	if err := cmd.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return words(), cobra.ShellCompDirectiveNoFileComp
	}); err != nil {
		panic(err)
	}
}

// quantity is a flag that holds a quantity with its unit, or a plain number.
type quantity struct {
	dst     any // as units.Scan takes it
	example string
}

func (q quantity) Set(text string) error { return units.Scan(q.dst, text) }
func (q quantity) String() string        { return "" }
func (q quantity) Type() string          { return q.example }

// clockFlag is --now.
type clockFlag struct{ at *time.Time }

func (c *clockFlag) String() string { return "" }
func (c *clockFlag) Type() string   { return "2026-03-01T07:05:00-07:00" }

func (c *clockFlag) Set(text string) error {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return refuse("input", "%s is not a time with its zone: write it like 2026-03-01T07:05:00-07:00", quote(text))
	}
	*c.at = t
	return nil
}

// oneOf is text as one of the words that a flag takes, in lower case.
func oneOf(text string, words []string) (string, error) {
	if word := strings.ToLower(text); slices.Contains(words, word) {
		return word, nil
	}
	return "", refuse("input", "%q is not one of %s", text, strings.Join(words, ", "))
}

// systemFlag is --units.
type systemFlag struct{ sys **units.System }

func (s *systemFlag) String() string { return "" }
func (s *systemFlag) Type() string   { return "us|si" }

func (s *systemFlag) Set(text string) error {
	sys, err := units.ParseSystem(text)
	if err != nil {
		return err
	}
	*s.sys = &sys
	return nil
}

// require refuses a command line without these flags, all of them quantities.
func require(cmd *cobra.Command, names ...string) {
	run := cmd.RunE
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		for _, name := range names {
			if f := cmd.Flags().Lookup(name); !f.Changed {
				return refuse("missing", "--%s is missing: give it like --%s %s", name, name, f.Value.Type())
			}
		}
		return run(cmd, args)
	}
}
