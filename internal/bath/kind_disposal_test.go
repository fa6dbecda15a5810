package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// heldBack is a bath whose liquid, sludge and cartridge were all kept.
func heldBack(t testing.TB, on func(testing.TB) *book) (b *book, liquid, sludge, cartridge bath.Entry) {
	b = on(t)
	liquid = b.log(officer, sewer(func(d *bath.Drain) { d.Route = bath.RouteHold }))
	sludge = b.log(crew, &bath.Clean{Sludge: bath.RouteHold})
	cartridge = b.log(crew, &bath.Media{Stage: "1", Route: bath.RouteHold})
	return b, liquid, sludge, cartridge
}

func TestDisposalRefused(t *testing.T) {
	on := func(t testing.TB) *book {
		b, liquid, _, _ := heldBack(t, permitted)
		b.log(officer, &bath.Disposal{Line: liquid.Seq, Route: bath.RouteHauler})
		return b
	}
	nothing := func(t testing.TB) *book { return permitted(t) }
	checkRefusals(t, []refusal{
		{name: "nothing is held", on: nothing, by: officer, body: &bath.Disposal{Line: 3, Route: bath.RouteHauler}, id: "no-waste", say: "line 3 kept nothing back in bath main: nothing is held there now"},
		{name: "another line", on: on, by: officer, body: &bath.Disposal{Line: 3, Route: bath.RouteHauler}, id: "no-waste", say: "line 3 kept nothing back in bath main: give one of 12, 13"},
		{name: "twice", on: on, by: officer, body: &bath.Disposal{Line: 11, Route: bath.RouteHauler}, id: "sent", say: "what line 11 kept left already, by line 14: give one of 12, 13"},
		{name: "before it was kept", on: on, by: officer, ago: time.Hour, body: &bath.Disposal{Line: 12, Route: bath.RouteHauler}, id: "order", say: "is before it was kept, Mon 2 Mar 07:12"},
		{name: "sludge to the sewer", on: on, by: officer, body: &bath.Disposal{Line: 12, Route: bath.RouteSewer}, id: "way", say: "sludge does not leave by way of sewer: hauler is allowed here"},
		{name: "no way", on: on, by: officer, body: &bath.Disposal{Line: 12}, id: "missing", say: "where to is missing"},
	})
}

// TestThreeWasteStreams: liquid, sludge and cartridge are each held and sent off
// by themselves. Source: three waste streams, each with its own determination
// (Illinois EPA, parts washer wastes).
func TestThreeWasteStreams(t *testing.T) {
	b, liquid, sludge, cartridge := heldBack(t, permitted)
	kept := func() (streams []string) {
		for _, w := range b.bath().Kept() {
			streams = append(streams, w.Stream)
		}
		return streams
	}
	same := func(when string, want ...string) {
		t.Helper()
		got := kept()
		if len(got) != len(want) {
			t.Fatalf("%s: got %v, want %v", when, got, want)
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: got %v, want %v", when, got, want)
			}
		}
	}
	same("at first", "liquid", "sludge", "cartridge")
	sent := b.log(officer, &bath.Disposal{Line: sludge.Seq, Route: bath.RouteHauler, Paper: "bill 2207"})
	same("the sludge hauled", "liquid", "cartridge")
	b.log(officer, &bath.Disposal{Line: cartridge.Seq, Route: bath.RouteTrash, Allowed: "R. Quill, county"})
	same("the cartridge thrown out", "liquid")
	checkRefusal(t, b.strike(officer, sludge, nil), "rests", "rests on line")
	checkRefusal(t, b.strike(officer, sludge, &bath.Clean{Sludge: "none"}), "rests", "line 14 sent off what line 12 kept, and rests on it")
	if err := b.strike(officer, sent, &bath.Disposal{Line: sludge.Seq, Route: bath.RouteHauler, Paper: "bill 2208"}); err != nil {
		t.Errorf("a bill that was typed wrong cannot be corrected: %v", err)
	}
	same("its bill corrected", "liquid")
	if err := b.strike(officer, sent, nil); err != nil {
		t.Fatal(err)
	}
	same("its way crossed out", "liquid", "sludge")
	// Fills come and go, and what is held stays held.
	for range 4 {
		b.log(crew, &bath.Fill{VolumeL: units.Gallons(60)})
		b.log(officer, sewer(func(*bath.Drain) {}))
	}
	same("four fills later", "liquid", "sludge")
	if n := len(b.bath().Waste); n != 2 {
		t.Errorf("%d kept in the state: what left long ago is not let go of", n)
	}
	b.log(officer, &bath.Disposal{Line: liquid.Seq, Route: bath.RouteSewer})
	same("the liquid let go", "sludge")
}

