package advise

import "strings"

// permissionPart is what may leave the bath, by which way, and until when.
func (x *Snapshot) permissionPart() Part {
	p := Part{
		ID: "permissions", Name: "Permissions to drain", None: "None is on file: ask the authority before the bath is drained, and put its paper here.",
		Add: &Value{Label: "put a permission on file", Kind: "discharge", Field: "stream"},
	}
	for _, on := range x.State.Permissions {
		v := Value{
			Label: on.Stream + " by " + on.Route, Is: strings.TrimSpace(on.Title + " " + on.Number), From: "given by " + on.From + "; " + x.wordOf(on.By, on.At),
			Help: "its limits, as the paper prints them, and its last day", Kind: "discharge", Field: "title", Preset: filledIn(&on.Discharge, "discharge", x.Sys),
		}
		if on.Lapses != "" {
			v.Is += ", until " + on.Lapses
			if on.Lapses < x.Now.Format("2006-01-02") {
				v.Is = "lapsed " + on.Lapses + ": " + on.Title
			}
		}
		p.Values = append(p.Values, v)
	}
	return p
}
