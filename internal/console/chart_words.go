package console

import (
	"fmt"
	"strings"

	"bathside/internal/advise"
)

// words are the trend and, once something is zoomed in on, from when to when.
func (c *seriesChart) words() string {
	shown := c.shownSay()
	if shown == "" {
		return " " + trendWords(c.x, c.w-1, true)
	}
	return spread(" "+trendWords(c.x, c.w-len([]rune(shown))-4, true), c.t.accent.Render(shown)+" ", c.w)
}

// shownSay is what is shown of the chart, an arrow where there is more; "" for
// all of it.
func (c *seriesChart) shownSay() string {
	lo, hi := c.reach()
	if c.window.whole(lo, hi) {
		return ""
	}
	from, to := c.window.span(lo, hi)
	say := c.day(from) + " to " + c.day(to)
	if from > lo {
		say = c.t.mark("◂ ", "< ") + say
	}
	if to < hi {
		say += c.t.mark(" ▸", " >")
	}
	return say
}

func (c *seriesChart) day(at float64) string {
	return timeAt(at).In(c.x.Now.Location()).Format("2 Jan")
}

// values is the marked reading in a line: what the cursor stands on.
func (c *seriesChart) values() string {
	if c.marked == nil {
		return ""
	}
	r := *c.marked
	when := r.At.In(c.x.Now.Location()).Format("Mon 2 Jan 15:04")
	is := fmt.Sprintf("pH %.2f at %s", float64(r.Is.PH), c.x.Sys.Temp(r.Is.SampleC))
	parts := []string{when, is}
	if would := equivalent(c.x, r); would != "" {
		_, first, _ := c.x.PH.AtFirst(r)
		parts = append(parts, "would read "+would+" at "+c.x.Sys.Temp(first.Is.SampleC))
	}
	parts = append(parts, against(r))
	whole := strings.Join(append(parts, c.earlierThen(r)...), " · ")
	lo, hi := c.window.span(c.reach())
	sign := c.t.glyphs.Cursor()
	if at := unix(r.At); at < lo || at > hi {
		sign = "left or right shows it:"
	}
	return " " + sign + " " + fit(c.w-len([]rune(sign))-2, whole, strings.Join(parts, " · "), when+" · "+is)
}

// earlierThen is about what the fill before read as long after its first reading.
func (c *seriesChart) earlierThen(r advise.Judged) []string {
	if c.earlier == nil {
		return nil
	}
	day, _ := c.x.SinceFirst(r.At)
	ph, ok := c.earlier.On(day)
	if !ok {
		return nil
	}
	return []string{fmt.Sprintf("%s about %.2f", earlierSay(c.x, *c.earlier), ph)}
}
