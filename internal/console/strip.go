package console

import (
	"fmt"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"bathside/internal/advise"
)

// strip draws the two top lines, which no screen does without: how the bath
// stands, and who and when. A red tag takes the first line.
func (t *theme) strip(x *advise.Snapshot, now time.Time, banner string, w int) []string {
	if x == nil {
		return rows([]string{" Bathside", ""}, w, stripH)
	}
	first := t.stripBath(x, w)
	if tag := x.TagSay(); tag != "" {
		first = t.selected.Inherit(t.bad).Render(pad(" "+t.mark("✗", "X")+" "+tag, w))
	}
	second := t.stripShift(x, banner, w)
	if x.Bath.Run != nil {
		second = t.stripRun(x, now, banner, w)
	}
	return []string{pad(first, w), pad(second, w)}
}

func (t *theme) stripBath(x *advise.Snapshot, w int) string {
	style, shape := t.state(x.PH.State)
	word := advise.StateWord(x.PH.State)
	if !x.Open {
		style, shape, word = t.watch, "", "EMPTY"
	}
	plain := strings.TrimSpace(word + " " + shape)
	styled := style.Render(plain)

	room := w - ansi.StringWidth(plain) - 2
	name, temp, ph := squeeze(x, room)
	nameW := room - ansi.StringWidth(temp) - ansi.StringWidth(ph) - 6

	left := " " + t.bold.Render(name)
	if temp != "" {
		left = pad(left, 1+nameW+2) + temp
	}
	right := styled + " "
	if ph != "" {
		right = ph + "  " + right
	}
	return spread(left, right, w)
}

// squeeze words the three things beside the state so that they fit: first the
// set point goes, then the drop, then the name is shortened.
func squeeze(x *advise.Snapshot, room int) (name, temp, ph string) {
	for _, try := range [][3]string{
		{nameLong(x), tempLong(x), phLong(x)},
		{nameShort(x), tempLong(x), phLong(x)},
		{nameLong(x), tempShort(x), phLong(x)},
		{nameShort(x), tempShort(x), phLong(x)},
		{nameShort(x), tempShort(x), phShort(x)},
		{tankName(x), tempShort(x), phShort(x)},
		{tankName(x), "", phShort(x)},
	} {
		name, temp, ph = try[0], try[1], try[2]
		if ansi.StringWidth(name)+ansi.StringWidth(temp)+ansi.StringWidth(ph)+6 <= room {
			return name, temp, ph
		}
	}
	return name, temp, ph
}

func nameLong(x *advise.Snapshot) string {
	name := tankName(x)
	if x.Open {
		return fmt.Sprintf("%s · bath %d, day %d", name, x.Life.Number, int(x.Life.AgeDays(x.Now))+1)
	}
	return name + " · empty"
}

func nameShort(x *advise.Snapshot) string {
	if x.Open {
		return fmt.Sprintf("%s, day %d", tankName(x), int(x.Life.AgeDays(x.Now))+1)
	}
	return tankName(x)
}

func tankName(x *advise.Snapshot) string {
	if n := x.Bath.Tank.Name; n != "" {
		return n
	}
	return "Bath " + x.Bath.ID
}

func tempLong(x *advise.Snapshot) string {
	if x.Temp == nil {
		return "not measured, set " + x.Sys.Temp(x.Set())
	}
	s := fmt.Sprintf("%s at %s, set %s", x.Sys.Temp(x.Temp.C), x.Clock(x.Temp.At), x.Sys.Temp(x.Set()))
	if at, ok := x.ReadyAt(); ok && at.After(x.Now) {
		s += " · ready about " + x.Clock(at)
	}
	return s
}

func tempShort(x *advise.Snapshot) string {
	if x.Temp == nil {
		return "set " + x.Sys.Temp(x.Set())
	}
	return x.Sys.Temp(x.Temp.C)
}

