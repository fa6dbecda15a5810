package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"

	"github.com/spf13/cobra"

	"bathside/internal/station"
)

func (a *app) verify() *cobra.Command {
	var against string
	cmd := &cobra.Command{
		Use: "verify", Short: "Check the station file for damage", Args: noWords,
		Long:    "Checks the station file from its pages to the chain of its lines, and prints the seal number. With --against it also proves that a backup, an export or a seal number on paper is of this log book, with nothing changed since. It changes nothing. The exit code is 4 where anything is wrong.",
		Example: "bathside verify\nbathside verify --against station-3.jsonl\nbathside verify --against 3f9a0c52d1e47b86",
		RunE: func(cmd *cobra.Command, _ []string) error {
			if against == "" && cmd.Flags().Changed("against") { // of a script that lost it
				return refuse("missing", "--against is empty: name a backup or an export, or give a seal number")
			}
			return a.verifyFile(cmd.Context(), against)
		},
	}
	cmd.Flags().StringVar(&against, "against", "", "a backup, an export, or a seal number from paper: its first 8 to 64 digits")
	return cmd
}

func (a *app) verifyFile(ctx context.Context, against string) error {
	path := a.dataPath()
	rep, err := station.Verify(path)
	if err != nil && !errors.Is(err, station.ErrDamaged) {
		return err
	}
	findings := rep.Findings
	if say := pagesSay(ctx, path); say != "" {
		findings = append(findings, say)
	}
	if ctx.Err() != nil { // the other process was stopped, not the file found damaged
		return ctx.Err()
	}
	if len(findings) == 0 {
		return a.sayWhole(rep, against)
	}
	if !a.flags.json {
		fmt.Fprintln(a.text(), strings.Join(findings, "\n"))
	}
	return &fault{
		Kind: kindDamaged, ID: "damaged", Findings: findings,
		Say: path + " is damaged and was left as it is: keep this file, and go on with a copy",
	}
}

// sayWhole tells that all is well in itself, and what another record of it, if
// one was given, proves besides.
func (a *app) sayWhole(rep station.Report, against string) error {
	answer := wholeAnswer{Entries: uint64(rep.Entries), Seal: rep.Head.Hash.String()}
	if against == "" {
		return a.sayCount(answer.Entries, answer.Seal, "are whole")
	}
	var err error
	if answer.Against, err = a.against(against); err != nil {
		return err
	}
	if a.flags.json {
		return a.printJSON(answer)
	}
	if err := a.sayCount(answer.Entries, answer.Seal, "are whole"); err != nil {
		return err
	}
	_, err = fmt.Fprintln(a.Out, answer.Against.say())
	return err
}

// pagesSay is what the database's own check finds, empty where all is well. On
// a damaged file that check may bring the process down, so it is run in
// another one: however that ends, only success is success.
func pagesSay(ctx context.Context, path string) string {
	exe, err := os.Executable()
	if err != nil {
		return "the pages of the file could not be checked: " + err.Error()
	}
	child := exec.CommandContext(ctx, exe, checkPagesName, "--data", path)
	child.Args[0] = os.Args[0]
	out, err := child.CombinedOutput()
	if err == nil {
		return ""
	}
	first, _, _ := strings.Cut(strings.TrimSpace(string(out)), "\n")
	return "the pages of the file are damaged: " + strings.TrimPrefix(first, "bathside: ")
}

const checkPagesName = "check-pages"

// checkPages is the other process of verify.
func (a *app) checkPages() *cobra.Command {
	return &cobra.Command{
		Use: checkPagesName, Hidden: true, Args: noWords,
		RunE: func(*cobra.Command, []string) error {
			if err := station.CheckPages(a.dataPath()); err != nil {
				return &fault{Kind: kindDamaged, ID: "pages", Say: oneLine(err)}
			}
			return nil
		},
	}
}
