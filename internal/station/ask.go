package station

import "bathside/internal/bath"

// AskPIN is the table of who is asked for their PIN, for Options.AskPIN: a key
// holder once in a wash session, for what switches ultrasound on; a gear
// officer each time, for what only a gear officer may do (rulings of the
// trade). Writing down what happened asks for none.
func AskPIN(st *bath.State, e bath.Entry) Ask {
	switch b := e.Body.(type) {
	case *bath.Start:
		if b.Override != "" {
			return AskEach
		}
		return AskOnce
	case *bath.Resume:
		return AskOnce
	case *bath.Strike: // a gear officer may cross out any line, others only their own
		if m, err := st.Member(e.By); err == nil && m.Role == bath.Officer {
			return AskEach
		}
		return AskNever
	}
	if spec, ok := bath.SpecOf(e.Kind()); ok && spec.Role == bath.Officer {
		return AskEach
	}
	return AskNever
}

// PINLine is how the log book has what happened to a PIN, for Options.PINLine.
func PINLine(ev PINEvent) bath.Body { return &bath.PIN{Member: ev.Member, Event: ev.Kind} }
