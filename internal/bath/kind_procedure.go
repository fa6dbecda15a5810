package bath

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bathside/internal/units"
)

// How a maker's paper stands.
const (
	PaperOnFile  = "on-file"
	PaperPending = "pending" // not here yet: a gear officer answers for it for 30 days
	PaperOutside = "outside" // these are washed outside the bath
)

// PaperGrace is how long a gear officer may answer for a paper that is not here
// yet (rulings of the trade).
const PaperGrace = 30 * 24 * time.Hour

// wantsPaper are the item types that are washed by their maker's word.
var wantsPaper = []string{"mask", "pack", "helmet", "cylinder"}

// PaperItems lists the item types that are washed by their maker's word.
func PaperItems() []string { return slices.Clone(wantsPaper) }

// Procedure is a maker's written cleaning instruction for an item type, or that
// the station does not have it.
type Procedure struct {
	Item     string             `json:"item"`
	State    string             `json:"state"`
	Model    string             `json:"model,omitzero"`
	Title    string             `json:"title,omitzero"` // with its revision
	MaxC     *units.Temperature `json:"max_c,omitzero"`
	Longest  units.Span         `json:"longest_s,omitzero"`
	Accepted string             `json:"accepted,omitzero"` // by whom
	Lapses   string             `json:"lapses,omitzero"`   // 2028-03-31
}

// Paper is a procedure as it was logged.
type Paper struct {
	Procedure
	Seq uint64    `json:"seq"`
	At  time.Time `json:"at"`
	By  string    `json:"by"`
}

var procedureSpec = &Spec{
	Kind: "procedure", Title: "Maker's paper", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Procedure) },
	Fields: []Field{
		field("item", "for", "mask", func(p *Procedure) *string { return &p.Item }).help("the item type that it is about"),
		field("state", "paper", PaperOnFile, func(p *Procedure) *string { return &p.State }).words(PaperOnFile, PaperPending, PaperOutside).
			help("here; not here yet, and you answer for it for 30 days; or washed outside the bath"),
		field("title", "title", "cleaning guide, rev C", func(p *Procedure) *string { return &p.Title }).optional("with its revision"),
		field("model", "model", "as marked", func(p *Procedure) *string { return &p.Model }).optional("that it is about"),
		field("max", "bath at most", "122F", func(p *Procedure) **units.Temperature { return &p.MaxC }).optional("with ultrasound, as the paper says"),
		field("longest", "at most so long", "5min", func(p *Procedure) *units.Span { return &p.Longest }).optional("as the paper says"),
		field("accepted", "accepted by", "Ana Reyes", func(p *Procedure) *string { return &p.Accepted }).optional("you, if left out"),
		field("lapses", "lapses", "2028-03-31", func(p *Procedure) *string { return &p.Lapses }).optional("when it is looked at again"),
	},
}

func (p *Procedure) spec() *Spec { return procedureSpec }

// ceiling is the hottest that any paper may allow: the top of the working band
// (rulings of the trade: above 130 °F never).
var ceiling = units.Fahrenheit(130)

func (p *Procedure) check(v view, _ Entry) error {
	switch {
	case p.Item == "":
		return refuse("missing", "which item type is the paper about? Give it like --item mask")
	case p.State == PaperOnFile && p.Title == "":
		return refuse("missing", "which paper is it? Give its title and revision")
	case p.State == PaperOnFile && p.MaxC == nil:
		return refuse("missing", "how warm may the bath be? Give what the paper says, like --max 122F")
	case p.MaxC != nil && *p.MaxC > ceiling+0.5:
		was, most := v.sys.pair(*p.MaxC, ceiling)
		return refuse("input", "no paper lets a bath be hotter than %s here, and this one says %s: look at it again", most, was)
	}
	return checkDate(p.Lapses)
}

func (p *Procedure) apply(s *State, e Entry) {
	fresh := Paper{*p, e.Seq, e.At, e.By}
	if fresh.Accepted == "" {
		fresh.Accepted = e.By
	}
	for i := range s.Papers {
		if old := s.Papers[i]; strings.EqualFold(old.Item, p.Item) {
			if old.State == PaperPending && p.State == PaperPending {
				fresh.At = old.At // said again, it is not put off
			}
			s.Papers[i] = fresh
			return
		}
	}
	s.Papers = append(s.Papers, fresh)
}

// Paper is what is on file for an item type at a time; a paper that has lapsed
// is not.
func (s *State) Paper(item string, at time.Time) (Paper, bool) {
	for _, p := range s.Papers {
		if !strings.EqualFold(p.Item, item) {
			continue
		}
		if lapses, err := time.ParseInLocation(dateForm, p.Lapses, at.Location()); err == nil && !at.Before(lapses.AddDate(0, 0, 1)) {
			return Paper{}, false
		}
		return p, true
	}
	return Paper{}, false
}

// NamePapers puts into each load what is on file for it at that time, for the
// line that is about to be written.
func (s *State) NamePapers(loads []Load, at time.Time) {
	for i := range loads {
		p, ok := s.Paper(loads[i].Item, at)
		switch loads[i].Paper = ""; {
		case !ok || p.State == PaperOutside:
		case p.State == PaperOnFile:
			loads[i].Paper = p.Title
		case at.Sub(p.At) <= PaperGrace:
			loads[i].Paper = "not here yet, accepted by " + p.Accepted
		default:
			loads[i].Paper = "not here yet"
		}
	}
}

// papersSay names the papers that loads go by.
func papersSay(loads []Load) string {
	var say string
	for _, l := range loads {
		if l.Paper != "" {
			say += fmt.Sprintf(" · maker's paper for %s: %s", l.Name, l.Paper)
		}
	}
	return say
}

func (p *Procedure) say(sys units.System) string {
	s := "maker's paper for " + p.Item + ": "
	switch p.State {
	case PaperPending:
		return s + "not here yet" + suffix(", accepted by ", p.Accepted)
	case PaperOutside:
		return s + "washed outside the bath"
	}
	s += p.Title
	if p.MaxC != nil {
		s += ", up to " + sys.Text(*p.MaxC)
	}
	return s + suffix(", lapses ", p.Lapses)
}