func phLong(x *advise.Snapshot) string {
	if x.PH.Latest == nil {
		return "no pH yet"
	}
	s := fmt.Sprintf("pH %.2f", float64(x.PH.Latest.Is.PH))
	if x.PH.Drop != nil {
		s = fmt.Sprintf("pH %.2f  %s", float64(x.PH.Last.Is.PH), x.DropSay())
	}
	return s
}

func phShort(x *advise.Snapshot) string {
	if x.PH.Latest == nil {
		return "no pH"
	}
	return fmt.Sprintf("pH %.2f", float64(x.PH.Latest.Is.PH))
}

// stripRun is the second line while a wash is in the bath: its timer stands on
// every screen.
func (t *theme) stripRun(x *advise.Snapshot, now time.Time, banner string, w int) string {
	style := t.accent
	if r := x.Bath.Run; r.Left(now) == 0 || r.Ended != nil || r.Paused != nil {
		style = t.watch
	}
	clock := dayClock(x, now)
	room := w - len(clock) - 4
	run := bannered(banner, runFit(x, now, room-ansi.StringWidth(bannered(banner, ""))))
	return spread(" "+style.Render(fit(room, run)), t.muted.Render(clock)+" ", w)
}

// runFit is the wash in the bath in w cells: how far it is before what it is.
func runFit(x *advise.Snapshot, now time.Time, w int) string {
	what, how, ends := x.RunParts(now)
	in := advise.InTheBath + how
	if room := w - ansi.StringWidth(in+ends); room >= ansi.StringWidth(what) {
		return what + in + ends
	}
	if room := w - ansi.StringWidth(in); room >= min(ansi.StringWidth(what), 8) {
		return fit(room, what) + in
	}
	return capital(how)
}

// dayClock is the clock of the strip: the day of the week and the time.
func dayClock(x *advise.Snapshot, t time.Time) string {
	t = x.Local(t)
	return t.Format("Mon ") + x.Times.Clock(t)
}

// stripShift is the second line: station and level at the left, duty and
// clock at the right.
func (t *theme) stripShift(x *advise.Snapshot, banner string, w int) string {
	station := bannered(banner, x.State.Site.Station)
	clock := dayClock(x, x.Now)
	duty := dutySay(x)
	right := fit(w/2, duty+" · "+clock, x.Shift.Platoon+" · "+clock, clock)
	room := w - ansi.StringWidth(right) - 4
	left := fit(room, station+" · "+levelSay(x), station)
	return spread(" "+t.muted.Render(left), t.muted.Render(right)+" ", w)
}

// bannered is text behind what the second line says on every screen: that this
// is the demo, or a practice.
func bannered(banner, text string) string {
	if banner == "" {
		return text
	}
	return banner + " · " + text
}

func dutySay(x *advise.Snapshot) string {
	var names []string
	for _, m := range x.OnDuty {
		if x.Shift.Platoon == "" || m.Platoon == x.Shift.Platoon {
			names = append(names, firstName(m.Name))
		}
	}
	if len(names) == 0 { // nobody of the platoon is on the roster
		for _, m := range x.OnDuty {
			names = append(names, firstName(m.Name))
		}
	}
	who := "nobody named"
	switch n := len(names); {
	case n > 3:
		who = fmt.Sprintf("%s and %d more", names[0], n-1)
	case n > 0:
		who = strings.Join(names, ", ")
	}
	if x.Shift.Platoon == "" {
		return who
	}
	return x.Shift.Platoon + " shift: " + who
}

// levelSay is when the mark was last seen; a level nobody looked at is not
// made up here.
func levelSay(x *advise.Snapshot) string {
	if !x.Open {
		return "empty"
	}
	missing := x.Bath.Tank.VolumeL - x.Level.VolumeL
	if missing > 0.4 {
		return fmt.Sprintf("%s below the mark %s", x.Sys.Volume(missing), x.Date(x.Level.At))
	}
	return "at the mark " + x.Date(x.Level.At)
}