// TestHeldWasteIsMarked: never to the sewer from a contaminated bath, and not
// anywhere before somebody named has said so. Source: ruling of the trade on a
// contaminated bath: its cartridges and sludge are held too.
func TestHeldWasteIsMarked(t *testing.T) {
	const foul = "red-tagged as contaminated"
	tests := []struct {
		name string
		on   func(testing.TB) *book
		line int // 0 the liquid, 1 the sludge, 2 the cartridge
		by   string
		body bath.Disposal
		want []string
	}{
		{"hauled", permitted, 0, officer, bath.Disposal{Route: bath.RouteHauler}, nil},
		{"by crew", permitted, 0, crew, bath.Disposal{Route: bath.RouteHauler}, []string{"Lee Holm is crew: sending waste off is for a gear officer"}},
		{"to the sewer, on file", permitted, 0, officer, bath.Disposal{Route: bath.RouteSewer}, nil},
		{"to the sewer, nothing on file", begun, 0, officer, bath.Disposal{Route: bath.RouteSewer}, []string{"no permission for the liquid by way of sewer is on file, and nobody is named who allowed it"}},
		{"to the sewer, as somebody said", begun, 0, officer, bath.Disposal{Route: bath.RouteSewer, Allowed: "R. Quill"}, nil},
		{"a cartridge to the trash", permitted, 2, officer, bath.Disposal{Route: bath.RouteTrash}, []string{"no permission for the cartridge by way of trash"}},
		{"contaminated: hauled", contaminated, 0, officer, bath.Disposal{Route: bath.RouteHauler}, []string{foul + ": the liquid is held until the authority has answered"}},
		{"contaminated: sludge hauled", contaminated, 1, officer, bath.Disposal{Route: bath.RouteHauler}, []string{foul + ": the sludge is held until the authority has answered"}},
		{"contaminated: a cartridge to the trash", contaminated, 2, officer, bath.Disposal{Route: bath.RouteTrash}, []string{foul + ": the cartridge is held until"}},
		{"contaminated: hauled as somebody said", contaminated, 0, officer, bath.Disposal{Route: bath.RouteHauler, Allowed: "R. Quill"}, nil},
		{"contaminated: to the sewer, whoever said so", contaminated, 0, officer, bath.Disposal{Route: bath.RouteSewer, Allowed: "R. Quill"}, []string{foul + ": the liquid never goes to the sewer"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			b, liquid, sludge, cartridge := heldBack(t, tt.on)
			if b.bath().Tag != nil { // it stays foul when the tank is in use again
				b.log(officer, &bath.Release{Why: "emptied and wiped"})
			}
			tt.body.Line = []uint64{liquid.Seq, sludge.Seq, cartridge.Seq}[tt.line]
			b.log(tt.by, &tt.body)
			checkOutside(t, tt.body.Outside, tt.want...)
		})
	}
}

// TestWasteIsFoundFoulLater: a look-back reaches what was kept since.
func TestWasteIsFoundFoulLater(t *testing.T) {
	b := permitted(t)
	w := b.log(keyHolder, masks(func(*bath.Wash) {}))
	b.log(officer, sewer(func(d *bath.Drain) { d.Route = bath.RouteHold }))
	if b.bath().Kept()[0].Foul {
		t.Fatal("foul before anybody knew")
	}
	b.log(crew, &bath.Hold{Cause: bath.HoldContaminated, Why: "a lead from that fire: asbestos", Wash: w.Seq})
	if !b.bath().Kept()[0].Foul {
		t.Error("the liquid of the wash that brought it in is not held as contaminated")
	}
}

// TestContaminatedSludgeAndCartridgeAreMarked where they were sent on at once.
func TestContaminatedSludgeAndCartridgeAreMarked(t *testing.T) {
	b := contaminated(t)
	b.log(officer, sewer(func(d *bath.Drain) { d.Route = bath.RouteHold }))
	clean, named := &bath.Clean{Sludge: bath.RouteHauler}, &bath.Clean{Sludge: bath.RouteHauler, Allowed: "R. Quill"}
	media, unasked := &bath.Media{Stage: "1", Route: bath.RouteHauler}, &bath.Media{Stage: "1", Route: bath.RouteTrash}
	for _, body := range []bath.Body{clean, named, media} {
		b.log(crew, body)
	}
	checkOutside(t, clean.Outside, "the sludge is held until")
	checkOutside(t, named.Outside)
	checkOutside(t, media.Outside, "the cartridge is held until")
	b.log(officer, &bath.Release{Why: "emptied and wiped"})
	b.log(crew, unasked)
	checkOutside(t, unasked.Outside, "nothing is on file that a cartridge may go to the trash")
}
