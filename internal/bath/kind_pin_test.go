package bath_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
	"bathside/internal/units"
)

func TestPINLines(t *testing.T) {
	b := newBook(t)
	for event, want := range map[string]string{
		bath.PINSet:    "PIN of Kim Sato set",
		bath.PINReset:  "PIN of Kim Sato set anew by set-up, unsigned",
		bath.PINWrong:  "a wrong PIN was given for Kim Sato",
		bath.PINLocked: "PIN of Kim Sato locked after wrong tries",
	} {
		in := bath.Entry{Seq: 7, ID: "01J0", At: monday, Logged: monday, By: crew, Body: &bath.PIN{Member: keyHolder, Event: event}}
		if got := in.Say(units.US); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
		data, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var out bath.Entry
		if err := json.Unmarshal(data, &out); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(in, out); diff != "" {
			t.Errorf("-wrote +read\n%s", diff)
		}
		b.log(crew, &bath.PIN{Member: keyHolder, Event: event})
	}
}

func TestPINLinesRefused(t *testing.T) {
	checkRefusals(t, []refusal{
		{name: "pin: nobody's", body: &bath.PIN{Event: bath.PINSet}, id: "missing", say: "whose PIN is it?"},
		{name: "pin: no such event", body: &bath.PIN{Member: crew, Event: "told"}, id: "input", say: `"told" is not one of set, reset, wrong, locked`},
	})
}

// Nobody is offered to write such a line, and every other kind may be.
func TestOnlyPINsAreWrittenByTheStation(t *testing.T) {
	checkRefusal(t, bath.ByItself(new(bath.PIN)), "by-itself", "set one with bathside pin set")
	for _, spec := range bath.Specs() {
		if err := bath.ByItself(spec.New()); err != nil {
			t.Errorf("%s: %v", spec.Kind, err)
		}
	}
	if slices.ContainsFunc(bath.Specs(), func(s *bath.Spec) bool { return s.Kind == "pin" }) {
		t.Error("a menu shows it")
	}
	if _, ok := bath.SpecOf("pin"); !ok {
		t.Error("it cannot be read back")
	}
}
