package bath

import (
	"fmt"
	"slices"
	"strings"

	"bathside/internal/units"
)

// certified are the item types that go back with a certificate: date, serial
// number, inspector, findings, action (a respirator for emergency use,
// 29 CFR 1910.134(h)(3)(iv), by WAC 296-307-61015).
var certified = map[string]bool{"mask": true}

// Certified reports whether an item type goes back with a certificate.
func Certified(item string) bool { return certified[item] }

// Ready is gear put back in service after its care, or kept out of it.
type Ready struct {
	Item      string `json:"item"`
	Wash      uint64 `json:"wash"`
	Count     int    `json:"count,omitzero"`
	Tags      Tags   `json:"tags,omitempty"`
	Serial    string `json:"serial,omitzero"` // of each, commas between
	Findings  string `json:"findings,omitzero"`
	Action    string `json:"action,omitzero"`
	Inspector string `json:"inspector,omitzero"`
	KeptOut   bool   `json:"kept_out,omitzero"`
}

var readySpec = &Spec{
	Kind: "ready", Title: "Back in service", Scope: OfBath, Role: KeyHolder,
	New: func() Body { return new(Ready) },
	Fields: []Field{
		field("item", "item type", "mask", func(r *Ready) *string { return &r.Item }).help("everything of it that came out of one wash"),
		field("wash", "washed in line", "41", func(r *Ready) *uint64 { return &r.Wash }).optional("the oldest that is ready, if left out"),
		field("serial", "serial numbers", "40117, 40120", func(r *Ready) *string { return &r.Serial }).optional("a mask: one for each that goes back, commas between; tags do"),
		field("findings", "findings", "none", func(r *Ready) *string { return &r.Findings }).optional("a mask: what the inspection found"),
		field("action", "action needed", "none", func(r *Ready) *string { return &r.Action }).optional("a mask: what is to be done"),
		field("inspector", "inspector", "Ana Reyes", func(r *Ready) *string { return &r.Inspector }).optional("you, if left out"),
		field("count", "how many", "3", func(r *Ready) *int { return &r.Count }).optional("all of them, if left out"),
		field("tags", "tags", "M-12, M-14", func(r *Ready) *Tags { return &r.Tags }).optional("where only some of several tagged ones go"),
		field("kept-out", "kept out of service", "yes", func(r *Ready) *bool { return &r.KeptOut }).optional("damaged or doubtful: it does not go back; say why in the findings"),
	},
}

func (r *Ready) spec() *Spec { return readySpec }

func (r *Ready) check(v view, e Entry) error {
	if v.restated {
		return nil // it is about the same gear, which is back; only what was found is mended
	}
	b, err := v.batch(r.Wash, r.Item)
	if err != nil {
		return err
	}
	n := r.of(b)
	switch {
	case r.Count < 0 || n > b.Count:
		return refuse("count", "%d cannot go: the wash of line %d has %s left", max(r.Count, n), b.Wash, b.Say())
	case e.At.Before(b.Since()):
		return refuse("early", "%s is before its last step or its wash, at %s: give a later time", v.s.day(e.At), v.s.day(b.Since().In(e.At.Location())))
	case r.KeptOut && r.Findings == "":
		return refuse("missing", "why is it kept out? Say in the findings what is wrong with it")
	case r.KeptOut:
		return r.checkWhich(v, b, n)
	case b.Hold != nil:
		return refuse("held", "%s of line %d is held by %s: %s; a gear officer releases it", b.Say(), b.Wash, b.Hold.By, b.Hold.Why)
	case b.missing() != "":
		return refuse("steps", "%s of line %d is not ready: %s missing; log what was done", b.Say(), b.Wash, b.missing())
	}
	if err := r.checkCertificate(b, n); err != nil {
		return err
	}
	if err := r.checkWhich(v, b, n); err != nil {
		return err
	}
	return r.checkPieces(v, b, e)
}

// of is how many of a batch go back.
func (r *Ready) of(b Batch) int {
	switch {
	case r.Count > 0:
		return r.Count
	case len(r.Tags) > 0:
		return len(r.Tags)
	case len(r.serials()) > 0:
		return len(r.serials())
	}
	return b.Count
}

