package advise_test

import (
	"strings"
	"testing"

	"bathside/internal/bath"
)

// Every figure says how it is reckoned, at any stage of a bath's life, and one
// that is not known says so.
func TestEveryFigureSaysHow(t *testing.T) {
	for name, b := range map[string]book{"empty": bare(), "in service": inService(), "kept": kept(), "low": low(), "paired": paired()} {
		t.Run(name, func(t *testing.T) {
			seen := map[string]bool{}
			for _, f := range b.look(t, "20 08:00").Figures() {
				if f.ID == "" || f.Name == "" || f.Value == "" || f.How == "" {
					t.Errorf("a figure lacks something: %+v", f)
				}
				if seen[f.ID] {
					t.Errorf("two figures are called %q", f.ID)
				}
				seen[f.ID] = true
				if strings.Contains(f.Value, "NaN") || strings.Contains(f.Value, "Inf") {
					t.Errorf("%s: %s", f.Name, f.Value)
				}
			}
		})
	}
}

// Nothing is known of a bath that nobody has read.
func TestNoFigureOfABathThatWasNotRead(t *testing.T) {
	for _, f := range bare().look(t, "20 08:00").Figures() {
		switch f.ID {
		case "ph", "equivalent", "drop", "temp", "ready", "level", "strength", "shelf":
			if !strings.HasPrefix(f.Value, "not known") {
				t.Errorf("%s: %q, want not known", f.Name, f.Value)
			}
		}
	}
}

func TestWhyNot(t *testing.T) {
	empty, open := bare().look(t, "20 08:00"), inService().look(t, "20 08:00")
	for _, c := range []struct {
		kind        bath.Kind
		empty, open string
	}{
		{"reading", "the bath is empty", ""}, {"drain", "the bath is empty", ""}, {"decision", "the bath is empty", ""}, {"start", "the bath is empty", ""},
		{"fill", "", "is open: it is drained first"}, {"pause", "no wash is running", "no wash is running"}, {"abort", "no wash", "no wash"},
		{"release", "no red tag", "no red tag"}, {"handover", "", ""}, {"stock", "", ""},
	} {
		for _, is := range []struct{ got, want string }{{empty.WhyNot(c.kind), c.empty}, {open.WhyNot(c.kind), c.open}} {
			if is.want == "" && is.got != "" || !strings.Contains(is.got, is.want) {
				t.Errorf("%s: got %q, want %q", c.kind, is.got, is.want)
			}
		}
	}
	if got := inService().add("19 08:00", &bath.Hold{Cause: bath.HoldHeater, Why: "trips"}).look(t, "20 08:00").WhyNot("start"); !strings.Contains(got, "red-tagged") {
		t.Errorf("a tagged bath: %q", got)
	}
}
