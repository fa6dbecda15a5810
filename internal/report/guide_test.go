package report_test

import (
	"bytes"
	"strings"
	"testing"

	"bathside/assets"
	"bathside/internal/catalog"
	"bathside/internal/guide"
	"bathside/internal/report"
	"bathside/internal/units"
)

// TestGuidesAndCardsPrint holds that any printer has the letters and the width
// of every guide and card that ships.
func TestGuidesAndCardsPrint(t *testing.T) {
	all, err := guide.Load(assets.FS, nil)
	if err != nil {
		t.Fatal(err)
	}
	cat, err := catalog.Load(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range all {
		var out bytes.Buffer
		if err := report.WriteGuide(&out, g, units.SI); err != nil {
			t.Fatal(err)
		}
		checkPaper(t, g.ID, out.String())
	}
	for _, item := range cat.Items {
		var out bytes.Buffer
		if err := report.WriteCard(&out, guide.CardOf(item)); err != nil {
			t.Fatal(err)
		}
		checkPaper(t, item.ID, out.String())
	}
}

func checkPaper(t *testing.T, name, text string) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if len(line) > 78 || strings.ContainsFunc(line, func(r rune) bool { return r < ' ' || r > '~' }) {
			t.Errorf("%s: %q is too wide, or has letters that a printer may lack", name, line)
		}
	}
}

func TestAGuideNamesTheCommandOfAStep(t *testing.T) {
	g := guide.Guide{Name: "Try", For: "a test", Steps: []guide.Step{
		{What: "Start", Why: "to see", Do: "start", Preset: map[string]string{"lids": "yes", "checked": "yes", "soil": "light"}},
		{What: "Ask", Why: "to know", Do: "intake", Preset: map[string]string{"else": ""}},
		{What: "Go on", Why: "all of it", Do: "care", Repeat: true},
		{What: "Stand", Why: "it runs", Wait: 90},
	}}
	var out bytes.Buffer
	if err := report.WriteGuide(&out, g, units.US); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Log it: Start a wash (bathside log start --checked --lids --soil light)", "Log it: Anything but smoke? (bathside log intake --else ...)",
		"Log it: After the wash: a step done (bathside log care, for each batch of", "Wait 1 min 30 s.",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("lacks %q:\n%s", want, out.String())
		}
	}
}
