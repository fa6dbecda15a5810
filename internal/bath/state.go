package bath

import (
	"slices"
	"strings"
	"time"

	"bathside/internal/roster"
	"bathside/internal/units"
)

// FoldVersion changes whenever folding the same entries gives another State,
// so that stored checkpoints of the old fold are thrown away.
const FoldVersion = 7

// State is everything the log book says, folded from its entries. Treat it as
// immutable: Apply works on a clone.
type State struct {
	Fold        int                  `json:"fold"`
	Seq         uint64               `json:"seq"` // the last entry folded
	Logged      time.Time            `json:"logged,omitzero"`
	Site        Setting              `json:"site"`
	Members     []Member             `json:"members,omitempty"`
	Baths       []*Bath              `json:"baths"`
	Duties      map[string]time.Time `json:"duties"` // when each was last done
	Stock       map[string]Shelf     `json:"stock,omitempty"`
	Intake      *Answer              `json:"intake,omitzero"` // the last answer to "anything but smoke?"
	Papers      []Paper              `json:"papers,omitempty"`
	Permissions []Permission         `json:"permissions,omitempty"` // the last for each stream and way
	Gear        []Piece              `json:"gear,omitempty"`        // what is tagged; none where loads are only counted
	Practised   []Practised          `json:"practised,omitempty"`
	Checks      []Entry              `json:"checks,omitempty"`  // the last calibrations and dips of meters, by time
	Notes       []Entry              `json:"notes,omitempty"`   // the last handover notes, newest last
	Struck      map[uint64]uint64    `json:"struck"`            // crossed-out entry -> the entry that did it
	Origins     map[string]Origin    `json:"origins,omitempty"` // whose word each value of the set-up is; see SetBy
}

// NewState is a station before its first entry.
func NewState() *State {
	return &State{Fold: FoldVersion, Duties: map[string]time.Time{}, Stock: map[string]Shelf{}, Struck: map[uint64]uint64{}, Origins: map[string]Origin{}}
}

// Bath is a tank and the life it leads.
type Bath struct {
	ID      string        `json:"id"`
	Tank    Tank          `json:"tank"`
	Tag     *Tag          `json:"tag,omitzero"`      // the red tag, while one hangs there
	Run     *Run          `json:"run,omitzero"`      // the wash that waits for its result
	Baskets []Basket      `json:"baskets,omitempty"` // each make, in the order it was added
	Batches []Batch       `json:"batches,omitempty"` // what was washed and is not back in service, oldest first
	Waste   []Waste       `json:"waste,omitempty"`   // what was kept back at a drain, a cleaning or a change of cartridge
	Past    []Summary     `json:"past,omitempty"`    // fills that are over, all but the last of them
	Entries []Entry       `json:"entries,omitempty"` // since the start of the fill before the open one, by time
	FilterS [2]units.Span `json:"filter_s"`          // run on each cartridge since it was changed
	MediaAt [2]time.Time  `json:"media_at"`          // when each cartridge was changed
}

// Tag is a red tag on the bath: nothing may be started in it.
type Tag struct {
	Seq  uint64    `json:"seq"`
	At   time.Time `json:"at"`
	By   string    `json:"by"`
	Kind string    `json:"kind"`
	Why  string    `json:"why"`
	Wash uint64    `json:"wash,omitzero"` // line of the wash that contaminated it
}

// Summary is what is kept of a fill that is long over.
type Summary struct {
	Number   int          `json:"number"`
	From     time.Time    `json:"from"`
	To       time.Time    `json:"to"`
	VolumeL  units.Volume `json:"volume_l"`
	DoseL    units.Volume `json:"dose_l"`
	Topups   int          `json:"topups"`
	Washes   int          `json:"washes"`
	Items    int          `json:"items"`
	Readings int          `json:"readings"`
	Product  string       `json:"product,omitzero"`
	First    *Read        `json:"first,omitzero"`
	FirstL   units.Volume `json:"first_l,omitzero"` // the first dose
	Poured   []Poured     `json:"poured,omitempty"`
	Series   []SeriesRead `json:"series,omitempty"` // its readings; only the last fills keep theirs
}

// System is how the station writes quantities.
func (s *State) System() units.System {
	sys, err := units.ParseSystem(s.Site.Units)
	if err != nil {
		return units.US
	}
	return sys
}

// Times is how the station shows times of day and dates.
func (s *State) Times() units.Times { return units.TimesOf(s.Site.Clock, s.Site.Dates) }

