package cli

import (
	"errors"

	"github.com/spf13/cobra"

	"bathside/assets"
	"bathside/internal/bath"
	"bathside/internal/catalog"
	"bathside/internal/console"
	"bathside/internal/guide"
	"bathside/internal/report"
	"bathside/internal/station"
)

func (a *app) guide() *cobra.Command {
	return &cobra.Command{
		Use: "guide [NAME]", Short: "What to do step by step, and the card of an item", Args: atMostOneWord("a guide or an item type"),
		Long:    "Prints a guide, or the short card of an item type. Without a name it lists them. The console walks a guide with you (6), and lets you practise it; with --plain it is walked here, line by line.",
		Example: "bathside guide load-and-run\nbathside guide mask",
		RunE: func(cmd *cobra.Command, args []string) error {
			all, cards, err := a.guidesAndCards()
			switch {
			case err != nil:
				return err
			case len(args) == 0:
				return a.listGuides(all, cards)
			}
			if g, err := guide.Find(all, args[0]); err == nil && a.talks() {
				return a.withStation(func(st *station.Station) error { return a.guideByTalk(cmd.Context(), st, g) })
			}
			return a.printGuide(all, args[0])
		},
	}
}

// guides are those that ship, held against the kinds of entry there are.
func (a *app) guides() ([]guide.Guide, error) {
	all, err := guide.Load(assets.FS, console.GuideForm)
	if wrong := (catalog.Mistakes{}); errors.As(err, &wrong) {
		return nil, refuseMistakes(wrong)
	}
	return all, err
}

func (a *app) guidesAndCards() ([]guide.Guide, []guide.Card, error) {
	all, err := a.guides()
	if err != nil {
		return nil, nil, err
	}
	cat, err := a.catalog()
	if err != nil {
		return nil, nil, err
	}
	var cards []guide.Card
	for _, item := range cat.Items {
		cards = append(cards, guide.CardOf(item))
	}
	return all, cards, nil
}

func (a *app) listGuides(all []guide.Guide, cards []guide.Card) error {
	if a.flags.json {
		return a.printJSON(map[string]any{"guides": all, "cards": cards})
	}
	return report.WriteGuides(a.text(), all, cards)
}

// printGuide prints a guide, or else the card of the item type of that name.
func (a *app) printGuide(all []guide.Guide, name string) error {
	g, err := guide.Find(all, name)
	if err != nil {
		return a.printCard(name, err)
	}
	if a.flags.json {
		return a.printJSON(g)
	}
	return report.WriteGuide(a.text(), g, a.system())
}

func (a *app) printCard(name string, noGuide error) error {
	cat, err := a.catalog()
	if err != nil {
		return err
	}
	item, err := cat.Item(name)
	if out := new(catalog.ExcludedError); errors.As(err, &out) {
		return refuse("never", "%s", err)
	}
	if err != nil {
		return refuse("guide", "%s; and no item type is called so", noGuide)
	}
	card := guide.CardOf(item)
	if a.flags.json {
		return a.printJSON(card)
	}
	return report.WriteCard(a.text(), card)
}

// knownGuide refuses a practice of a guide that there is not: it would count
// for nobody.
func (a *app) knownGuide(body bath.Body) error {
	p, ok := body.(*bath.Practice)
	if !ok {
		return nil
	}
	all, err := a.guides()
	if err != nil {
		return err
	}
	g, err := guide.Find(all, p.Guide)
	if err != nil {
		return refuse("guide", "%s", err)
	}
	p.Guide = g.ID
	return nil
}
