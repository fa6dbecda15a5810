package bath

import (
	"fmt"
	"time"

	"bathside/internal/units"
)

// What the station keeps in stock.
const (
	StockSoap       = "soap"       // containers
	StockBuffers    = "buffers"    // bottles
	StockCartridges = "cartridges" // pieces
)

// Stock is what was counted on the shelf, or came in.
type Stock struct {
	What   string   `json:"what"`
	OnHand *float64 `json:"on_hand,omitzero"` // counted
	Added  float64  `json:"added,omitzero"`   // came in since the count
}

// Shelf is how much was counted of one thing and when, and what came in since.
type Shelf struct {
	Count float64   `json:"count"`
	Added float64   `json:"added,omitzero"`
	At    time.Time `json:"at"` // of the count; of the first delivery where nobody counted
}

var stockSpec = &Spec{
	Kind: "stock", Title: "Count the stock", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Stock) },
	Fields: []Field{
		field("what", "which", StockSoap, func(s *Stock) *string { return &s.What }).words(StockSoap, StockBuffers, StockCartridges).help("containers of soap, bottles of buffer, filter cartridges"),
		field("on-hand", "on hand", "3", func(s *Stock) **float64 { return &s.OnHand }).optional("as counted now"),
		field("added", "or came in", "4", func(s *Stock) *float64 { return &s.Added }).optional("on top of what was there"),
	},
}

func (s *Stock) spec() *Spec { return stockSpec }

// mostStock is more than a station keeps of anything.
const mostStock = 1000

func (s *Stock) check(view, Entry) error {
	switch {
	case s.OnHand == nil && s.Added == 0:
		return refuse("missing", "how many are there? Give what was counted, like --on-hand 3, or what came in, like --added 4")
	case s.OnHand != nil && *s.OnHand > mostStock, s.Added > mostStock:
		return refuse("input", "more than %d of %s is not believable: count again", mostStock, s.What)
	}
	return nil
}

func (s *Stock) apply(st *State, e Entry) {
	shelf, known := st.Stock[s.What]
	switch {
	case known && e.At.Before(shelf.At):
		return // counted since
	case s.OnHand != nil:
		shelf = Shelf{Count: *s.OnHand, At: e.At}
	case !known:
		shelf.At = e.At
	}
	shelf.Added += s.Added
	st.Stock[s.What] = shelf
}

func (s *Stock) say(units.System) string {
	switch {
	case s.OnHand == nil:
		return fmt.Sprintf("%g of %s came in", s.Added, s.What)
	case s.Added == 0:
		return fmt.Sprintf("%g of %s on hand", *s.OnHand, s.What)
	}
	return fmt.Sprintf("%g of %s on hand, %g came in", *s.OnHand, s.What, s.Added)
}
