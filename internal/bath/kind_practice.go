package bath

import (
	"slices"
	"strings"

	"bathside/internal/units"
)

// Practice is a guide walked on a copy of the log book: nothing of what was
// done in it is written, but that it was done.
type Practice struct {
	Guide   string `json:"guide"`   // its id: load-and-run
	Witness string `json:"witness"` // who watched, or Nobody
}

// Nobody is the witness of who practised alone.
const Nobody = "nobody"

// Practised is how often a member practised a guide since a gear officer last
// gave them a role.
type Practised struct {
	Member    string `json:"member"`
	Guide     string `json:"guide"`
	Times     int    `json:"times"`
	Witnessed int    `json:"witnessed,omitzero"` // of them
}

var practiceSpec = &Spec{
	Kind: "practice", Title: "Log a practice", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Practice) },
	Fields: []Field{
		field("guide", "guide", "load-and-run", func(p *Practice) *string { return &p.Guide }).help("which one was practised to its end"),
		field("witness", "witness", "Ana Reyes", func(p *Practice) *string { return &p.Witness }).help("who watched, from the roster; nobody, if you were alone"),
	},
}

func (p *Practice) spec() *Spec { return practiceSpec }

func (p *Practice) check(v view, e Entry) error {
	switch {
	case p.Guide == "" || strings.ContainsFunc(p.Guide, notInID):
		return refuse("input", "%q is no guide: give its id in small letters, like load-and-run", short(p.Guide))
	case p.Witness == "":
		return refuse("missing", "who watched? Give a name from the roster, or nobody")
	case !p.witnessed():
		return nil
	}
	w, err := v.s.Member(p.Witness)
	if err != nil {
		return err
	}
	if by, err := v.s.Member(e.By); err == nil && by.Name == w.Name {
		return refuse("witness", "%s cannot watch their own practice: give somebody else, or nobody", w.Name)
	}
	return nil
}

func notInID(r rune) bool { return r != '-' && (r < 'a' || r > 'z') && (r < '0' || r > '9') }

func (p *Practice) witnessed() bool { return !strings.EqualFold(p.Witness, Nobody) }

// SetWitness puts the full name of the witness there, before it is recorded.
func (p *Practice) SetWitness(s *State) {
	if m, err := s.Member(p.Witness); err == nil && p.witnessed() {
		p.Witness = m.Name
	}
}

func (p *Practice) apply(s *State, e Entry) {
	i := slices.IndexFunc(s.Practised, func(d Practised) bool { return strings.EqualFold(d.Member, e.By) && d.Guide == p.Guide })
	if i < 0 {
		s.Practised = append(s.Practised, Practised{Member: e.By, Guide: p.Guide})
		i = len(s.Practised) - 1
	}
	s.Practised[i].Times++
	if p.witnessed() {
		s.Practised[i].Witnessed++
	}
}

// forgetPractice begins the count of a member anew: a gear officer has
// answered for it by giving them a role.
func (s *State) forgetPractice(name string) {
	s.Practised = slices.DeleteFunc(s.Practised, func(d Practised) bool { return strings.EqualFold(d.Member, name) })
}

func (p *Practice) say(units.System) string {
	if !p.witnessed() {
		return "practised " + p.Guide + ", nobody watched"
	}
	return "practised " + p.Guide + ", watched by " + p.Witness
}
