package advise_test

import (
	"testing"

	"bathside/internal/advise"
	"bathside/internal/bath"
	"bathside/internal/units"
)

func (b book) counts(when, what string, n float64) book {
	return b.add(when, &bath.Stock{What: what, OnHand: &n})
}

// What is on the shelf is what was counted, and came in, less the soap logged
// since in all baths.
func TestOnHand(t *testing.T) {
	dose := &bath.Dose{VolumeL: units.Gallons(1.5)} // a jug is 1 gal
	counted := inService().counts("2 13:00", bath.StockSoap, 4)
	spare := append(counted.add("3 09:00", &bath.Tank{VolumeL: 200}), dosed()[4:]...) // a fill and its first dose in it
	for i := len(counted); i < len(spare); i++ {
		spare[i].Bath, spare[i].Seq = "spare", uint64(i+1)
	}
	spare[len(spare)-1].At = at("4 08:00") // 2 gal
	spare[len(spare)-2].At = at("4 07:00")
	tests := []struct {
		name string
		book book
		want float64 // below 0: not known
	}{
		{"never counted", inService(), -1},
		{"counted", counted, 4},
		{"a top-up since", counted.add("3 09:00", dose), 2.5},
		{"a dose before the count, logged later", counted.add("2 12:30", dose), 4},
		{"more came in, and then a top-up", counted.add("2 14:00", &bath.Stock{What: bath.StockSoap, Added: 4}).add("3 09:00", dose), 6.5},
		{"counted again", counted.add("3 09:00", dose).counts("4 09:00", bath.StockSoap, 3), 3},
		{"more used than counted", counted.add("3 09:00", dose).add("3 10:00", dose).add("3 11:00", dose), 0},
		{"buffers are not soap", inService().counts("2 13:00", bath.StockBuffers, 4), -1},
		{"into the other bath", spare, 2},
		{"the container is not known", bare().counts("2 13:00", bath.StockSoap, 4), -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := tt.book.look(t, "9 07:00").OnHand()
			if ok != (tt.want >= 0) {
				t.Fatalf("got %.2f, %v, want %.2f", got, ok, tt.want)
			}
			if ok {
				near(t, "jugs", got, tt.want, 1e-9)
			}
		})
	}
}

// Fills that are only summed up have used soap too.
func TestOnHandReckonsWithFillsLongOver(t *testing.T) {
	b := past(0.1, 0.1, 0.1, 0.1).openMarch(9.98)
	b = b.add("2025-01-05 08:00", &bath.Stock{What: bath.StockSoap, OnHand: new(15.0)}) // five fills of two jugs since
	x := b.look(t, week(2, "08:00"))
	if len(x.Bath.Past) != 3 {
		t.Fatalf("%d fills are summed up", len(x.Bath.Past))
	}
	got, _ := x.OnHand()
	near(t, "jugs", got, 5, 1e-9)
	late := b.counts("2025-05-01 08:00", bath.StockSoap, 15) // the fourth fill began on 12 May
	got, _ = late.look(t, week(2, "08:00")).OnHand()
	near(t, "jugs, counted during the third", got, 11, 1e-9)
}

// A refill takes two jugs: they should be there when the limit may come, an order
// taking 14 days (from memory).
func TestOrderSoap(t *testing.T) {
	order := func(have float64, phs ...units.PH) book {
		return started().fall(phs...).counts(week(len(phs), "08:01"), bath.StockSoap, have)
	}
	tests := []struct {
		name    string
		book    book
		now     string
		urgency advise.Urgency
		say     string
		why     string
	}{
		{"enough", order(2, 9.98, 9.90), week(2, "08:05"), 0, "", ""},
		{"nobody counted", kept(), week(2, "08:05"), 0, "", ""},
		{"one jug, and months to go", order(1, 10.06, 10.05, 10.04), week(3, "08:05"), advise.Later, "Order soap by 7 Apr", "1 jug on hand, and a refill takes 2 jugs"},
		{"one jug, and three weeks to go", order(1, 10.02, 9.97), week(2, "08:05"), advise.Soon, "Order soap by Friday", "1 jug on hand, and a refill takes 2 jugs"},
		{"one jug, and it may come within an order", order(1, 9.96, 9.82), week(2, "08:05"), advise.Soon, "Order soap now", "1 jug on hand, and a refill takes 2 jugs"},
		{"half a jug", order(0.5, 9.98, 9.90), week(2, "08:05"), advise.Soon, "Order soap now", "0.5 jugs on hand, and a refill takes 2 jugs"},
		{"none, and no date", order(0), week(0, "12:00"), advise.Soon, "Order soap", "0 jugs on hand, and a refill takes 2 jugs"},
		{"drained", order(0, 9.98).add(week(1, "09:00"), &bath.Drain{VolumeL: 260, Route: bath.RouteHauler}), week(1, "10:00"), 0, "", ""},
		{"no ratio is set", bare().add("2 07:00", &bath.Tank{ContainerL: 4}).add("2 08:00", &bath.Fill{VolumeL: 260}).counts("2 09:00", bath.StockSoap, 0), "2 10:00", 0, "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.book.action(t, tt.now, "order-soap")
			if got.Say != tt.say || got.Urgency != tt.urgency || got.Why != tt.why {
				t.Errorf("got %s, %q: %q; want %s, %q: %q", got.Urgency, got.Say, got.Why, tt.urgency, tt.say, tt.why)
			}
			if got.Due.IsZero() {
				return
			}
			x := tt.book.look(t, tt.now)
			near(t, "days to order in", got.Due.Sub(x.Now).Hours()/24, x.Trend.Q10-14, 1e-3)
		})
	}
}

func TestEmptyShelf(t *testing.T) {
	empty := func(what string, n float64) book { return inService().counts("2 13:00", what, n) }
	order := func(what, say, why string) advise.Action {
		return advise.Action{Urgency: advise.Soon, Kind: "stock", Preset: map[string]string{"what": what}, Say: say, Why: why}
	}
	says(t, "order-buffers", []moment{
		{"never counted", inService(), "3 07:00", advise.Action{}},
		{"one bottle", empty(bath.StockBuffers, 1), "3 07:00", advise.Action{}},
		{"none", empty(bath.StockBuffers, 0), "3 07:00", order(bath.StockBuffers, "Order buffers", "none are left, and the meter is checked every week")},
		{"they came in", empty(bath.StockBuffers, 0).add("2 14:00", &bath.Stock{What: bath.StockBuffers, Added: 2}), "3 07:00", advise.Action{}},
	})
	says(t, "order-cartridges", []moment{
		{"one", empty(bath.StockCartridges, 1), "3 07:00", advise.Action{}},
		{"none", empty(bath.StockCartridges, 0), "3 07:00", order(bath.StockCartridges, "Order filter cartridges", "none are left to change to")},
	})
}
