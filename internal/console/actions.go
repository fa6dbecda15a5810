package console

import "bathside/internal/bath"

// action is what a panel or a sheet asks the model to do; nil is nothing.
type action any

type (
	// openForm asks for the form of a kind, with some fields filled in.
	openForm struct {
		kind   bath.Kind
		preset map[string]string
		begin  string // the field where it begins; "": the first that is empty
	}
	// openStrike asks why a line is crossed out.
	openStrike struct{ line bath.Entry }
	// openKinds asks which kind to record.
	openKinds struct{}
	// openSetPIN asks for a member's new PIN; "" lets the member be chosen.
	openSetPIN struct{ member string }
	// openCatchUp asks for several lines at once.
	openCatchUp struct{}
	// say shows a sentence that stays until a key.
	say struct{ text string }
)
