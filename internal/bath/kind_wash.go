package bath

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bathside/internal/units"
)

// Load is a count of one item type in a wash. The limits come from the
// catalog of the day and are kept with the entry.
type Load struct {
	Item    string             `json:"item"` // id of the item type
	Count   int                `json:"count"`
	Name    string             `json:"name,omitzero"` // as on screen, on that day
	Longest units.Span         `json:"longest_s,omitzero"`
	LimitC  *units.Temperature `json:"limit_c,omitzero"`
	Limit   string             `json:"limit,omitzero"` // as its source prints it
	Source  string             `json:"source,omitzero"`
	Never   string             `json:"never,omitzero"` // why it may not go in at all
	Paper   string             `json:"paper,omitzero"` // the maker's paper that it goes by, on that day

	Floats     bool         `json:"floats,omitzero"`
	MassKg     units.Mass   `json:"mass_kg,omitzero"`     // of one piece
	DisplacesL units.Volume `json:"displaces_l,omitzero"` // of one piece

	Care []CareStep `json:"care,omitempty"` // after the wash, in order
}

// MostItems is the most of one item type in a wash.
const MostItems = 200

// addLoad reads "mask=4,helmet=2" and adds it to the list, all or none.
func addLoad(list *[]Load, text string) error {
	var added []Load
	for part := range strings.SplitSeq(text, ",") {
		l, err := readLoad(part)
		if err != nil {
			return err
		}
		added = append(added, l)
	}
	*list = append(*list, added...)
	return nil
}

func readLoad(text string) (Load, error) {
	name, count := text, "1"
	if m := countLast.FindStringSubmatch(text); m != nil {
		name, count = m[1], m[2]
	} else if before, after, ok := strings.Cut(text, "="); ok {
		name, count = before, after
	}
	n, err := strconv.Atoi(count)
	if err != nil || n < 1 || n > MostItems {
		return Load{}, fmt.Errorf("%q is not a count: 1 to %d are allowed, like mask=4", short(clean(count)), MostItems)
	}
	if name = clean(name); name == "" {
		return Load{}, fmt.Errorf("%q names no item: write it like mask=4", short(clean(text)))
	}
	return Load{Item: name, Count: n}, nil
}

// countLast splits "mask=4", "mask x 4" and "mask 4". A letter x counts only
// after a space: "box 4" is four of the item called box.
var countLast = regexp.MustCompile(`^\s*(.*?)(?:\s*[=×]\s*|\s+x\s*|\s+)(-?[0-9]+)\s*$`)

func loadList(loads []Load) string {
	var parts []string
	for _, l := range loads {
		parts = append(parts, fmt.Sprintf("%s=%d", l.Item, l.Count))
	}
	return strings.Join(parts, ", ")
}

// How a wash came out.
const (
	ResultClean   = "clean"
	ResultAgain   = "again"
	ResultDamaged = "damaged"
)

// Wash is one ultrasonic cycle with a load in it, written down afterwards.
type Wash struct {
	Items   []Load            `json:"items"`
	Soil    string            `json:"soil"`
	Time    units.Span        `json:"time_s"`
	BathC   units.Temperature `json:"bath_c"`
	Result  string            `json:"result"`
	Tags    Tags              `json:"tags,omitempty"` // of single pieces among the items
	Note    string            `json:"note,omitzero"`
	Start   uint64            `json:"start,omitzero"`   // the line that started it, where one did
	Outside []string          `json:"outside,omitzero"` // what it broke of the rules
}

var washSpec = &Spec{
	Kind: "wash", Title: "Log a wash", Scope: OfBath, Role: Crew,
	New: func() Body { return &Wash{Soil: "normal", Result: ResultClean} },
	Fields: []Field{
		field("item", "items", "mask=4", func(w *Wash) *[]Load { return &w.Items }).help("what was in it, with counts; commas between"),
		field("soil", "soil", "normal", func(w *Wash) *string { return &w.Soil }).words("light", "normal", "heavy").optional("how dirty it was"),
		field("time", "how long", "4min", func(w *Wash) *units.Span { return &w.Time }).help("as the machine's timer was set"),
		field("bath", "bath at", "118F", func(w *Wash) *units.Temperature { return &w.BathC }).help("measured before the start"),
		field("result", "result", "clean", func(w *Wash) *string { return &w.Result }).words(ResultClean, ResultAgain, ResultDamaged).optional("again: not clean, to be washed again"),
		field("tags", "tags", "M-12, M-14", func(w *Wash) *Tags { return &w.Tags }).optional("of tagged gear among them; counts are enough"),
		field("start", "started by line", "41", func(w *Wash) *uint64 { return &w.Start }).optional("the one that started it; the one in the bath, if left out"),
		field("note", "note", "soot in the hinge", func(w *Wash) *string { return &w.Note }).optional("anything to remember"),
	},
}

