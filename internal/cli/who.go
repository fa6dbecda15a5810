package cli

import (
	"os/user"
	"strings"

	"bathside/internal/bath"
)

// who is the member that this run speaks for: the one named, else the only
// one, else the one who is logged in here. Anybody else is asked to say so.
func (a *app) who(s *bath.State) (string, error) {
	for _, name := range []string{a.flags.as, a.Getenv("BATHSIDE_AS")} {
		if name != "" {
			m, err := s.Member(name)
			return m.Name, err
		}
	}
	var here []bath.Member
	for _, m := range s.Members {
		if !m.Left {
			here = append(here, m)
		}
	}
	if len(here) == 1 {
		return here[0].Name, nil
	}
	for _, name := range accountNames() {
		if m, err := s.Member(name); err == nil {
			return m.Name, nil
		}
	}
	return "", refuse("who", "who is it? Give --as with a name from the roster: %s", roll(here))
}

func roll(members []bath.Member) string {
	var names []string
	for _, m := range members {
		names = append(names, m.Name)
	}
	return strings.Join(names, ", ")
}

// accountNames are what the system calls whoever is logged in, best first.
func accountNames() []string {
	u, err := user.Current()
	if err != nil {
		return nil
	}
	var names []string
	for _, name := range []string{u.Name, u.Username} {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// personName is the name of whoever is logged in, "" where that is an account's
// and no person's.
func personName() string {
	if names := accountNames(); len(names) > 0 && strings.Contains(names[0], " ") {
		return names[0]
	}
	return ""
}
