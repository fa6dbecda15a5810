package advise

import (
	"fmt"
	"slices"
	"strings"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// paperPart is the maker's papers: of the item types that want one, and of
// those that have one all the same.
func (x *Snapshot) paperPart() Part {
	p := Part{ID: "papers", Name: "Maker's papers", Add: &Value{Label: "add a maker's paper", Kind: "procedure", Field: "item"}}
	items := bath.PaperItems()
	for _, paper := range x.State.Papers {
		if !slices.Contains(items, paper.Item) {
			items = append(items, paper.Item)
		}
	}
	for _, item := range items {
		p.Values = append(p.Values, x.paperValue(item))
	}
	return p
}

func (x *Snapshot) paperValue(item string) Value {
	v := Value{
		Label: item, Is: "not asked yet", From: "no wash of it starts without a gear officer's reason",
		Help: "what its maker's written cleaning instruction allows", Kind: "procedure", Field: "state", Preset: map[string]string{"item": item},
	}
	i := slices.IndexFunc(x.State.Papers, func(p bath.Paper) bool { return strings.EqualFold(p.Item, item) })
	if i < 0 {
		return v
	}
	p := x.State.Papers[i]
	v.Preset = filledIn(&p.Procedure, "procedure", x.Sys)
	v.From = "accepted by " + p.Accepted + ", " + x.Date(p.At)
	switch _, stands := x.State.Paper(p.Item, x.Now); {
	case p.State == bath.PaperOutside:
		v.Is, v.From = "washed outside the bath", x.wordOf(p.By, p.At)
	case p.State == bath.PaperPending:
		v.Is = "not here yet, the 30 days are over"
		if left := p.At.Add(bath.PaperGrace).Sub(x.Now); left > 0 {
			v.Is = "not here yet, " + daysLeft(left) + " left"
		}
	case !stands:
		v.Is = "lapsed " + p.Lapses + ": " + p.Title
	default:
		v.Is = p.Title
		if p.MaxC != nil {
			v.Is += ", up to " + x.Sys.Text(*p.MaxC)
		}
		if p.Lapses != "" {
			v.From += ", lapses " + p.Lapses
		}
	}
	return v
}

// basketPart is the baskets of the bath, each with what it holds.
func (x *Snapshot) basketPart() Part {
	p := Part{
		ID: "baskets", Name: "Baskets", None: "No basket is set down: the plan of a night goes by the items' own sizes.",
		Add: &Value{Label: "add a basket", Kind: "basket", Field: "name"},
	}
	for _, b := range x.Bath.Baskets {
		v := Value{
			Label: b.Name, Is: strings.TrimPrefix(bath.Entry{Body: &b}.Say(x.Sys), "basket "+b.Name+", "), From: fromNobody,
			Help: "what it holds by your own counts, and its sizes", Kind: "basket", Field: "holds", Preset: filledIn(&b, "basket", x.Sys),
		}
		if o, ok := x.State.SetBy("basket", bath.BasketKey(x.Bath.ID, b.Name), "name"); ok {
			v.From = x.wordOf(o.By, o.At)
		}
		p.Values = append(p.Values, v)
	}
	return p
}

// stockPart is what lies on the shelves.
func (x *Snapshot) stockPart() Part {
	p := Part{ID: "stock", Name: "Stock", Add: &Value{Label: "count the stock, or log what came in", Kind: "stock", Field: "what"}}
	spec, _ := bath.SpecOf("stock")
	what, _ := spec.Field("what")
	for _, name := range what.Words {
		v := Value{
			Label: name, Is: "not counted", From: "nobody counted it", Help: "as counted now, or what came in on top",
			Kind: "stock", Field: "on-hand", Preset: map[string]string{"what": name},
		}
		if shelf, ok := x.State.Stock[name]; ok {
			v.Is = fmt.Sprintf("%.4g", max(0, shelf.Count+shelf.Added-x.usedUp(name, shelf)))
			if have, ok := x.OnHand(); ok && name == bath.StockSoap {
				v.Is = "about " + x.Bath.Tank.Containers(units.Volume(have)*x.Bath.Tank.ContainerL)
			}
			v.From = fmt.Sprintf("counted %s, less what was used since by the log book", x.Date(shelf.At))
			if shelf.Added > 0 {
				v.From = fmt.Sprintf("counted %s, %.4g came in, less what was used since", x.Date(shelf.At), shelf.Added)
			}
		}
		p.Values = append(p.Values, v)
	}
	return p
}
