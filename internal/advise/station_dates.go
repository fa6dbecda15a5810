package advise

import (
	"fmt"
	"slices"
	"strings"
)

// dutyPart is when the duties were last done, and when each is due.
func (x *Snapshot) dutyPart() Part {
	p := Part{ID: "duties", Name: "Duties"}
	for _, d := range dutyEvery {
		v := Value{
			Label: d.what, Is: "never logged", From: fmt.Sprintf("every %d days", d.days), Help: d.say,
			Kind: "duty", Field: "note", Preset: map[string]string{"what": d.what},
		}
		if done, ok := x.State.Duties[d.what]; ok {
			v.Is = "done " + x.Date(done)
			v.From += ", " + x.dueSay(done.In(x.Now.Location()).AddDate(0, 0, d.days))
		}
		p.Values = append(p.Values, v)
	}
	return p
}

// meterPart is what each meter is worth, and the dates of electrode and
// buffers.
func (x *Snapshot) meterPart() Part {
	p := Part{
		ID: "meters", Name: "Meters", None: "No meter is checked yet: its readings would count as less sure.",
		Add: &Value{Label: "log a dip or two buffers", Kind: "calibration", Field: "meter"},
	}
	var seen []string
	all := newMeters(x.State)
	for _, c := range slices.Backward(all) {
		if name := strings.ToLower(c.Is.Meter); !slices.Contains(seen, name) {
			seen = append(seen, name)
			p.Values = append(p.Values, x.meterValue(all, c))
		}
	}
	return p
}

// meterValue is a meter by its last check.
func (x *Snapshot) meterValue(all meters, last MeterCheck) Value {
	v := Value{
		Label: last.Is.Meter, Is: x.trustSay(last.Is.Meter), From: x.wordOf(last.By, last.At),
		Help: last.Say, Kind: "calibration", Field: "check", Preset: map[string]string{"meter": last.Is.Meter},
	}
	own := all.of(last.Is.Meter)
	if fitted, ok := lastOf(own, func(c MeterCheck) bool { return c.Is.NewElectrode }); ok {
		v.From += ", electrode of " + x.Date(fitted.At)
	}
	if dated, ok := lastOf(own, func(c MeterCheck) bool { return c.Is.Expires != "" }); ok {
		v.From += ", buffers good until " + dated.Is.Expires
	}
	return v
}
