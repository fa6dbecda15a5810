package station_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPINsSaysWhoHasOne(t *testing.T) {
	got, err := open(t, pinned(t)).PINs()
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(map[string]bool{officer: true, keyHolder: true, crew: false}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
