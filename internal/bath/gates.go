package bath

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"bathside/internal/catalog"
	"bathside/internal/units"
)

// Gate is something that stands in the way of a start, with its way out. Each
// is one function below and one test.
type Gate struct {
	ID    string
	Item  string // id of the item type whose paper it is about; else ""
	Wrong string // what was read and what is allowed
	Do    string
	Wake  string
	Soft  bool // a gear officer may let it through with a reason
}

// Say is the gate as a new member reads it, or hears it read aloud.
func (g Gate) Say() string { return catalog.KeptOut(g.Wrong, g.Do, g.Wake) }

// gate looks at a start; nil lets it pass.
type gate func(v view, s *Start, e Entry) *Gate

// gates is every gate, in the order in which they are shown: what cannot be
// mended first.
var gates = []gate{
	gateTag, gateOther, gateNever, gateGear, gateRunning, gateSoap, gateDegas, gateMark, gateMeasured, gateBand, gateCool, gateLimit, gatePaper,
	gateLongest, gateChecks, gateLids, gateBaskets, gateMass, gateOverflow, gateAgain, gateKnown,
}

// gatesOf lists what stands in the way of s.
func gatesOf(v view, s *Start, e Entry) (out []Gate) {
	for _, look := range gates {
		if g := look(v, s, e); g != nil {
			out = append(out, *g)
		}
	}
	return out
}

// Gates lists what stands in the way of a start, before anybody tries it. The
// error says why no load at all can be started.
func Gates(s *State, e Entry, now time.Time) ([]Gate, error) {
	start, ok := e.Body.(*Start)
	if !ok {
		return nil, nil
	}
	v := view{s: s, now: now, sys: sysText{s.System()}}
	if err := v.find(startSpec, e); err != nil {
		return nil, err
	}
	if !v.open { // an empty bath has no level and no heat to look at
		if g := gateTag(v, start, e); g != nil {
			return []Gate{*g}, nil
		}
		return nil, v.checkFill(startSpec, e)
	}
	return gatesOf(v, start, e), nil
}

const officerWake = "the gear officer"

func gateTag(v view, _ *Start, _ Entry) *Gate {
	t := v.b.Tag
	if t == nil {
		return nil
	}
	return &Gate{ID: "tagged", Wrong: fmt.Sprintf("the bath is red-tagged by %s: %s", t.By, t.Why), Do: "leave it off", Wake: officerWake + ", who alone lifts the tag"}
}

// gateOther: "anything but smoke?" is answered once for an incident.
func gateOther(v view, _ *Start, e Entry) *Gate {
	in := v.s.Intake
	switch {
	case in == nil || e.At.Sub(in.At) > intakeStands:
		return &Gate{ID: "intake", Wrong: "nobody has said whether there was anything but smoke", Do: "ask who wore it, then log the intake", Wake: "the officer of the incident"}
	case heldOut[in.Else] != "":
		return &Gate{ID: "not-smoke", Wrong: fmt.Sprintf("the gear met %s", heldOut[in.Else]), Do: "bag it, tag it red, keep it apart: there is no way into the bath", Wake: officerWake}
	case in.Else == ElseBlood && !in.Rinsed:
		return &Gate{ID: "blood", Wrong: "there is blood on the gear, and a hot bath sets it", Do: "rinse it cool, below 113 °F (45 °C), disinfect it, and log the intake as rinsed", Wake: officerWake}
	}
	return nil
}

func gateNever(_ view, s *Start, _ Entry) *Gate {
	for _, l := range s.Items {
		if l.Never != "" {
			return &Gate{ID: "never", Wrong: fmt.Sprintf("%s, because %s", l.Name, l.Never), Do: "take it out of the basket", Wake: "the gear officer if in doubt"}
		}
	}
	return nil
}

func gateRunning(v view, _ *Start, _ Entry) *Gate {
	r := v.b.Run
	if r == nil {
		return nil
	}
	return &Gate{ID: "running", Wrong: fmt.Sprintf("the wash that %s started has no result yet", r.By), Do: "log how it came out first", Wake: r.By}
}

func gateSoap(v view, _ *Start, _ Entry) *Gate {
	if len(Of[*Dose](v.life.Entries)) > 0 {
		return nil
	}
	return &Gate{ID: "no-soap", Wrong: "no soap is logged in this fill", Do: "log the first dose", Wake: officerWake}
}

func gateDegas(v view, _ *Start, _ Entry) *Gate {
	if v.life.Degassed() {
		return nil
	}
	return &Gate{ID: "bubbles", Wrong: "the bath was not run empty to clear bubbles since it was filled", Do: "run it empty for 15 min with the lid shut, and log it", Wake: "a key holder", Soft: true}
}

