package bath_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"bathside/internal/bath"
)

func TestUnpackGivesBackWhatWasPacked(t *testing.T) {
	b := begun(t)
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
