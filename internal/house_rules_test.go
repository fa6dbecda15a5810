package internal_test

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
)

// breaches returns one sentence for each place in the module where the plan is broken. A tree without any Go file is
// an error: it means that the test looked in the wrong place.
func breaches(tree fs.FS) ([]string, error) {
	names, err := goFiles(tree)
	if err != nil {
		return nil, fmt.Errorf("list the Go files: %w", err)
	}
	if len(names) == 0 {
		return nil, errors.New("list the Go files: there is none")
	}
	var said []string
	for _, name := range names {
		src, err := parse(tree, name)
		if err != nil {
			return nil, err
		}
		said = append(said, src.breaches()...)
	}
	return said, nil
}

// goFiles lists the files that the go command would look at, whatever system they are for.
func goFiles(tree fs.FS) ([]string, error) {
	var names []string
	err := fs.WalkDir(tree, ".", func(name string, entry fs.DirEntry, err error) error {
		base := path.Base(name)
		ignored := name != "." && (strings.HasPrefix(base, ".") || strings.HasPrefix(base, "_") || base == "testdata")
		switch {
		case err != nil:
			return err
		case entry.IsDir() && ignored:
			return fs.SkipDir
		case !entry.IsDir() && !ignored && path.Ext(name) == ".go":
			names = append(names, name)
		}
		return nil
	})
	return names, err
}

// source is one parsed file.
type source struct {
	name string // from the root of the module
	set  *token.FileSet
	file *ast.File
}

func parse(tree fs.FS, name string) (source, error) {
	text, err := fs.ReadFile(tree, name)
	if err != nil {
		return source{}, err
	}
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.SkipObjectResolution)
	return source{name, set, file}, err
}

func (s source) test() bool { return strings.HasSuffix(s.name, "_test.go") }

// breaches judges the file by the room that it stands in. A folder that holds tests only is no package of the house.
func (s source) breaches() []string {
	dir := path.Dir(s.name)
	i := slices.IndexFunc(house, func(r room) bool { return r.dir == dir })
	switch {
	case i < 0 && s.test():
		return nil
	case i < 0:
		return []string{fmt.Sprintf("%s: package %s is not in the plan: add it to the table in internal/house_test.go, "+
			"with what it may import and why", s.name, dir)}
	}
	var said []string
	if !s.test() {
		said = s.badImports(house[i])
	}
	if house[i].pure {
		said = append(said, s.clockReads(house[i])...)
	}
	return said
}

func (s source) badImports(r room) []string {
	var said []string
	for _, spec := range s.file.Imports {
		imported, _ := strconv.Unquote(spec.Path.Value) // the parser has refused a bad one
		if why := r.forbids(imported); why != "" {
			said = append(said, fmt.Sprintf("%s: %s may not import %s: %s", s.at(spec), r.dir, imported, why))
		}
	}
	return said
}

// forbids says why the room may not import the package at that path. It is empty where the room may.
func (r room) forbids(imported string) string {
	switch {
	case within(imported, module) && !slices.Contains(r.may, path.Base(imported)):
		return fmt.Sprintf("of ours it may import %s; %s", r.allowed(), r.why)
	case within(imported, database) && r.dir != keeper:
		return "only " + keeper + " knows the database"
	case r.pure && (within(imported, "os") || within(imported, "net")):
		return "a science does no I/O; let the caller read and hand over the values"
	}
	return ""
}

func (r room) allowed() string {
	if len(r.may) == 0 {
		return "nothing"
	}
	return "only " + strings.Join(r.may, ", ")
}

// within tells whether a package is the root or stands below it.
func within(imported, root string) bool {
	return imported == root || strings.HasPrefix(imported, root+"/")
}

// clockReads finds time.Now, time.Since and time.Until, called or handed on. A benchmark may ask: it is there to
// measure.
func (s source) clockReads(r room) []string {
	var said []string
	look := func(node ast.Node) bool {
		if call, ok := s.readsClock(node); ok {
			said = append(said, fmt.Sprintf("%s: %s may not use time.%s: a science never asks the time; take now as an "+
				"argument", s.at(node), r.dir, call))
		}
		return true
	}
	for _, decl := range s.file.Decls {
		if f, ok := decl.(*ast.FuncDecl); ok && s.test() && strings.HasPrefix(f.Name.Name, "Benchmark") {
			continue
		}
		ast.Inspect(decl, look)
	}
	return said
}

func (s source) readsClock(node ast.Node) (name string, ok bool) {
	selector, ok := node.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	name = selector.Sel.Name
	pkg, ok := selector.X.(*ast.Ident)
	return name, ok && pkg.Name == s.timeName() && slices.Contains([]string{"Now", "Since", "Until"}, name)
}

// timeName is what the file calls package time, "" where it does not import it.
func (s source) timeName() string {
	for _, spec := range s.file.Imports {
		switch {
		case spec.Path.Value != `"time"`:
		case spec.Name != nil:
			return spec.Name.Name
		default:
			return "time"
		}
	}
	return ""
}

func (s source) at(node ast.Node) string {
	return fmt.Sprintf("%s:%d", s.name, s.set.Position(node.Pos()).Line)
}
