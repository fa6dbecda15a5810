package bath

import (
	"slices"
	"strings"

	"bathside/internal/units"
)

// Role is what a member may do.
type Role string

// The roles, each with the powers of the one before it.
const (
	Crew      Role = "crew"      // anyone on the roster
	KeyHolder Role = "keyholder" // may start ultrasound
	Officer   Role = "officer"   // the gear officer: may decide, drain and set up
)

func (r Role) rank() int {
	switch r {
	case Officer:
		return 2
	case KeyHolder:
		return 1
	}
	return 0
}

// Say is the role with its article, as the screen says it.
func (r Role) Say() string {
	switch r {
	case Officer:
		return "a gear officer"
	case KeyHolder:
		return "a key holder"
	}
	return "crew"
}

func (r Role) orAbove() string {
	switch r {
	case Officer:
		return "a gear officer"
	case KeyHolder:
		return "a key holder or a gear officer"
	}
	return "anyone on the roster"
}

// Member is somebody on the roster; recording one again changes them.
type Member struct {
	Name     string `json:"name"`
	Role     Role   `json:"role,omitzero"`
	Platoon  string `json:"platoon,omitzero"` // A, B or C; "" is on every duty list
	Initials string `json:"initials,omitzero"`
	Left     bool   `json:"left,omitzero"` // no longer at the station
}

var memberSpec = &Spec{
	Kind: "member", Title: "Add or change a member", Scope: OfStation, Role: Officer,
	New: func() Body { return new(Member) },
	Fields: []Field{
		field("name", "name", "Ana Reyes", func(m *Member) *string { return &m.Name }).help("as it stands on the roster"),
		field("role", "role", "crew", func(m *Member) *string { return (*string)(&m.Role) }).
			words(string(Crew), string(KeyHolder), string(Officer)).optional("of somebody new: crew, if left out; else as it is"),
		field("platoon", "platoon", "B", func(m *Member) *string { return &m.Platoon }).optional("A, B or C; nobody's: on every duty list"),
		field("initials", "initials", "AR", func(m *Member) *string { return &m.Initials }).optional("for the duty list"),
		field("left", "has left", "yes", func(m *Member) *bool { return &m.Left }),
	},
}

func (m *Member) spec() *Spec { return memberSpec }

func (m *Member) check(v view, e Entry) error {
	switch {
	case m.Name == "":
		return refuse("missing", "the member has no name: give one, like Ana Reyes")
	case !strings.Contains("ABC", strings.ToUpper(m.Platoon)) || len(m.Platoon) > 1:
		return refuse("input", "platoon %q is not one of A, B, C: leave it empty for somebody on every duty list", short(m.Platoon))
	case m.Initials != "" && v.taken(m):
		return refuse("initials", "the initials %s belong to somebody else here: give others, or none", short(m.Initials))
	case !v.keepsOfficer(m):
		return refuse("last-officer", "%s is the only gear officer here: make another one first", m.Name)
	}
	return nil
}

// taken reports whether the initials of m name somebody else on the roster.
func (v view) taken(m *Member) bool {
	return slices.ContainsFunc(v.s.Members, func(old Member) bool {
		return !old.Left && !strings.EqualFold(old.Name, m.Name) &&
			(strings.EqualFold(old.Initials, m.Initials) || strings.EqualFold(old.Name, m.Initials))
	})
}

// keepsOfficer reports whether a station that has an officer still has one
// once m is recorded.
func (v view) keepsOfficer(m *Member) bool {
	officers, others := 0, 0
	for _, old := range v.s.Members {
		if old.Role == Officer && !old.Left {
			officers++
			if !strings.EqualFold(old.Name, m.Name) {
				others++
			}
		}
	}
	stays := !m.Left && (m.Role == "" || m.Role == Officer)
	return officers == 0 || others > 0 || stays
}

func (m *Member) apply(s *State, _ Entry) {
	if m.Role != "" {
		s.forgetPractice(m.Name)
	}
	for i := range s.Members {
		if strings.EqualFold(s.Members[i].Name, m.Name) {
			merged := s.Members[i]
			merge(memberSpec, &merged, m)
			merged.Left, merged.Platoon = m.Left, strings.ToUpper(merged.Platoon)
			s.Members[i] = merged
			return
		}
	}
	fresh := *m
	if fresh.Role == "" {
		fresh.Role = Crew
	}
	fresh.Platoon = strings.ToUpper(fresh.Platoon)
	s.Members = append(s.Members, fresh)
}

func (m *Member) say(units.System) string {
	var b strings.Builder
	b.WriteString(m.Name)
	if m.Left {
		return b.String() + " has left"
	}
	if m.Role != "" {
		b.WriteString(", " + m.Role.Say())
	}
	if m.Platoon != "" {
		b.WriteString(", platoon " + m.Platoon)
	}
	return b.String()
}
