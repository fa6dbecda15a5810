package bath

import (
	"fmt"
	"slices"
	"strings"
)

// Tags are the tags of single pieces of gear, as a scanner reads them. Most
// loads carry none: counts are enough.
type Tags []string

// set adds "M-12, M-14" to the list.
func (t *Tags) set(text string) error {
	for part := range strings.SplitSeq(text, ",") {
		if tag := clean(part); tag != "" {
			*t = append(slices.Clip(*t), tag)
		}
	}
	if len(*t) == 0 {
		return fmt.Errorf("%q names no tag: write it like M-12, M-14", short(clean(text)))
	}
	return nil
}

// String is the list as it is typed.
func (t Tags) String() string { return strings.Join(t, ", ") }

// has reports whether tag is in the list, however it is spelt.
func (t Tags) has(tag string) bool {
	return slices.ContainsFunc(t, func(s string) bool { return strings.EqualFold(s, tag) })
}

// without is the list less the tags of another.
func (t Tags) without(gone Tags) Tags {
	var left Tags
	for _, tag := range t {
		if !gone.has(tag) {
			left = append(left, tag)
		}
	}
	return left
}

// checkTags refuses a list of tags that cannot be part of a load.
func checkTags(v view, tags Tags, loads []Load) error {
	left := map[string]int{}
	for _, l := range loads {
		left[l.Item] += l.Count
	}
	var seen Tags
	for _, tag := range tags {
		p, ok := v.s.Piece(tag)
		switch {
		case !ok:
			return unknownTag(tag)
		case seen.has(tag):
			return refuse("twice", "tag %s is in the list twice: give it once", p.Tag)
		}
		if left[p.Item]--; left[p.Item] < 0 {
			return refuse("tag-count", "tag %s is a %s, and the load counts fewer of them than there are tags: mend the count or the tags", p.Tag, p.Item)
		}
		seen = append(seen, tag)
	}
	return nil
}

func unknownTag(tag string) error {
	return refuse("tag", "tag %s is not in the gear list: a gear officer registers it, or leave the tag out and count only", short(clean(tag)))
}

// gateGear: a piece that is held or gone does not go in.
func gateGear(v view, s *Start, _ Entry) *Gate {
	for _, tag := range s.Tags {
		if say := v.kept(tag); say != "" {
			return &Gate{ID: "held-item", Wrong: say, Do: "take it out of the basket and keep it apart", Wake: officerWake + ", who alone lifts the tag"}
		}
	}
	return nil
}

// kept says why a piece is not to be washed; "" where nothing is against it.
func (v view) kept(tag string) string {
	p, ok := v.s.Piece(tag)
	switch {
	case !ok:
		return ""
	case p.Gone != "":
		return fmt.Sprintf("%s is out of service: %s", p.Tag, p.Gone)
	case p.Hold != nil:
		return fmt.Sprintf("%s is held by %s: %s", p.Tag, p.Hold.By, p.Hold.Why)
	}
	return ""
}

// tagsOutside lists what was washed though it is held or gone.
func (v view) tagsOutside(tags Tags) (out []string) {
	for _, tag := range tags {
		if say := v.kept(tag); say != "" {
			out = append(out, say)
		}
	}
	return out
}
