package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// pageLines is how many lines a page takes: at six to the inch it leaves a
// margin on letter and on A4.
const pageLines = 60

// sheet is paper: blocks of lines laid out on pages that all begin alike.
type sheet struct {
	title string   // with the number of the page, the first line of each
	head  []string // below the title; far shorter than a page
	pages [][]string
}

// newPage begins a page.
func (s *sheet) newPage() { s.pages = append(s.pages, slices.Clone(s.head)) }

// add lays a block on the last page, or on a new one where it does not fit. A
// block is parted only where no page could hold it.
func (s *sheet) add(block ...string) {
	const room = pageLines - 1 // below the title
	if len(s.pages) == 0 {
		s.newPage()
	}
	last := len(s.pages[len(s.pages)-1])
	if last > len(s.head) && last+len(block) > room {
		s.newPage()
	}
	for most := room - len(s.head); len(block) > most; s.newPage() {
		s.put(block[:most])
		block = block[most:]
	}
	s.put(block)
}

func (s *sheet) put(block []string) {
	page := &s.pages[len(s.pages)-1]
	*page = append(*page, block...)
}

// writeTo writes the pages with a form feed between them.
func (s *sheet) writeTo(w io.Writer) error {
	var b strings.Builder
	for i, page := range s.pages {
		if i > 0 {
			b.WriteByte('\f')
		}
		number := fmt.Sprintf("page %d of %d", i+1, len(s.pages))
		title := ansi.Truncate(s.title, width-len(number)-1, "...")
		b.WriteString(pad(title, width-len(number)) + number + "\n")
		for _, line := range page {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
