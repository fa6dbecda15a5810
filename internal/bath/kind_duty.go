package bath

import "bathside/internal/units"

// Duty is something the station does on a schedule, done.
type Duty struct {
	What string `json:"what"`
	Note string `json:"note,omitzero"`
}

// The duties that have due dates. How often stands in advise.
const (
	DutyEyewash    = "eyewash"
	DutyFoil       = "foil"
	DutyInspection = "inspection"
	DutyBackup     = "backup" // logged by the command that made one; by hand where the file was copied otherwise
)

var dutySpec = &Spec{
	Kind: "duty", Title: "Log a duty done", Scope: OfStation, Role: Crew,
	New: func() Body { return new(Duty) },
	Fields: []Field{
		field("what", "which", "eyewash", func(d *Duty) *string { return &d.What }).words(DutyEyewash, DutyFoil, DutyInspection, DutyBackup).help("eyewash run, foil check, tank and lid inspection, log book backed up"),
		field("note", "found", "all well", func(d *Duty) *string { return &d.Note }).optional("what was found"),
	},
}

func (d *Duty) spec() *Spec             { return dutySpec }
func (d *Duty) check(view, Entry) error { return nil }

func (d *Duty) apply(s *State, e Entry) {
	if e.At.After(s.Duties[d.What]) {
		s.Duties[d.What] = e.At
	}
}

func (d *Duty) say(units.System) string { return saidDuty[d.What] + suffix(": ", d.Note) }

var saidDuty = map[string]string{
	DutyEyewash:    "eyewash run",
	DutyFoil:       "foil check done",
	DutyInspection: "tank and lid inspected",
	DutyBackup:     "log book backed up",
}
