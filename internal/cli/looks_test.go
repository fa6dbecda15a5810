package cli

import (
	"runtime"
	"testing"

	"bathside/internal/chart"
	"bathside/internal/plain"
)

// Source: locale(7) of Linux for the names, and code page 437 for what a bare
// console has letters for. What was asked for comes before what the terminal
// says, but never letters that it does not have.
func TestLooks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("block is the usual there")
	}
	const utf8, latin = "en_US.UTF-8", "en_US.ISO-8859-1"
	for _, c := range []struct {
		term, locale, env, flag string
		glyphs                  chart.Glyphs
		letters                 plain.Letters
	}{
		{"xterm", utf8, "", "", chart.Braille, nil},
		{"xterm", utf8, "block", "", chart.Block, nil},
		{"xterm", utf8, "ascii", "", chart.ASCII, plain.ASCII},
		{"xterm", utf8, "ascii", "auto", chart.Braille, nil},
		{"xterm", utf8, "ascii", "Block", chart.Block, nil},
		{"linux", utf8, "", "", chart.Block, plain.PC},
		{"linux", utf8, "braille", "", chart.Block, plain.PC},
		{"linux", utf8, "", "ascii", chart.ASCII, plain.ASCII},
		{"xterm", latin, "", "braille", chart.ASCII, plain.ASCII},
	} {
		env := map[string]string{"TERM": c.term, "LANG": c.locale, "BATHSIDE_CHARTS": c.env}
		a := &app{Process: Process{Getenv: func(name string) string { return env[name] }}}
		if c.flag != "" {
			if err := a.flags.charts.Set(c.flag); err != nil {
				t.Fatal(err)
			}
		}
		glyphs, letters, err := a.looks()
		if err != nil || glyphs != c.glyphs || !likeLetters(letters, c.letters) {
			t.Errorf("%+v: got %d, %v", c, glyphs, err)
		}
	}

	a := &app{Process: Process{Getenv: func(name string) string { return "dots" }}}
	if _, _, err := a.looks(); err == nil || err.Error() != `BATHSIDE_CHARTS: "dots" is not one of auto, braille, block, ascii` {
		t.Errorf("got %v", err)
	}
	if err := a.flags.charts.Set("dots"); err == nil {
		t.Error("a flag that means nothing was taken")
	}
}

// likeLetters reports whether two sets hold the same of the letters that tell them
// apart.
func likeLetters(a, b plain.Letters) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	return a('é') == b('é') && a('─') == b('─')
}