// gateMark: below its low mark the heater runs dry.
func gateMark(v view, _ *Start, _ Entry) *Gate {
	t := v.b.Tank
	level, _, ok := v.life.Level(t)
	const hair = 0.01 // L, left by gallons
	if !ok || t.LowL <= 0 || level > t.LowL+hair {
		return nil
	}
	return &Gate{ID: "low", Wrong: "the bath stands no higher than the heater's low mark", Do: "heater off, fill up to the mark, log the water", Wake: officerWake}
}

// measuredStands is how long a measured temperature stands for a start.
const measuredStands = 15 * time.Minute

func gateMeasured(v view, s *Start, e Entry) *Gate {
	g := &Gate{ID: "old-temperature", Wrong: "the bath was measured more than 15 min ago", Do: "measure it again, pump off; a wash that ran already is logged as a wash", Wake: "nobody: this you can do"}
	switch {
	case s.BathC <= 0:
		g.Wrong, g.Do = "nobody has said how warm the bath is", "measure it, pump off"
	case e.Logged.Sub(e.At) <= measuredStands:
		return nil
	}
	return g
}

func gateBand(v view, s *Start, _ Entry) *Gate {
	most := v.b.Tank.Max()
	if s.BathC <= most+0.5 {
		return nil
	}
	was, may := v.sys.pair(s.BathC, most)
	return &Gate{ID: "over-band", Wrong: fmt.Sprintf("the bath is at %s, and the hottest allowed here is %s", was, may), Do: "heater off, gear out, let it cool", Wake: officerWake}
}

// coolest is the coolest bath to wash in, 95 °F (common practice, no source).
var coolest = units.Fahrenheit(95)

func gateCool(v view, s *Start, _ Entry) *Gate {
	if s.BathC <= 0 || s.BathC >= coolest-0.5 {
		return nil
	}
	was, least := v.sys.pair(s.BathC, coolest)
	return &Gate{ID: "too-cool", Wrong: fmt.Sprintf("the bath is at %s, and nothing comes clean below %s", was, least), Do: "wait until it is warmer", Wake: "nobody: this you can do", Soft: true}
}

// gatePaper: a mask, pack, helmet or cylinder wants its maker's paper. What a
// paper on file says holds for whatever it is about. A reason that lets one item
// through must not hide that another may not go in at all.
func gatePaper(v view, s *Start, e Entry) (soft *Gate) {
	for _, l := range s.Items {
		switch g := v.paperOf(l, s, e); {
		case g != nil && !g.Soft:
			return g
		case soft == nil:
			soft = g
		}
	}
	return soft
}

func (v view) paperOf(l Load, s *Start, e Entry) *Gate {
	p, ok := v.s.Paper(l.Item, e.At)
	switch {
	case !ok && slices.Contains(wantsPaper, l.Item):
		return &Gate{ID: "paper", Item: l.Item, Wrong: fmt.Sprintf("no maker's paper for %s is on file", l.Name), Do: "log the paper, or that you do not have it yet", Wake: officerWake, Soft: true}
	case p.State == PaperOutside:
		return &Gate{ID: "paper", Item: l.Item, Wrong: fmt.Sprintf("this station washes %s outside the bath", l.Name), Do: "wash it by hand", Wake: officerWake}
	case p.State == PaperPending && slices.Contains(wantsPaper, l.Item) && e.At.Sub(p.At) > PaperGrace:
		return &Gate{ID: "paper", Item: l.Item, Wrong: fmt.Sprintf("the maker's paper for %s has been missing for more than 30 days", l.Name), Do: "get it, and log it", Wake: officerWake, Soft: true}
	case p.State == PaperOnFile && beyond(s.Time, p.Longest):
		return &Gate{ID: "paper", Item: l.Item, Wrong: fmt.Sprintf("%s is longer than the %s that the maker's paper allows for %s", v.sys.span(s.Time), v.sys.span(p.Longest), l.Name), Do: "set less", Wake: officerWake}
	}
	return nil
}

// gateLongest: the shortest longest-minutes in the load rule.
func gateLongest(v view, s *Start, _ Entry) *Gate {
	var short *Load
	for _, l := range s.Items {
		if beyond(s.Time, l.Longest) && (short == nil || l.Longest < short.Longest) {
			short = &l
		}
	}
	if short == nil {
		return nil
	}
	return &Gate{ID: "too-long", Wrong: fmt.Sprintf("%s is longer than the longest for %s, %s", v.sys.span(s.Time), short.Name, v.sys.span(short.Longest)),
		Do: "set less, or take it out and wash it by itself", Wake: officerWake}
}

// beyond reports whether t is longer than the longest, where there is one. A
// timer is set in whole seconds.
func beyond(t, longest units.Span) bool { return longest > 0 && t >= longest+1 }

func gateChecks(_ view, s *Start, _ Entry) *Gate {
	if s.Checked {
		return nil
	}
	return &Gate{ID: "checks", Wrong: "the checks of the items were not looked at", Do: "go through them one by one, as the cycle lists them: cap and seal off, parts off, nothing unsealed, nothing fuel-wet", Wake: "the gear officer if one fails"}
}

