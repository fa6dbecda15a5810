package console

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// list is what a screen says of the list that has its keys, so that finding,
// copying and clicking work alike in every one.
type list struct {
	rows []string  // as they read, without marks
	at   int       // the marked one
	mark func(int) // marks another
	y    int       // where its first drawn row stands on the screen, below the strip; 0: rows cannot be clicked
	from int       // the first row that is drawn
}

// lister is a screen, panel or sheet with a list.
type lister interface{ list() list }

// seeker is a lister that can look further when nothing in the list fits: it
// says what is to be done.
type seeker interface{ seek(words string) action }

// listOf is the list of s; false where it has none, or nothing in it.
func listOf(s any) (list, bool) {
	l, ok := s.(lister)
	if !ok {
		return list{}, false
	}
	is := l.list()
	return is, len(is.rows) > 0
}

// marked is the row that copying takes.
func (l list) marked() string {
	if l.at < 0 || l.at >= len(l.rows) {
		return ""
	}
	return strings.TrimSpace(ansi.Strip(l.rows[l.at]))
}

// matches are the rows that have every word of what is typed, whatever the case.
func (l list) matches(typed string) (at []int) {
	words := strings.Fields(strings.ToLower(typed))
	if len(words) == 0 {
		return nil
	}
	for i, r := range l.rows {
		if hasAll(strings.ToLower(r), words) {
			at = append(at, i)
		}
	}
	return at
}

func hasAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}
