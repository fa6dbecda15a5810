package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestDischargeRefused(t *testing.T) {
	with := func(change func(*bath.Discharge)) *bath.Discharge {
		d := permit()
		change(d)
		return d
	}
	checkRefusals(t, []refusal{
		{name: "by crew", body: permit(), id: "role", say: `"Permission to drain" is for a gear officer`},
		{name: "of nothing", by: officer, body: with(func(d *bath.Discharge) { d.Stream = "" }), id: "missing", say: "what leaves is missing: give one of liquid, sludge, cartridge"},
		{name: "sludge to the sewer", by: officer, body: with(func(d *bath.Discharge) { d.Stream = bath.StreamSludge }), id: "way", say: "sludge does not leave by way of sewer: hauler is allowed here"},
		{name: "liquid to the trash", by: officer, body: with(func(d *bath.Discharge) { d.Route = bath.RouteTrash }), id: "way", say: "liquid does not leave by way of trash: sewer or hauler is allowed here"},
		{name: "from nobody", by: officer, body: with(func(d *bath.Discharge) { d.From = "" }), id: "missing", say: "who gave the permission?"},
		{name: "from no paper", by: officer, body: with(func(d *bath.Discharge) { d.Title = "" }), id: "missing", say: "where do the limits stand?"},
		{name: "without a date", by: officer, body: with(func(d *bath.Discharge) { d.Dated = "" }), id: "missing", say: "where do the limits stand?"},
		{name: "of spring", by: officer, body: with(func(d *bath.Discharge) { d.Dated = "spring" }), id: "input", say: `"spring" is not a date: write it like 2027-03-31`},
		{name: "of tomorrow", by: officer, body: with(func(d *bath.Discharge) { d.Dated = "2026-03-03" }), id: "future", say: "a paper of 2026-03-03 is not written yet"},
		{name: "lapsed before it was written", by: officer, body: with(func(d *bath.Discharge) { d.Lapses = "2025-04-30" }), id: "order", say: "it lapses on 2025-04-30, before the paper's own date, 2025-05-01"},
		{name: "pH 15", by: officer, body: with(func(d *bath.Discharge) { d.PHHigh = p(units.PH(15)) }), id: "input", say: "a pH of 15.00 is outside 0 to 14"},
		{name: "the wrong way round", by: officer, body: with(func(d *bath.Discharge) { d.PHLow, d.PHHigh = p(units.PH(10)), p(units.PH(5)) }), id: "input", say: "at least pH 10.00 and at most 5.00 leaves nothing between"},
		{name: "steam", by: officer, body: with(func(d *bath.Discharge) { d.MaxC = p(units.Temperature(101)) }), id: "not-liquid", say: "a limit of 214 °F"},
		{name: "pH of a cartridge", by: officer, body: with(func(d *bath.Discharge) { d.Stream, d.Route = bath.StreamCartridge, bath.RouteTrash }), id: "input", say: "limits of pH, heat and oil are for the liquid, and this is about the cartridge"},
	})
}

// TestTheLastPermissionCounts: one for each stream and way, as a whole; one
// that is logged late takes the place of none that was given since.
func TestTheLastPermissionCounts(t *testing.T) {
	b := permitted(t)
	wider := permit()
	wider.PHHigh, wider.Number, wider.MaxC = p(units.PH(11)), "permit 13", nil
	b.log(officer, wider)
	older := permit()
	older.Number = "permit 9"
	b.late(officer, b.now.Add(-24*time.Hour), older)
	hauled := &bath.Discharge{Stream: bath.StreamLiquid, Route: bath.RouteHauler, From: "a hauler", Title: "profile 4", Dated: "2026-01-10"}
	b.log(officer, hauled)

	got, ok := b.state.Permission(bath.StreamLiquid, bath.RouteSewer)
	if !ok || got.Number != "permit 13" || got.MaxC != nil || got.By != officer {
		t.Errorf("got %+v", got)
	}
	if got, ok := b.state.Permission(bath.StreamLiquid, bath.RouteHauler); !ok || got.From != "a hauler" {
		t.Errorf("got %+v", got)
	}
	if _, ok := b.state.Permission(bath.StreamSludge, bath.RouteHauler); ok {
		t.Error("what is on file for the liquid is taken for the sludge")
	}
}

// TestADrainKeepsItsPermission: what is put on file later rewrites no history.
func TestADrainKeepsItsPermission(t *testing.T) {
	b := permitted(t)
	d := sewer(func(*bath.Drain) {})
	b.state.NamePermission(d)
	b.log(officer, d)
	const under = "permit 12, sewer rules, part 4 of 2025-05-01, pH 5.00 to 12.50, 104 °F at most"
	if d.Under != under {
		t.Errorf("got %q, want %q", d.Under, under)
	}
	hold := sewer(func(d *bath.Drain) { d.Route, d.Under = bath.RouteHold, "typed by hand" })
	if b.state.NamePermission(hold); hold.Under != "" {
		t.Errorf("held, and under %q", hold.Under)
	}
}