func gateLids(_ view, s *Start, _ Entry) *Gate {
	for _, l := range s.Items {
		if l.Floats && !s.Lids {
			return &Gate{ID: "lid", Wrong: fmt.Sprintf("%s floats, and no lid is clipped over it", l.Name), Do: "put it in a basket with its lid clipped", Wake: "nobody: this you can do"}
		}
	}
	return nil
}

// gateBaskets: a load goes into the station's baskets by its own counts, as far
// as they say.
func gateBaskets(v view, s *Start, _ Entry) *Gate {
	var share float64
	for _, l := range s.Items {
		share += float64(l.Count) * v.b.basketShare(l.Item)
	}
	const hair = 1e-9
	if share <= 1+hair {
		return nil
	}
	g := &Gate{ID: "overfull", Do: fmt.Sprintf("wash it in %d loads", int(math.Ceil(share-hair))), Wake: officerWake + " if the counts on file are wrong", Soft: true}
	g.Wrong = fmt.Sprintf("the load takes %.1f times the room that the baskets on file have in the bath", math.Ceil(10*(share-hair))/10)
	if len(s.Items) == 1 {
		l := s.Items[0]
		g.Wrong = fmt.Sprintf("%s × %d is too much: the baskets on file take %d at once", l.Name, l.Count, int(float64(l.Count)/share+hair))
	}
	return g
}

// gateMass: a load weighs at most half of what the water does.
func gateMass(v view, s *Start, _ Entry) *Gate {
	kg, most := MassOf(s.Items), v.life.MostMass()
	if kg <= most {
		return nil
	}
	g := &Gate{ID: "too-heavy", Do: "wash it in two loads", Wake: officerWake}
	g.Wrong = fmt.Sprintf("the load weighs about %s, and at most %s may go in, half of what the water weighs", v.sys.sys.Text(kg), v.sys.sys.Text(most))
	if v.sys.sys.Text(kg) == v.sys.sys.Text(most) {
		g.Wrong = fmt.Sprintf("the load weighs a little more than the %s that may go in, half of what the water weighs", v.sys.sys.Text(most))
	}
	return g
}

// gateOverflow: items push their volume of water up, floaters under a lid their
// whole volume.
func gateOverflow(v view, s *Start, _ Entry) *Gate {
	room, up := v.b.Tank.Room(), Pushed(s.Items)
	if room <= 0 || up <= room {
		return nil
	}
	g := &Gate{ID: "overflow", Do: "wash it in two loads", Wake: officerWake}
	g.Wrong = fmt.Sprintf("the load pushes %s of the bath up, and between the mark and the rim there is room for %s: it would flow over", v.sys.vol(up), v.sys.vol(room))
	if v.sys.vol(up) == v.sys.vol(room) {
		g.Wrong = fmt.Sprintf("the load pushes up a little more than the %s that there is room for between the mark and the rim: the bath would flow over", v.sys.vol(room))
	}
	return g
}

// mostVisits is how often the same items are washed in one visit before
// somebody looks, and oneVisit is how far apart two washes of a visit may be:
// a night's work (common practice, no source).
const (
	mostVisits = 3
	oneVisit   = 12 * time.Hour
)

func gateAgain(v view, s *Start, e Entry) *Gate {
	for _, l := range s.Items {
		washed, took := v.notClean(l.Item, e.At)
		visit := max(washed+1, s.Visit)
		total := took + units.Span(visit-washed)*s.Time
		g := &Gate{ID: "again", Do: "stop and look: soap strength, foil, what the soil is", Wake: officerWake + ", who may go on with it", Soft: true}
		switch {
		case visit > mostVisits:
			g.Wrong = fmt.Sprintf("this is wash %d of %s in one visit, and after %d somebody looks first", visit, l.Name, mostVisits)
		case beyond(total, 2*l.Longest):
			g.Wrong = fmt.Sprintf("wash %d makes it %s in all for %s in one visit, more than twice its longest, %s", visit, v.sys.span(total), l.Name, v.sys.span(l.Longest))
		default:
			continue
		}
		return g
	}
	return nil
}

// notClean counts the washes of an item that came out to be washed again, one
// after the other up to t, and how long they took.
func (v view) notClean(item string, t time.Time) (n int, took units.Span) {
	for _, w := range slices.Backward(Of[*Wash](v.life.Entries)) {
		if w.At.After(t) || !slices.ContainsFunc(w.Is.Items, func(l Load) bool { return l.Item == item }) {
			continue
		}
		if w.Is.Result != ResultAgain || t.Sub(w.At) > oneVisit {
			break
		}
		n, took, t = n+1, took+w.Is.Time, w.At
	}
	return n, took
}

func loadSay(loads []Load) string {
	var parts []string
	for _, l := range loads {
		name := l.Name
		if name == "" {
			name = l.Item
		}
		parts = append(parts, fmt.Sprintf("%s × %d", name, l.Count))
	}
	return strings.Join(parts, ", ")
}
