package cli

import (
	"io"
	"strings"
	"testing"
)

// A first name that two members have means neither; a figure that is a word of
// its own is that word.
func TestPick(t *testing.T) {
	roll := []option{{say: "Kim Vu", keys: []string{"Kim Vu", "", "Kim"}}, {say: "Kim Ode", keys: []string{"Kim Ode", "KO", "Kim"}}, {say: "leave", number: "0"}}
	words := options([]string{"2", "1", "both"})
	for _, c := range []struct {
		typed string
		of    []option
		want  int
	}{
		{"kim", roll, -1}, {"kim ode", roll, 1}, {"ko", roll, 1}, {"1", roll, 0}, {"3", roll, -1}, {"0", roll, 2}, {"-1", roll, -1},
		{"1", words, 1}, {"2", words, 0}, {"3", words, 2}, {"BOTH", words, 2},
	} {
		if got := pick(c.typed, c.of); got != c.want {
			t.Errorf("%q: got %d, want %d", c.typed, got, c.want)
		}
	}
}

// What is typed ahead is left for whoever reads next.
func TestReadLineTakesOneLine(t *testing.T) {
	in := strings.NewReader(" caf\u00e9 \r\nnext\nrest")
	for _, want := range []string{"caf\u00e9", "next"} {
		if got, err := readLine(in); err != nil || got != want {
			t.Errorf("got %q, %v; want %q", got, err, want)
		}
	}
	if got, err := readLine(in); err != io.EOF || got != "" {
		t.Errorf("got %q, %v; want the end: a line without its enter was not finished", got, err)
	}
}
