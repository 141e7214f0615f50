package mutants

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"go/ast"
	"go/token"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// A Mutant is one change of one file.
type Mutant struct {
	Package string // import path
	File    string // below the module, with slashes
	Line    int
	Text    string // the line, trimmed
	Change  string // "17 -> 17.34", with " (no. 2)" where the line has more of the same

	path        string // absolute
	start, end  int
	replacement string
}

func (m Mutant) String() string {
	return fmt.Sprintf("%s:%d: %s: %s", m.File, m.Line, m.Change, m.Text)
}

// Find lists what can be changed in the packages whose folder below the module
// is wanted, file by file from top to bottom.
func (m *Module) Find(wanted func(folder string) bool) ([]Mutant, error) {
	var all []Mutant
	var paths []string
	for _, p := range m.packages {
		if !wanted(m.relative(p.ImportPath)) {
			continue
		}
		paths = append(paths, p.ImportPath)
		for _, name := range p.EmbedFiles {
			if filepath.Ext(name) == ".csv" {
				found, err := m.cells(p.ImportPath, filepath.Join(p.Dir, name))
				if err != nil {
					return nil, err
				}
				all = append(all, found...)
			}
		}
	}
	if len(paths) == 0 {
		return nil, errors.New("mutants: no package is wanted")
	}
	loaded, err := packages.Load(&packages.Config{Dir: m.dir, Mode: packages.LoadSyntax}, paths...)
	if err != nil {
		return nil, err
	}
	for _, p := range loaded {
		for _, fault := range p.Errors {
			return nil, fault
		}
		r := newReader(p.TypesInfo, p.Syntax)
		for _, file := range p.Syntax {
			found, err := m.source(p, r, file)
			if err != nil {
				return nil, err
			}
			all = append(all, found...)
		}
	}
	slices.SortStableFunc(all, func(a, b Mutant) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.start, b.start))
	})
	number(all)
	return all, nil
}

// number tells apart equal changes of one line.
func number(all []Mutant) {
	type place struct {
		file, change string
		line         int
	}
	seen := map[place]int{}
	for i, m := range all {
		at := place{m.File, m.Change, m.Line}
		seen[at]++
		if n := seen[at]; n > 1 {
			all[i].Change += fmt.Sprintf(" (no. %d)", n)
		}
	}
}

// A site makes mutants of one file.
type site struct {
	pkg, file, path string
	content         []byte
	found           []Mutant
}

func (m *Module) open(pkg, path string) (*site, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	file, err := filepath.Rel(m.dir, path)
	return &site{pkg: pkg, file: filepath.ToSlash(file), path: path, content: content}, err
}

// change notes that the bytes from start to end can be replaced.
func (s *site) change(start, end int, replacement string) {
	before := s.content[:start]
	first := bytes.LastIndexByte(before, '\n') + 1
	last := len(s.content)
	if n := bytes.IndexByte(s.content[start:], '\n'); n >= 0 {
		last = start + n
	}
	s.found = append(s.found, Mutant{
		Package: s.pkg, File: s.file, Line: bytes.Count(before, []byte{'\n'}) + 1,
		Text:   strings.TrimSpace(string(s.content[first:last])),
		Change: string(s.content[start:end]) + " -> " + replacement,
		path:   s.path, start: start, end: end, replacement: replacement,
	})
}

// source finds the changes of a Go file.
func (m *Module) source(p *packages.Package, r reader, file *ast.File) ([]Mutant, error) {
	in := p.Fset.File(file.FileStart)
	s, err := m.open(p.PkgPath, in.Name())
	if err != nil {
		return nil, err
	}
	operator := func(at token.Pos, op token.Token, x, y ast.Expr) {
		if to, ok := opposite[op]; ok && r.flips(op, x, y) {
			start := in.Offset(at)
			s.change(start, start+len(op.String()), to.String())
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BasicLit:
			if to := r.literal(n); to != "" {
				s.change(in.Offset(n.Pos()), in.Offset(n.End()), to)
			}
		case *ast.BinaryExpr:
			operator(n.OpPos, n.Op, n.X, n.Y)
		case *ast.AssignStmt:
			operator(n.TokPos, n.Tok, n.Lhs[0], n.Rhs[0])
		case *ast.UnaryExpr:
			if n.Op == token.SUB {
				s.change(in.Offset(n.OpPos), in.Offset(n.OpPos)+1, "+")
			}
		}
		return true
	})
	return s.found, nil
}

// cells finds the changes of an embedded table.
func (m *Module) cells(pkg, path string) ([]Mutant, error) {
	s, err := m.open(pkg, path)
	if err != nil {
		return nil, err
	}
	var lines []int // where each begins
	for at := 0; ; {
		lines = append(lines, at)
		n := bytes.IndexByte(s.content[at:], '\n')
		if n < 0 {
			break
		}
		at += n + 1
	}
	r := csv.NewReader(bytes.NewReader(s.content))
	r.Comment, r.FieldsPerRecord = '#', -1
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return s.found, nil
		} else if err != nil {
			return nil, fmt.Errorf("%s: %w", s.file, err)
		}
		for i, cell := range row {
			to := cellNumber(cell)
			if to == "" {
				continue
			}
			line, column := r.FieldPos(i)
			start := lines[line-1] + column - 1
			if s.content[start] == '"' {
				start++
			}
			s.change(start, start+len(cell), to)
		}
	}
}