// sameGear reports whether two lines are about the same gear.
func (r *Ready) sameGear(was *Ready) bool {
	return r.Wash == was.Wash && r.Item == was.Item && r.Count == was.Count && r.KeptOut == was.KeptOut &&
		r.Tags.String() == was.Tags.String() && len(r.serials()) == len(was.serials())
}

func (r *Ready) serials() (out Tags) {
	for part := range strings.SplitSeq(r.Serial, ",") {
		if part = strings.TrimSpace(part); part != "" {
			out = append(out, part)
		}
	}
	return out
}

// checkCertificate wants the five fields of a mask; the date is the line's.
func (r *Ready) checkCertificate(b Batch, n int) error {
	if !certified[b.Item] {
		return nil
	}
	serials := r.serials()
	switch {
	case len(serials) == 0:
		return refuse("missing", "which masks are they? Give the serial number or tag of each, commas between")
	case len(serials) != n:
		return refuse("count", "%d go back and there are serial numbers of %d: give one for each, commas between", n, len(serials))
	case r.Findings == "":
		return refuse("missing", "what did the inspection find? Give it in the findings, none where nothing")
	case r.Action == "":
		return refuse("missing", "what is to be done? Give the action, none where nothing")
	}
	for i, s := range serials {
		if serials[:i].has(s) {
			return refuse("twice", "serial number %s is there twice: give each once", short(s))
		}
	}
	return nil
}

// which are the tags that go: those named by tag or serial number, or all of
// them where the whole batch goes.
func (r *Ready) which(s *State, b Batch, n int) (tags Tags) {
	if n >= b.Count {
		return b.Tags
	}
	named := append(slices.Clip(r.Tags), r.serials()...)
	for _, tag := range b.Tags {
		p, _ := s.Piece(tag)
		if named.has(tag) || p.Serial != "" && named.has(p.Serial) {
			tags = append(tags, tag)
		}
	}
	return tags
}

func (r *Ready) checkWhich(v view, b Batch, n int) error {
	for _, tag := range r.Tags {
		if !b.Tags.has(tag) {
			return refuse("tag", "tag %s is not among what waits of line %d: it has %s", short(tag), b.Wash, orNone(b.Tags.String()))
		}
	}
	if going := r.which(v.s, b, n); len(going) > n || n-len(going) > b.Count-len(b.Tags) {
		return refuse("which", "%d of %s go, and it is not clear which: name their tags; there are %s", n, b.Say(), b.Tags)
	}
	return nil
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// checkPieces keeps back what is held by itself, or past its dates.
func (r *Ready) checkPieces(v view, b Batch, e Entry) error {
	for _, tag := range r.which(v.s, b, r.of(b)) {
		p, _ := v.s.Piece(tag)
		if p.Hold != nil {
			return refuse("held", "%s; a gear officer releases it, or the others go without it", v.kept(tag))
		}
		if why := p.Expired(e.At); why != "" {
			return refuse("expired", "%s stays out of service: %s; the gear officer takes it, the others go without it", p.Tag, why)
		}
	}
	return nil
}

func (r *Ready) applyGear(s *State, b *Bath, e Entry) {
	i := b.batchAt(r.Wash, r.Item)
	if i < 0 {
		return
	}
	n := min(r.of(b.Batches[i]), b.Batches[i].Count)
	going := r.which(s, b.Batches[i], n)
	b.takeOut(i, n, going)
	for _, tag := range going {
		if j := s.pieceAt(tag); j >= 0 && r.KeptOut {
			s.Gear[j].hold(Held{Seq: e.Seq, At: e.At, By: e.By, Why: r.Findings})
		}
	}
}

func (r *Ready) say(units.System) string {
	s := r.Item
	if r.Count > 0 {
		s += fmt.Sprintf(" × %d", r.Count)
	}
	s += fmt.Sprintf(" of line %d back in service", r.Wash)
	if r.KeptOut {
		s = strings.Replace(s, "back in service", "kept out of service", 1)
	}
	s += suffix(", ", r.Tags.String()) + suffix(" · serial ", r.Serial) + suffix(" · findings: ", r.Findings)
	return s + suffix(" · action: ", r.Action) + suffix(" · inspected by ", r.Inspector)
}
