package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"bathside/internal/bath"
	"bathside/internal/station"
)

func (a *app) pin() *cobra.Command {
	return parent("pin", "Set a PIN", a.pinSet())
}

func (a *app) pinSet() *cobra.Command {
	var member string
	cmd := &cobra.Command{
		Use: "set", Short: "Give a member a PIN, or another one", Args: noWords,
		Long: "Gives a member a PIN of 4 to 12 digits. The member signs with the PIN they have, or a gear officer signs; while no gear officer has one, one sets the own unsigned. " +
			"PINs are asked for at the terminal, which does not show them. Without a terminal $" + pinName + " is that of who signs and $" + newPINName + " the new one; both are taken out of the environment at once. " +
			"Who has a PIN is asked for it: a key holder when a wash is started, a gear officer for what only a gear officer may do. Who has none is not asked.",
		Example: "bathside pin set --as Reyes\nbathside pin set --member Okafor --as Reyes",
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withStation(func(st *station.Station) error { return a.setPIN(cmd.Context(), st, member) })
		},
	}
	cmd.Flags().StringVar(&member, "member", "", "whose PIN it is; that of who signs, if left out")
	return cmd
}

// setPIN checks everything that it can before it asks for a PIN.
func (a *app) setPIN(ctx context.Context, st *station.Station, member string) error {
	s, err := a.state(st)
	if err != nil {
		return err
	}
	by, err := a.who(s)
	if err != nil {
		return err
	}
	whose := bath.Member{Name: by}
	if member != "" {
		if whose, err = s.Member(member); err != nil {
			return err
		}
	}
	proof, err := a.proof(ctx, st, by)
	if err != nil {
		return err
	}
	fresh, err := a.newPIN(ctx, whose.Name)
	if err != nil {
		return err
	}
	if err := a.writePIN(func() error { return st.SetPIN(whose.Name, fresh, station.Signature{By: by, PIN: proof}) }); err != nil {
		return err
	}
	return a.sayPIN(whose.Name, bath.PINSet)
}

// proof is the PIN of who signs, "" where they have none to give.
func (a *app) proof(ctx context.Context, st *station.Station, by string) (station.PIN, error) {
	if a.secrets.PIN != "" {
		return a.secrets.PIN, a.clockStands()
	}
	has, err := st.HasPIN(by)
	if err != nil || !has || !a.mayAsk() {
		return "", err
	}
	return a.askSecret(ctx, "PIN of "+by)
}

// writePIN keeps an interrupt waiting until a PIN is on disk.
func (a *app) writePIN(write func() error) error {
	a.busy.Lock()
	defer a.busy.Unlock()
	return write()
}

func (a *app) sayPIN(member, event string) error {
	line := &bath.PIN{Member: member, Event: event}
	if a.flags.json {
		return a.printJSON(line)
	}
	_, err := fmt.Fprintln(a.text(), bath.Entry{Body: line}.Say(a.system()))
	return err
}

// resetPIN is for whoever may write the station file: nobody signs.
func (a *app) resetPIN(ctx context.Context, member string) error {
	return a.withStation(func(st *station.Station) error {
		s, err := a.state(st)
		if err != nil {
			return err
		}
		m, err := s.Member(member)
		if err != nil {
			return err
		}
		fresh, err := a.newPIN(ctx, m.Name)
		if err != nil {
			return err
		}
		if err := a.writePIN(func() error { return st.ResetPIN(m.Name, fresh) }); err != nil {
			return err
		}
		return a.sayPIN(m.Name, bath.PINReset)
	})
}

// recordSigned records a draft, and asks for the PIN where one is missing and
// somebody can type it; d then holds it.
func (a *app) recordSigned(ctx context.Context, st *station.Station, d *station.Draft) ([]bath.Entry, error) {
	entries, err := a.record(st, *d)
	denied, ok := errors.AsType[*station.PINError](err)
	if !ok || denied.ID != "pin-missing" || !a.mayAsk() {
		return entries, err
	}
	if d.PIN, err = a.askSecret(ctx, "PIN of "+denied.Member); err != nil {
		return nil, err
	}
	return a.record(st, *d)
}

// logPIN stands where the command of a kind would.
func logPIN() *cobra.Command {
	return &cobra.Command{
		Use: "pin", Hidden: true, DisableFlagParsing: true,
		RunE: func(*cobra.Command, []string) error { return bath.ByItself(new(bath.PIN)) },
	}
}
