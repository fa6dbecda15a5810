package bath_test

import (
	"testing"
	"time"

	"bathside/internal/bath"
	"bathside/internal/units"
)

// Source: ruling of the trade: the paper with its title, revision and date is
// on file until it lapses; above 130 °F never.
func TestProcedureRefused(t *testing.T) {
	is := func(change func(*bath.Procedure)) *bath.Procedure {
		p := onFile("mask", 50)
		change(p)
		return p
	}
	checkRefusals(t, []refusal{
		{name: "by a key holder", by: keyHolder, body: onFile("mask", 50), id: "role", say: "is for a gear officer"},
		{name: "no item", by: officer, body: is(func(p *bath.Procedure) { p.Item = "" }), id: "missing", say: "which item type is the paper about? Give it like --item mask"},
		{name: "no title", by: officer, body: is(func(p *bath.Procedure) { p.Title = "" }), id: "missing", say: "which paper is it? Give its title and revision"},
		{name: "no limit", by: officer, body: is(func(p *bath.Procedure) { p.MaxC = nil }), id: "missing", say: "how warm may the bath be? Give what the paper says, like --max 122F"},
		{name: "no state", by: officer, body: is(func(p *bath.Procedure) { p.State = "" }), id: "missing", say: "paper is missing: give one of on-file, pending, outside"},
		{name: "too hot for anything", by: officer, body: onFile("mask", 60), id: "input", say: "no paper lets a bath be hotter than 130 °F here, and this one says 140 °F"},
		{name: "too hot by a degree", by: officer, body: onFile("mask", units.Fahrenheit(131)), id: "input", say: "hotter than 130 °F here, and this one says 131 °F"},
		{name: "no such day", by: officer, body: is(func(p *bath.Procedure) { p.Lapses = "soon" }), id: "input", say: "soon"},
	})
	b := begun(t)
	b.log(officer, onFile("mask", units.Fahrenheit(130)))
}

func TestAPaperIsOnFileUntilItLapses(t *testing.T) {
	b := begun(t)
	paper := onFile("mask", 50)
	paper.Lapses = "2026-03-04"
	b.log(officer, paper)
	on := func(day, hour int) bool {
		_, ok := b.state.Paper("MASK", time.Date(2026, time.March, day, hour, 0, 0, 0, denver))
		return ok
	}
	if !on(4, 23) || on(5, 0) {
		t.Errorf("on its last day %v, on the day after %v", on(4, 23), on(5, 0))
	}
	if _, ok := b.state.Paper("pack", b.now); ok {
		t.Error("a paper for packs out of nowhere")
	}
}

// Who says that a paper is missing answers for it, and saying it again puts
// nothing off; a paper that came and went is missing anew.
func TestWhoAnswersForAMissingPaper(t *testing.T) {
	b := begun(t)
	pending := func() *bath.Procedure { return &bath.Procedure{Item: "mask", State: bath.PaperPending} }
	first := b.log(officer, pending())
	b.wait(20 * 24 * time.Hour)
	b.log(officer, pending())
	paper, _ := b.state.Paper("mask", b.now)
	if paper.Accepted != officer || !paper.At.Equal(first.At) {
		t.Errorf("got %s since %s, want %s since %s", paper.Accepted, paper.At, officer, first.At)
	}
	b.log(officer, onFile("mask", 50))
	anew := b.log(officer, pending())
	if paper, _ = b.state.Paper("mask", b.now); !paper.At.Equal(anew.At) {
		t.Errorf("missing since %s, want %s", paper.At, anew.At)
	}
	if n := len(b.state.Papers); n != 1 {
		t.Errorf("%d papers for one item type", n)
	}
}
