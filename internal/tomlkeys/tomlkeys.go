// Package tomlkeys tells where the keys of a TOML text stand, so that a mistake
// in a file can be named with its line. Decoding keeps no positions; this takes
// the low-level parser of the same library instead.
package tomlkeys

import (
	"bytes"
	"iter"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Kind is what a key begins.
type Kind int

// The kinds of keys.
const (
	Field     Kind = iota // key = value
	Table                 // [key]
	ListTable             // [[key]]
)

// Key is a key of a text: the name of a table, or of a field of the table
// before it.
type Key struct {
	Kind Kind
	Path string // dotted, as in item.size
	Line int    // on which it stands, from 1
}

// In goes through the keys of text in their order, as far as it is TOML: what
// is none ends it early, and decoding says why.
func In(text []byte) iter.Seq[Key] {
	return func(yield func(Key) bool) {
		var p unstable.Parser
		p.Reset(text)
		line, at := 1, 0 // at is on that line
		for p.NextExpression() {
			node := p.Expression()
			path, begins := pathOf(node)
			line += bytes.Count(text[at:max(at, begins)], []byte("\n"))
			at = max(at, begins)
			if !yield(Key{kindOf(node), path, line}) {
				return
			}
		}
	}
}

func kindOf(node *unstable.Node) Kind {
	switch node.Kind {
	case unstable.Table:
		return Table
	case unstable.ArrayTable:
		return ListTable
	}
	return Field
}

// pathOf is the dotted key of a node, and where in the text it begins.
func pathOf(node *unstable.Node) (path string, begins int) {
	var parts []string
	for keys := node.Key(); keys.Next(); {
		key := keys.Node()
		if len(parts) == 0 {
			begins = int(key.Raw.Offset)
		}
		parts = append(parts, string(key.Data))
	}
	return strings.Join(parts, "."), begins
}
