package catalog

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// UnknownError is a name that the catalog does not hold.
type UnknownError struct {
	Kind    string   // "item type"
	Name    string   // as asked for
	Nearest []string // ids most like it, best first; may be empty
	Known   []string // all ids that may be washed or used, by the alphabet
}

// Error returns one sentence that names what can be asked for.
func (e *UnknownError) Error() string {
	hint, ids := "nearest", e.Nearest
	if len(ids) == 0 {
		hint, ids = "there are", e.Known
	}
	return fmt.Sprintf("no %s %s; %s: %s", e.Kind, quote(e.Name), hint, strings.Join(ids, ", "))
}

// unknown is the error for a name that is not among those of ids, which maps
// folded names to ids. known are the ids worth listing.
func unknown(kind, name string, ids map[string]string, known []string) *UnknownError {
	slices.Sort(known)
	return &UnknownError{kind, name, nearest(name, ids), known}
}

// nearest returns up to three ids that have a name like the one given.
func nearest(name string, ids map[string]string) []string {
	const most = 3
	name = fold(cut(name))
	best := map[string]int{}
	for other, id := range ids {
		d := distance(name, other)
		if had, ok := best[id]; d <= tolerance(name, other) && (!ok || d < had) {
			best[id] = d
		}
	}
	like := ranked(best)
	return like[:min(most, len(like))]
}

// tolerance is how many slips still count as like: one in every three letters.
func tolerance(a, b string) int { return max(len(a), len(b)) / 3 }

// ranked returns the ids by distance, then by the alphabet.
func ranked(distances map[string]int) []string {
	ids := slices.Collect(maps.Keys(distances))
	slices.SortFunc(ids, func(a, b string) int {
		return cmp.Or(cmp.Compare(distances[a], distances[b]), strings.Compare(a, b))
	})
	return ids
}

// distance counts the letters to put in, take out or change between a and b
// (Levenshtein 1965).
func distance(a, b string) int {
	above := make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := range len(a) {
		diagonal := above[0]
		above[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = above[j+1]
			above[j+1] = min(change, above[j]+1, diagonal+1)
		}
	}
	return above[len(b)]
}

// quote returns s safe to print: cut, quoted, control characters escaped.
func quote(s string) string { return strconv.Quote(cut(s)) }

// cut shortens s to what a sentence can hold.
func cut(s string) string {
	const longest = 32
	runes := []rune(s)
	if len(runes) <= longest {
		return s
	}
	return string(runes[:longest]) + "…"
}
