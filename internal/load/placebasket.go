package load

import (
	"slices"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// laid is a thing that is to be placed in a basket.
type laid struct {
	Rect
	tall bool // takes the room above it as well
}

// lie is how an item lies in a basket of that size; ok is false where it does
// not at all. What is washed without a lid may stick out at the end and above.
func (b Basket) lie(item catalog.Item) (l laid, ok bool) {
	l.Rect = Rect{item.Length, item.Width}
	top := b.Height
	if item.Lid == catalog.LidNone {
		l.Length = min(l.Length, max(b.Length, b.Width))
		top = max(top, item.Height)
	}
	if item.Height > top+tight {
		return laid{}, false
	}
	l.tall = b.Kind == catalog.BasketDeep && item.Height > b.Height/2+tight
	_, ok = Place(b.Length, b.Width, []Rect{l.Rect})
	return l, ok
}

// layers lays things into the basket: on its floor, or on its two floors of
// which the tall ones take both. When it says false it has not found a way.
func (b Basket) layers(things []laid) ([][]Spot, bool) {
	rects := make([]Rect, len(things))
	var tall, short []int
	for i, l := range things {
		rects[i] = l.Rect
		if l.tall {
			tall = append(tall, i)
		} else {
			short = append(short, i)
		}
	}
	talls := layingWays(rects, tall)
	for at, way := range layingWays(rects, short) {
		floors := []*floor{newFloor(b.Length, b.Width)}
		if !floors[0].layAll(rects, talls[at]) {
			continue
		}
		if b.Kind == catalog.BasketDeep {
			floors = append(floors, floors[0].clone())
		}
		if layOnAny(floors, rects, way) {
			return spotsOf(floors), true
		}
	}
	return nil, false
}

// layOnAny puts each thing on the first floor that takes it.
func layOnAny(floors []*floor, rects []Rect, way layingWay) bool {
	for _, i := range way.order {
		if !slices.ContainsFunc(floors, func(f *floor) bool { return f.lay(i, rects[i], way.turn) }) {
			return false
		}
	}
	return true
}

func spotsOf(floors []*floor) [][]Spot {
	var all [][]Spot
	for _, f := range floors {
		all = append(all, f.spots)
	}
	return all
}

// floorArea is in square metres.
func (b Basket) floorArea() units.Area { return units.Area(b.Length * b.Width) }
