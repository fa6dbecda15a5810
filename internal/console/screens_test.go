package console

import "testing"

func TestGoldens(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h int
		keys []string
	}{
		{"today-100x30", 100, 30, nil},
		{"today-80x24", 80, 24, nil},
		{"today-60x16", 60, 16, nil},
		{"today-60x16-trend", 60, 16, []string{"tab"}},
		{"today-60x16-cycle", 60, 16, []string{"tab", "tab"}},
		{"readings-100x30", 100, 30, []string{"2"}},
		{"readings-60x16", 60, 16, []string{"2"}},
		{"meters-100x30", 100, 30, []string{"2", "v"}},
		{"meters-60x16", 60, 16, []string{"2", "v"}},
		{"check-form-80x24", 80, 24, []string{"2", "v", "a"}},
		{"log-100x30", 100, 30, []string{"7"}},
		{"log-60x16", 60, 16, []string{"7"}},
		{"explain-80x24", 80, 24, []string{"down", "down", "i"}},
		{"help-80x24", 80, 24, []string{"?"}},
		{"reading-form-80x24", 80, 24, []string{"p", "9", "9", "5", "enter"}},
		{"wash-form-60x16", 60, 16, []string{"r"}},
		{"kinds-80x24", 80, 24, []string{"e"}},
		{"catchup-80x24", 80, 24, []string{"c"}},
		{"strike-80x24", 80, 24, []string{"7", "down", "x"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sit(t, c.w, c.h, true)
			d.press(c.keys...)
			d.golden(c.name)
		})
	}
}
