package catalog

import "fmt"

// Excluded is a type of item that never goes in the bath.
type Excluded struct {
	ID      string // as typed in commands: "radio"
	Name    string // as on screen: "Radio"
	Plural  string // in a sentence: "radios"
	Aliases []string

	Why     string // goes on after "radios, because ..."
	Instead string // what to do with it
	Wake    string // whom, and for what
	Source  string // of why
}

// Wrong says what stays out and why, without a full stop.
func (e Excluded) Wrong() string { return e.Plural + ", because " + e.Why }

// Refusal is what the crew reads when it asks for this.
func (e Excluded) Refusal() string { return KeptOut(e.Wrong(), e.Instead, e.Wake) }

// ExcludedError is the name of something that never goes in the bath.
type ExcludedError struct {
	Name string // as asked for
	Excluded
}

// Error returns what stays out, why, and what to do instead.
func (e *ExcludedError) Error() string { return e.Refusal() }

// KeptOut is the one wording for what stays out of the bath: what is wrong,
// what to do and whom to wake, each a phrase without a full stop.
func KeptOut(wrong, do, wake string) string {
	return fmt.Sprintf("Not in the bath: %s. Do this: %s. Wake %s.", wrong, do, wake)
}

// inDoubt is whom to wake where a table names nobody.
const inDoubt = "the gear officer if in doubt"

// readWake reads the optional field "wake".
func readWake(t *table) string {
	if t.has("wake") {
		return t.text("wake")
	}
	return inDoubt
}

// readExcluded reads one [[item]] that has a field "never".
func readExcluded(t *table) Excluded {
	return Excluded{
		ID:      t.id(),
		Name:    t.text("name"),
		Plural:  t.text("plural"),
		Aliases: t.texts("aliases"),
		Why:     t.text("never"),
		Instead: t.text("instead"),
		Wake:    readWake(t),
		Source:  t.text("source"),
	}
}
