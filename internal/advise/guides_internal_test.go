package advise

import (
	"testing"

	"bathside/assets"
	"bathside/internal/guide"
)

func TestActionsNameGuidesThatThereAre(t *testing.T) {
	all, err := guide.Load(assets.FS, nil)
	if err != nil {
		t.Fatal(err)
	}
	for action, name := range guideOf {
		if _, err := guide.Find(all, name); err != nil {
			t.Errorf("%s: %v", action, err)
		}
	}
	if _, err := guide.Find(all, WashGuide); err != nil {
		t.Error(err)
	}
	if got := (Action{ID: "red-tag"}).Guide(); got != "" {
		t.Errorf("a red tag is led through by %q: no guide lifts it", got)
	}
}
