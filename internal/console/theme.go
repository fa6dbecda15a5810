package console

import (
	"image/color"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/colorprofile"

	"bathside/internal/advise"
	"bathside/internal/chart"
	"bathside/internal/plain"
)

// theme is the look, named by meaning. It is made anew when the terminal says
// what it can show.
type theme struct {
	text, bold, muted, key, accent, selected lipgloss.Style
	ok, watch, bad                           lipgloss.Style

	rule, ruleFocus string // the line of a title row
	glyphs          chart.Glyphs
	has             plain.Letters // what the terminal can show; nil: everything
	ascii           bool          // marks are ASCII
}

// newTheme builds the look for a colour depth and a background. The sixteen
// named colours follow the user's own palette; richer ones are used only where
// the terminal has them.
func newTheme(p colorprofile.Profile, dark bool, glyphs chart.Glyphs, has plain.Letters) *theme {
	if glyphs == chart.ASCII {
		has = plain.ASCII
	}
	pick := lipgloss.Complete(p)
	mode := lipgloss.LightDark(dark)
	c := func(light16, dark16 color.Color, light, darkRich string) lipgloss.Style {
		rich := mode(lipgloss.Color(light), lipgloss.Color(darkRich))
		return lipgloss.NewStyle().Foreground(pick(mode(light16, dark16), rich, rich))
	}
	t := &theme{
		text:     lipgloss.NewStyle(),
		bold:     lipgloss.NewStyle().Bold(true),
		muted:    c(lipgloss.BrightBlack, lipgloss.White, "#5f6368", "#8a9199"),
		accent:   c(lipgloss.Blue, lipgloss.BrightCyan, "#0b6e99", "#6cc4e8").Bold(true),
		key:      c(lipgloss.Blue, lipgloss.BrightCyan, "#0b6e99", "#6cc4e8"),
		selected: lipgloss.NewStyle().Reverse(true),
		ok:       c(lipgloss.Blue, lipgloss.BrightCyan, "#0b6e99", "#6cc4e8"),
		watch:    c(lipgloss.Magenta, lipgloss.BrightYellow, "#9a5b00", "#e8b85c").Bold(true),
		bad:      c(lipgloss.Red, lipgloss.BrightRed, "#b3261e", "#ff8a70").Bold(true),
		rule:     "─", ruleFocus: "━",
		glyphs: glyphs, has: has, ascii: has != nil,
	}
	switch {
	case t.glyphs == chart.ASCII:
		t.rule, t.ruleFocus = "-", "="
	case t.has != nil:
		t.rule, t.ruleFocus = "─", "═"
	}
	return t
}

// state is how a pH state is drawn: its style and its shape.
func (t *theme) state(s advise.PHState) (lipgloss.Style, string) {
	shapes := map[advise.PHState][2]string{
		advise.PHOK: {"✓", "+"}, advise.PHWatch: {"▸", ">"}, advise.PHAtLimit: {"▲", "^"}, advise.PHPast: {"✗", "X"}, advise.PHUnknown: {"?", "?"},
	}
	shape := shapes[s][0]
	if t.ascii {
		shape = shapes[s][1]
	}
	switch s {
	case advise.PHOK:
		return t.ok, shape
	case advise.PHPast:
		return t.bad, shape
	}
	return t.watch, shape
}

// mark chooses between a sign and its stand-in on a plain terminal.
func (t *theme) mark(sign, plain string) string {
	if t.ascii {
		return plain
	}
	return sign
}

// plot draws a chart or a stack of them in the look.
func (t *theme) plot(p interface{ Draw(w, h int) []chart.Row }, w, h int) []string {
	var out []string
	for _, r := range p.Draw(w, h) {
		line := ""
		for _, s := range r {
			line += t.chartStyle(s.Role).Render(s.Text)
		}
		out = append(out, line)
	}
	return out
}

// chartStyle colours a chart by the role of its parts. The cursor goes without a
// colour: it stands in every row, and a colour would cost more bytes a step than
// all the rest of it.
func (t *theme) chartStyle(r chart.Role) lipgloss.Style {
	switch r {
	case chart.RoleAxis, chart.RoleTick, chart.RoleBand, chart.RoleHollow, chart.RoleError, chart.RoleThin:
		return t.muted
	case chart.RoleLimit:
		return t.bad.Bold(false)
	case chart.RolePoint, chart.RolePath, chart.RoleMark:
		return t.key
	case chart.RoleEvent:
		return t.watch.Bold(false)
	}
	return t.text
}
