package console

import "bathside/internal/bath"

// action is what a panel or a sheet asks the model to do; nil is nothing.
type action any

type (
	// openForm asks for the form of a kind, with some fields filled in.
	openForm struct {
		kind   bath.Kind
		preset map[string]string
	}
	// openStrike asks why a line is crossed out.
	openStrike struct{ line bath.Entry }
	// openKinds asks which kind to record.
	openKinds struct{}
	// openSetPIN asks for a member's new PIN.
	openSetPIN struct{}
	// openCatchUp asks for several lines at once.
	openCatchUp struct{}
	// say shows a sentence that stays until a key.
	say struct{ text string }
)
