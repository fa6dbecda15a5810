package bath

import "strings"

// Typed says what is wrong with fields of a kind given by name, as somebody
// types them; nil if a form could hold them. It is for data that names entries
// before anybody makes one: what is left out is no mistake here, nor what is
// empty, which a form then asks for.
func Typed(k Kind, fields map[string]string, scan Scanner) error {
	spec, ok := SpecOf(k)
	if !ok {
		return refuse("unknown-kind", "%q is not a kind of entry here: use one of %s", short(string(k)), kindNames())
	}
	body := spec.New()
	for name, text := range fields {
		f, ok := spec.Field(name)
		if !ok {
			return refuse("input", "a %s has no %q: its fields are %s", k, short(name), spec.fieldNames())
		}
		if text == "" {
			continue
		}
		if err := f.Set(body, scan, text); err != nil {
			return err
		}
	}
	return nil
}

func (s *Spec) fieldNames() string {
	var names []string
	for _, f := range s.Fields {
		names = append(names, f.Name)
	}
	return strings.Join(names, ", ")
}