// Zone is the station's time zone, UTC until one is set.
func (s *State) Zone() *time.Location {
	loc, err := time.LoadLocation(s.Site.Zone)
	if err != nil {
		return time.UTC
	}
	return loc
}

// Shifts is the station's shift pattern; the zero Pattern until one is set.
func (s *State) Shifts() roster.Pattern {
	p, err := roster.Parse(s.Site.Shift)
	if err != nil {
		return roster.Pattern{}
	}
	return p
}

// Bath finds a bath by id; an empty id is the first bath.
func (s *State) Bath(id string) (*Bath, error) {
	if len(s.Baths) == 0 {
		return nil, refuse("no-bath", "no bath is set up here: run bathside setup")
	}
	if id == "" {
		return s.Baths[0], nil
	}
	var ids []string
	for _, b := range s.Baths {
		if strings.EqualFold(b.ID, id) {
			return b, nil
		}
		ids = append(ids, b.ID)
	}
	return nil, refuse("bath", "there is no bath %q here: use one of %s", short(id), strings.Join(ids, ", "))
}

// Member finds a member by name, initials, or a part of the name that fits
// nobody else.
func (s *State) Member(who string) (Member, error) {
	who = strings.TrimSpace(who)
	if who == "" {
		return Member{}, refuse("who", "who is it? Give a name from the roster: %s", s.roll())
	}
	var near []Member
	for _, m := range s.Members {
		switch {
		case m.Left:
		case strings.EqualFold(m.Name, who), strings.EqualFold(m.Initials, who):
			return m, nil
		case strings.EqualFold(initials(m.Name), who),
			slices.ContainsFunc(strings.Fields(m.Name), func(part string) bool { return strings.EqualFold(part, who) }):
			near = append(near, m)
		}
	}
	if len(near) == 1 {
		return near[0], nil
	}
	return Member{}, refuse("who", "%q is not on the roster: it has %s; a gear officer adds members", short(who), s.roll())
}

// initials are the first letters of a name, for a member who was given none.
func initials(name string) string {
	var b strings.Builder
	for _, part := range strings.Fields(name) {
		b.WriteString(string([]rune(part)[:1]))
	}
	return b.String()
}

func (s *State) roll() string {
	var names []string
	for _, m := range s.Members {
		if !m.Left {
			names = append(names, m.Name)
		}
	}
	if len(names) == 0 {
		return "nobody yet"
	}
	return strings.Join(names, ", ")
}

// clone copies s so that Apply can change it; entries and bodies are shared,
// since they never change.
func (s *State) clone() *State {
	c := *s
	c.Members = slices.Clone(s.Members)
	c.Notes = slices.Clone(s.Notes)
	c.Papers = slices.Clone(s.Papers)
	c.Gear = slices.Clone(s.Gear)
	c.Permissions = slices.Clone(s.Permissions)
	c.Practised = slices.Clone(s.Practised)
	c.Checks = slices.Clone(s.Checks)
	c.Duties = cloneMap(s.Duties)
	c.Stock = cloneMap(s.Stock)
	c.Struck = cloneMap(s.Struck)
	c.Origins = cloneMap(s.Origins)
	c.Baths = make([]*Bath, len(s.Baths))
	for i, b := range s.Baths {
		d := *b
		d.Entries, d.Past, d.Batches = slices.Clone(b.Entries), slices.Clone(b.Past), slices.Clone(b.Batches)
		d.Baskets, d.Waste = slices.Clone(b.Baskets), slices.Clone(b.Waste)
		c.Baths[i] = &d
	}
	return &c
}

func cloneMap[K comparable, V any](m map[K]V) map[K]V {
	c := make(map[K]V, len(m))
	for k, v := range m {
		c[k] = v
	}
	return c
}

// OnDuty lists the members on the duty list of a platoon: its own, and those
// of no platoon.
func (s *State) OnDuty(platoon string) []Member {
	var on []Member
	for _, m := range s.Members {
		if !m.Left && (m.Platoon == "" || platoon == "" || m.Platoon == platoon) {
			on = append(on, m)
		}
	}
	return on
}

// LastMeter is the meter that bath id was last read with or, before that, the
// one last held against a buffer; strips are none. It is "" where none has a
// name.
func (s *State) LastMeter(id string) string {
	if b, err := s.Bath(id); err == nil {
		for _, e := range slices.Backward(b.Entries) {
			if r, ok := e.Body.(*Reading); ok && !IsStrip(r.Meter) {
				return r.Meter
			}
		}
	}
	if c, ok := last(Of[*Calibration](s.Checks)); ok {
		return c.Is.Meter
	}
	return ""
}
