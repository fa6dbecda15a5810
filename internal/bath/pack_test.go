package bath_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
)

func TestUnpackGivesBackWhatWasPacked(t *testing.T) {
	b := begun(t)
	b.log(crew, dipped(9.98))
	b.log(crew, twoBuffers())
	b.log(officer, dropTest(4.1, p(6.0)))
	b.log(crew, &bath.Reading{PH: 9.9, SampleC: 50, Meter: "M1"})
	want := b.state
	data, err := want.Pack()
	if err != nil {
		t.Fatal(err)
	}
	got, err := bath.Unpack(data)
	if err != nil {
		t.Fatal(err)
	}
	a, _ := json.Marshal(want)
	c, _ := json.Marshal(got)
	if diff := cmp.Diff(string(a), string(c)); diff != "" {
		t.Errorf("unpacked differs (-want +got)\n%s", diff)
	}
	if _, err := bath.Unpack(data[:len(data)-9]); err == nil {
		t.Error("half a line was believed")
	}
}

// An imported line may name a bath where none belongs, or one that is not there:
// the checkpoint is read all the same.
func TestUnpackKeepsACheckThatNamesABath(t *testing.T) {
	b := begun(t)
	for _, id := range []string{main, "gone"} {
		e := b.draft(crew, b.now, dipped(9.98))
		e.Bath = id
		b.entries = append(b.entries, e)
	}
	state, err := bath.Fold(b.entries)
	if err != nil {
		t.Fatal(err)
	}
	data, err := state.Pack()
	if err != nil {
		t.Fatal(err)
	}
	got, err := bath.Unpack(data)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(asText(t, state), asText(t, got)); diff != "" {
		t.Errorf("unpacked differs (-want +got)\n%s", diff)
	}
}
