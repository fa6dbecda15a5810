package cli

import (
	"slices"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

// lacksField reports whether something that must be given is not.
func lacksField(cmd *cobra.Command, spec *bath.Spec, word string, args []string) bool {
	return slices.ContainsFunc(spec.Fields, func(f bath.Field) bool {
		if f.Name == word {
			return len(args) == 0
		}
		return requireField(cmd, f.Name, f) != nil
	})
}

// logByTalk is log KIND --plain at a terminal: it asks for what is missing, and
// for no more.
func (a *app) logByTalk(cmd *cobra.Command, st *station.Station, spec *bath.Spec, at *string, word string, args []string) error {
	t, err := a.newTalk(cmd.Context(), st)
	if err != nil {
		return err
	}
	f := t.newForm(spec, nil)
	f.only = true
	if err := f.setWhen(*at); err != nil {
		return err
	}
	for _, fd := range spec.Fields {
		if flag := cmd.Flags().Lookup(fd.Name); flag != nil {
			if v, ok := flag.Value.(*fieldFlag); ok {
				f.typed[fd.Name] = v.typed
			}
		}
		if fd.Name == word && len(args) > 0 {
			f.typed[fd.Name] = args
		}
	}
	_, err = f.run()
	return t.end(err)
}
