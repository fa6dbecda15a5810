package bath

import "testing"

func TestSpecsAreWhole(t *testing.T) {
	for _, s := range Specs() {
		b := s.New()
		if b.spec() != s {
			t.Errorf("%s: its body belongs to %s", s.Kind, b.spec().Kind)
		}
		for _, f := range s.Fields {
			if f.Label == "" || f.Example == "" || f.Help == "" && !f.YesNo && !f.Optional {
				t.Errorf("%s: field %s lacks words", s.Kind, f.Name)
			}
		}
	}
}