func (w *Wash) spec() *Spec { return washSpec }

func (w *Wash) check(v view, _ Entry) error {
	if err := checkLoads(w.Items); err != nil {
		return err
	}
	if err := checkTags(v, w.Tags, w.Items); err != nil {
		return err
	}
	if err := checkTime("wash", w.Time, 2*3600, v.sys); err != nil {
		return err
	}
	return checkLiquid("a bath", w.BathC, v.sys)
}

// checkLoads refuses a list of items that cannot be one.
func checkLoads(loads []Load) error {
	if len(loads) == 0 {
		return refuse("missing", "what was washed? Give it like mask=4")
	}
	seen := map[string]bool{}
	for _, l := range loads {
		switch {
		case l.Item == "" || clean(l.Item) != l.Item || tooLong(l.Item) != nil:
			return refuse("input", "an item of the wash has no name that can be shown: write it like mask=4")
		case l.Count < 1 || l.Count > MostItems:
			return refuse("input", "%d of %s is not a count: 1 to %d are allowed, like mask=4", l.Count, short(l.Item), MostItems)
		case seen[l.Item]:
			return refuse("twice", "%s is in the list twice: give one count for it", short(l.Item))
		}
		seen[l.Item] = true
	}
	return nil
}

// outside lists what was not as it should be. The wash is kept; it does not
// count as proper cleaning.
func (w *Wash) outside(v view, e Entry) []string {
	var out []string
	if r := v.b.Run; r == nil || w.Start != r.Seq { // else the gates saw to it
		out = w.outsideBefore(v, e)
	}
	out = append(out, v.tagsOutside(w.Tags)...)
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if t := v.b.Tag; t != nil && !e.At.Before(t.At) {
		add("the bath was red-tagged by %s: %s", t.By, t.Why)
	}
	if most := v.b.Tank.Max(); w.BathC > most+0.5 {
		was, may := v.sys.pair(w.BathC, most)
		add("the bath was at %s, above the hottest allowed here, %s", was, may)
	}
	for _, l := range w.Items {
		if l.Never != "" {
			add("%s never goes in, because %s", l.Name, l.Never)
		}
		if h, ok := v.limit(l, e); ok && w.BathC > h.hottest {
			out = append(out, h.broken(v.sys, w.BathC))
		}
		if beyond(w.Time, l.Longest) {
			add("%s: %s is longer than its longest, %s", l.Name, v.sys.span(w.Time), v.sys.span(l.Longest))
		}
	}
	return out
}

// outsideBefore lists what was not as it should be before the wash.
func (w *Wash) outsideBefore(v view, e Entry) (out []string) {
	switch {
	case !v.open:
		out = append(out, "no fill was open")
	case !v.life.Degassed():
		out = append(out, "the bath was not run empty to clear bubbles since it was filled")
	}
	if v.open && len(Of[*Dose](v.life.Entries)) == 0 {
		out = append(out, "no soap is logged in this fill")
	}
	if m, err := v.s.Member(e.By); err == nil && m.Role.rank() < KeyHolder.rank() {
		out = append(out, fmt.Sprintf("%s is crew: starting ultrasound is for %s", m.Name, KeyHolder.orAbove()))
	}
	return out
}

// applyBath takes the wash that has its result now out of the bath. One that
// was over before that started is another.
func (w *Wash) applyBath(b *Bath, e Entry) {
	if b.Run != nil && (w.Start == b.Run.Seq || w.Start == 0 && b.Run.ResultOf(e.At)) {
		b.Run = nil
	}
}

// SetOutside marks what the wash broke of the rules, before it is recorded.
func (w *Wash) SetOutside(why []string) { w.Outside = why }

func (w *Wash) say(sys units.System) string {
	s := fmt.Sprintf("%s, %s soil, %s at %s: %s", loadSay(w.Items), w.Soil, sys.Text(w.Time), sys.Text(w.BathC), saidResult[w.Result])
	s += suffix(" · ", w.Tags.String())
	s += papersSay(slices.DeleteFunc(slices.Clone(w.Items), func(l Load) bool { return l.LimitC == nil || w.BathC <= *l.LimitC }))
	return s + outsideSay(w.Outside) + suffix(" · ", w.Note)
}

var saidResult = map[string]string{ResultClean: "clean", ResultAgain: "wash again", ResultDamaged: "damaged"}
