package station_test

import (
	"fmt"
	"testing"
)

func TestLinesAreTheLastOnes(t *testing.T) {
	s := open(t, newFile(t)) // five lines
	for i := range 5 {
		write(t, s, note(fmt.Sprint(i)))
	}
	tests := []struct {
		name        string
		last        uint64
		n           int
		first, upTo uint64 // 0: nothing
	}{
		{"the last three", 0, 3, 8, 10},
		{"all, and more asked for", 0, 100, 1, 10},
		{"up to one", 7, 2, 6, 7},
		{"past the end", 99, 1, 10, 10},
		{"none", 0, 0, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := s.Lines(tt.last, tt.n)
			if err != nil {
				t.Fatal(err)
			}
			if len(got) == 0 {
				if tt.first != 0 {
					t.Error("got none")
				}
				return
			}
			if a, b := got[0].Seq, got[len(got)-1].Seq; a != tt.first || b != tt.upTo || uint64(len(got)) != b-a+1 {
				t.Errorf("got %d lines from %d to %d, want %d to %d", len(got), a, b, tt.first, tt.upTo)
			}
		})
	}
}
