package cli

import (
	"runtime"
	"strings"

	"bathside/internal/chart"
	"bathside/internal/plain"
)

// looks is what the console is drawn with: as the terminal says of itself, or
// as it was told where a font draws that badly.
func (a *app) looks() (chart.Glyphs, plain.Letters, error) {
	charts := a.flags.charts
	if env := a.Getenv("BATHSIDE_CHARTS"); charts.word == "" && env != "" {
		if err := charts.Set(env); err != nil {
			return 0, nil, refuse("input", "BATHSIDE_CHARTS: %v", err)
		}
	}
	glyphs, letters := lookFor(a.Getenv("TERM"), localeOf(a.Getenv))
	switch {
	case charts.word == "ascii":
		return chart.ASCII, plain.ASCII, nil
	case charts.word == "block" && letters == nil:
		return chart.Block, nil, nil
	case charts.word == "braille" && letters == nil:
		return chart.Braille, nil, nil
	}
	return glyphs, letters, nil
}

// lookFor chooses what the console is drawn with. The font of a bare Linux
// console is sure of no more than code page 437; braille is for everybody else
// (common practice, no source).
func lookFor(term, locale string) (chart.Glyphs, plain.Letters) {
	switch {
	case lettersFor(locale) != nil:
		return chart.ASCII, plain.ASCII
	case term == "linux":
		return chart.Block, plain.PC
	case runtime.GOOS == "windows":
		return chart.Block, nil
	}
	return chart.Braille, nil
}

// lettersFor is what text may be written in: a locale that is named and is not
// one of UTF-8 gets ASCII, which is part of all of them.
func lettersFor(locale string) plain.Letters {
	if locale != "" && !strings.Contains(strings.ToUpper(strings.ReplaceAll(locale, "-", "")), "UTF8") {
		return plain.ASCII
	}
	return nil
}

func localeOf(getenv func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := getenv(name); v != "" {
			return v
		}
	}
	return ""
}

// dumb reports whether the terminal says that it is one, or says nothing: no
// screen can be drawn on it.
func (a *app) dumb() bool {
	term := a.Getenv("TERM")
	return term == "dumb" || term == "" && runtime.GOOS != "windows"
}

// chartsFlag is --charts; empty where it is not given.
type chartsFlag struct{ word string }

var chartWords = []string{"auto", "braille", "block", "ascii"}

func (c *chartsFlag) String() string { return c.word }
func (c *chartsFlag) Type() string   { return strings.Join(chartWords, "|") }

func (c *chartsFlag) Set(text string) (err error) {
	c.word, err = oneOf(text, chartWords)
	return err
}
