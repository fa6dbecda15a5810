package report

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// seal is a seal number of a report.
var seal = strings.Repeat("3f9a0c52d1e47b86", 4)

func TestWriteSeal(t *testing.T) {
	got := written(t, func(b *bytes.Buffer) error { return WriteSeal(b, seal, 41) })
	checkText(t, string(got))
	want := "\nSeal number " + seal + "\nof 41 lines\n" +
		"bathside verify --against and that number, or its first 16 digits, shows later\nwhether these lines still stand.\n"
	if string(got) != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if err := WriteSeal(full{}, seal, 41); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}
