package console

import (
	"strings"
	"unicode"

	"bathside/internal/advise"
)

// whoRow asks who it is: one key for each member on the duty list, the others
// by the arrows.
func whoRow(x *advise.Snapshot, who string) *row {
	r := newRow(rowWho, "who", "left or right for those off duty")
	r.open = true
	r.shown = map[string]string{}
	r.keys = map[string]string{}
	on := x.DutyFirst()
	for _, m := range on {
		r.words = append(r.words, m.Name)
		r.shown[m.Name] = firstName(m.Name)
		if k := freeKey(m.Name, r.keys); k != "" {
			r.keys[k] = m.Name
		}
	}
	for _, m := range x.State.Members {
		if _, listed := r.shown[m.Name]; !listed && !m.Left {
			r.words = append(r.words, m.Name)
			r.shown[m.Name] = m.Name
		}
	}
	if len(r.words) == 0 {
		r.words = []string{""}
	}
	if who == "" && len(r.words) == 1 {
		who = r.words[0]
	}
	return r.set(who)
}

func firstName(name string) string {
	first, _, _ := strings.Cut(name, " ")
	return first
}

// freeKey is the first letter of a name that is no other's key.
func freeKey(name string, taken map[string]string) string {
	for _, r := range strings.ToLower(name) {
		if _, used := taken[string(r)]; !used && unicode.IsLetter(r) && r < unicode.MaxASCII {
			return string(r)
		}
	}
	for _, r := range "123456789" {
		if _, used := taken[string(r)]; !used {
			return string(r)
		}
	}
	return ""
}
