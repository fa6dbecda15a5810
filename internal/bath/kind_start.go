package bath

import (
	"fmt"
	"strings"
	"time"

	"bathside/internal/units"
)

// Start is ultrasound switched on with a load in the bath. Unlike a wash that
// is written down afterwards it is gated: see gates.go.
type Start struct {
	Items    []Load            `json:"items"`
	Soil     string            `json:"soil"`
	Time     units.Span        `json:"time_s"`
	BathC    units.Temperature `json:"bath_c"`            // measured just before
	Checked  bool              `json:"checked,omitzero"`  // every check of every item was looked at
	Lids     bool              `json:"lids,omitzero"`     // what floats is under a lid
	Visit    int               `json:"visit,omitzero"`    // which wash of these items in one visit; 0 is the first
	Override string            `json:"override,omitzero"` // why a gear officer lets it start all the same
	Tags     Tags              `json:"tags,omitempty"`    // of single pieces among the items
	Passed   []string          `json:"passed,omitzero"`   // the soft gates that were overridden
}

var startSpec = &Spec{
	Kind: "start", Title: "Start a wash", Scope: OfFill, Role: KeyHolder,
	New: func() Body { return &Start{Soil: "normal"} },
	Fields: []Field{
		field("item", "items", "mask=4", func(s *Start) *[]Load { return &s.Items }).help("what is in the baskets, with counts; commas between"),
		field("time", "minutes", "4min", func(s *Start) *units.Span { return &s.Time }).help("set the machine's timer to it; see it stop by itself"),
		field("bath", "bath at", "118F", func(s *Start) *units.Temperature { return &s.BathC }).help("measured now, pump off"),
		field("soil", "soil", "normal", func(s *Start) *string { return &s.Soil }).words("light", "normal", "heavy").optional("how dirty it is"),
		field("checked", "checks done", "yes", func(s *Start) *bool { return &s.Checked }).optional("every check of every item, as the cycle lists them"),
		field("lids", "lids clipped", "yes", func(s *Start) *bool { return &s.Lids }).optional("over what floats"),
		field("tags", "tags", "M-12, M-14", func(s *Start) *Tags { return &s.Tags }).optional("of tagged gear among them; counts are enough"),
		field("visit", "which wash of it", "2", func(s *Start) *int { return &s.Visit }).optional("counted in the log book, if left out"),
		field("override", "all the same", "trial with the maker", func(s *Start) *string { return &s.Override }).optional("a gear officer's reason where a soft gate stands in the way"),
	},
}

func (s *Start) spec() *Spec { return startSpec }

func (s *Start) check(v view, e Entry) error {
	if err := checkLoads(s.Items); err != nil {
		return err
	}
	if err := checkTags(v, s.Tags, s.Items); err != nil {
		return err
	}
	if err := checkTime("wash", s.Time, 2*3600, v.sys); err != nil {
		return err
	}
	if err := checkLiquid("a bath", s.BathC, v.sys); err != nil {
		return err
	}
	if v.restated {
		return nil // it ran; its result says what was not as it should be
	}
	for _, g := range gatesOf(v, s, e) {
		if !g.Soft || !v.mayOverride(s, e) {
			return &Refusal{ID: g.ID, Say: g.Say()}
		}
	}
	return nil
}

// mayOverride reports whether a soft gate is passed: by a gear officer, with a
// reason.
func (v view) mayOverride(s *Start, e Entry) bool {
	m, err := v.s.Member(e.By)
	return err == nil && m.Role == Officer && s.Override != ""
}

func (s *Start) applyBath(b *Bath, e Entry) {
	b.Run = &Run{Seq: e.Seq, At: e.At, By: e.By, Items: s.Items, Tags: s.Tags, Soil: s.Soil, Time: s.Time, BathC: s.BathC}
}

func (s *Start) say(sys units.System) string {
	say := fmt.Sprintf("started: %s, %s at %s", loadSay(s.Items), sys.Text(s.Time), sys.Text(s.BathC))
	say += papersSay(s.Items)
	if len(s.Passed) > 0 {
		say += fmt.Sprintf(" · let through by a gear officer (%s): %s", strings.Join(s.Passed, ", "), s.Override)
	}
	return say
}

// Run is the wash that is in the bath now, until its result is logged.
type Run struct {
	Seq    uint64            `json:"seq"` // of its start
	At     time.Time         `json:"at"`
	By     string            `json:"by"`
	Items  []Load            `json:"items"`
	Tags   Tags              `json:"tags,omitempty"`
	Soil   string            `json:"soil"`
	Time   units.Span        `json:"time_s"`
	BathC  units.Temperature `json:"bath_c"`
	Paused *time.Time        `json:"paused,omitzero"`  // since when; nil while it runs
	Stood  units.Span        `json:"stood_s,omitzero"` // paused in all before that
	Ended  *time.Time        `json:"ended,omitzero"`   // broken off
	Why    string            `json:"why,omitzero"`     // it was broken off
}

// Ends is when the timer runs out, as far as it is known at now: a pause holds
// it.
func (r Run) Ends(now time.Time) time.Time {
	end := r.At.Add(r.Time.Duration() + r.Stood.Duration())
	if r.Paused != nil && now.After(*r.Paused) {
		end = end.Add(now.Sub(*r.Paused))
	}
	if r.Ended != nil && r.Ended.Before(end) {
		return *r.Ended
	}
	return end
}

// ResultOf reports whether a wash that happened at t without naming its start
// is taken for the result of r.
func (r Run) ResultOf(t time.Time) bool { return !t.Before(r.At) }

// Left is how long the wash still runs; 0 once it is over.
func (r Run) Left(now time.Time) time.Duration { return max(0, r.Ends(now).Sub(now)) }

// Ran is how long ultrasound was on until now.
func (r Run) Ran(now time.Time) units.Span {
	return units.SpanOf(max(0, min(now.Sub(r.At), r.Ends(now).Sub(r.At))-r.Stood.Duration()-r.pausedNow(now)))
}

func (r Run) pausedNow(now time.Time) time.Duration {
	if r.Paused == nil {
		return 0
	}
	return max(0, now.Sub(*r.Paused))
}
