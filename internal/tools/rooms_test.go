package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// floors are the public packages from the bottom up: a room imports what lies
// below it, never one of its own floor.
var floors = [][]string{
	{"units"},
	{"units/uncertainty"},
	{"gravity"},
	{"abv"},
	{"abv/spirit", "abv/watch", "abv/label", "blend", "additions"},
	{"additions/sugar", "additions/acid"},
	{"additions/stability", "additions/law"},
	{"blend/batch"},
}

// internalMayImport are the public packages that those under internal/ know.
var internalMayImport = []string{"units", "units/uncertainty"}

// outsideOf are the rooms that know a package of another module in code that is no
// test; every dependency has to be here.
var outsideOf = map[string][]string{
	"github.com/shopspring/decimal": {"units", "units/uncertainty", "internal/figure", "abv/label", "blend", "examples/worksheet"},
	"gonum.org/v1/gonum/":           {"units/uncertainty", "abv/watch"},
	"gonum.org/v1/gonum/optimize":   {"abv/watch"},
}

const (
	mostExported = 65 // functions, types, variables and groups of constants of a public package
	mostLines    = 60 // of a function
)

// modulePackages are all packages of the main module without their tests, by their
// path in the module.
func modulePackages(t *testing.T) map[string]*packages.Package {
	t.Helper()
	loaded, err := packages.Load(&packages.Config{Dir: root, Mode: packages.LoadSyntax}, "./...")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]*packages.Package{}
	for _, p := range loaded {
		for _, fault := range p.Errors {
			t.Fatal(fault)
		}
		all[strings.TrimPrefix(p.PkgPath, modulePath)] = p
	}
	return all
}

// Nothing lies at the top of the module but what its description names.
func TestTheTopLevelIsAsDescribed(t *testing.T) {
	wanted := []string{"DEVELOPERS.md", "README.md", "abv", "additions", "blend", "examples", "go.mod", "go.sum", "gravity", "internal", "units"}
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") {
			found = append(found, e.Name())
		}
	}
	if !slices.Equal(found, wanted) {
		t.Errorf("the top level holds %v, described is %v", found, wanted)
	}
}

// Imports run one way, and who wants a package of another module has a reason.
func TestImportsRunOneWay(t *testing.T) {
	floor := map[string]int{}
	for i, rooms := range floors {
		for _, room := range rooms {
			floor[room] = i
		}
	}
	all := modulePackages(t)
	for _, room := range publicPaths(t) {
		if _, ok := floor[strings.TrimPrefix(room, modulePath)]; !ok {
			t.Errorf("%s is on no floor", room)
		}
	}
	for room := range floor {
		if all[room] == nil {
			t.Errorf("there is no %s", room)
		}
	}
	for room, p := range all {
		for path := range p.Imports {
			below := strings.TrimPrefix(path, modulePath)
			at, public := floor[room]
			to, ofPublic := floor[below]
			switch {
			case below == path: // of another module
				for prefix, rooms := range outsideOf {
					if strings.HasPrefix(path, prefix) && !slices.Contains(rooms, room) {
						t.Errorf("%s imports %s, which is for %v", room, path, rooms)
					}
				}
				if strings.Contains(path, ".") && !strings.HasPrefix(path, "github.com/shopspring/decimal") && !strings.HasPrefix(path, "gonum.org/v1/gonum/") {
					t.Errorf("%s imports %s, which is no dependency of the module", room, path)
				}
			case public && ofPublic && to >= at:
				t.Errorf("%s imports %s, which does not lie below it", room, below)
			case strings.HasPrefix(room, "internal/") && !strings.HasPrefix(below, "internal/") && !slices.Contains(internalMayImport, below):
				t.Errorf("%s imports %s; what lies under internal/ imports %v alone", room, below, internalMayImport)
			case !strings.HasPrefix(room, "examples/") && strings.HasPrefix(below, "examples/"):
				t.Errorf("%s imports %s", room, below)
			}
		}
	}
}

// A package can be read as a chapter: it has at most so many names, and a type that
// an importer has to name lies where an importer can.
func TestPublicPackagesHaveAChaptersSize(t *testing.T) {
	all := modulePackages(t)
	for _, rooms := range floors {
		for _, room := range rooms {
			p, n := all[room], 0
			for _, file := range p.Syntax {
				for _, d := range file.Decls {
					n += exportedNames(d)
				}
			}
			if n > mostExported {
				t.Errorf("%s exports %d functions, types, variables and groups of constants, at most %d are allowed", room, n, mostExported)
			}
			t.Logf("%s: %d", room, n)
		}
	}
}

// exportedNames counts a function, type or variable as one, a group of constants too.
func exportedNames(d ast.Decl) (n int) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil && d.Name.IsExported() {
			return 1
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() {
					n++
				}
			case *ast.ValueSpec:
				for _, name := range s.Names {
					if name.IsExported() {
						n++
					}
				}
			}
		}
		if d.Tok == token.CONST {
			return min(n, 1)
		}
	}
	return n
}

// An importer can name every type that a function or a field of the library asks
// of it: none lies under internal/.
func TestNoExportedNameHasATypeThatImportersCannotName(t *testing.T) {
	for _, p := range load(t, false) {
		note := func(where string, of types.Type) {
			if named, ok := element(of).(*types.Named); ok && named.Obj().Pkg() != nil && strings.Contains(named.Obj().Pkg().Path(), "mutage/internal/") {
				t.Errorf("%s: an importer cannot name %s", where, named)
			}
		}
		for _, f := range exported(p) {
			for _, vars := range []*types.Tuple{f.Signature().Params(), f.Signature().Results()} {
				for v := range vars.Variables() {
					note(f.FullName(), v.Type())
				}
			}
		}
		for _, name := range p.Types.Scope().Names() {
			o := p.Types.Scope().Lookup(name)
			if !o.Exported() {
				continue
			}
			if s, ok := o.Type().Underlying().(*types.Struct); ok {
				for v := range s.Fields() {
					if v.Exported() {
						note(p.Name+"."+name+"."+v.Name(), v.Type())
					}
				}
			}
		}
	}
}

// notYetCut are functions that who works in their room still has to cut. The list
// only shrinks.
var notYetCut = []string{"blend/batch.sugarStep", "blend/batch.amounts", "blend/batch.looks", "examples/worksheet.plan"}

// A function holds one thought.
func TestFunctionsAreShort(t *testing.T) {
	all := modulePackages(t)
	tools, err := packages.Load(&packages.Config{Mode: packages.LoadSyntax}, "./...")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range tools {
		all[p.PkgPath] = p
	}
	for room, p := range all {
		for _, file := range p.Syntax {
			for _, d := range file.Decls {
				f, ok := d.(*ast.FuncDecl)
				if !ok {
					continue
				}
				if n := p.Fset.Position(f.End()).Line - p.Fset.Position(f.Pos()).Line + 1; n > mostLines && !slices.Contains(notYetCut, room+"."+f.Name.Name) {
					t.Errorf("%s: %s has %d lines, at most %d are allowed", room, f.Name.Name, n, mostLines)
				}
			}
		}
	}
}

// ofPages are fractions that place words and drawings on a page, or part a number
// from its rounding, in the files that may hold them.
var ofPages = map[string][]string{
	"examples/worksheet":                {"0.5", "2.5", "4.5"},   // what flags take of a purity and a pH
	"examples/worksheet/internal/sheet": {"0.5", "1.96", "1e-6"}, // half a cell of a chart; ± of a standard uncertainty; no width
	"examples/worksheet/internal/rows":  {"0.5", "1e-6"},
}

// whole is a number without a fraction.
var whole = regexp.MustCompile(`^[0-9]+(\.0*)?(e[0-9]+)?$`)

// What the trade knows is in the library: the example command holds no fraction and
// calls no function of mathematics beyond rounding, so that it holds no coefficient
// and no formula. Counts, places and flags are whole numbers.
func TestExamplesHoldNoFormulaOfTheTrade(t *testing.T) {
	for room, p := range modulePackages(t) {
		if !strings.HasPrefix(room, "examples/worksheet") {
			continue
		}
		for _, file := range p.Syntax {
			for n := range ast.Preorder(file) {
				switch n := n.(type) {
				case *ast.BasicLit:
					if n.Kind == token.FLOAT && !whole.MatchString(n.Value) && !slices.Contains(ofPages[room], n.Value) {
						t.Errorf("%v: the number %s: constants of the trade belong into the library", p.Fset.Position(n.Pos()), n.Value)
					}
				case *ast.SelectorExpr:
					if f, ok := p.TypesInfo.Uses[n.Sel].(*types.Func); ok && f.Pkg() != nil && f.Pkg().Path() == "math" &&
						!slices.Contains([]string{"Abs", "Ceil", "Floor", "Inf", "IsInf", "IsNaN", "Max", "Min", "NaN", "Round", "Trunc", "Float64bits", "Float64frombits", "Log10", "Pow10"}, f.Name()) {
						t.Errorf("%v: math.%s: formulas belong into the library", p.Fset.Position(n.Pos()), f.Name())
					}
				case *ast.BinaryExpr:
					if fault := tradeArithmetic(p, n); fault != "" {
						t.Errorf("%v: %s", p.Fset.Position(n.Pos()), fault)
					}
				}
			}
		}
	}
}

// tradeArithmetic says of a product or quotient whether it is of two quantities of
// the library: that is a formula. A quantity over another of its kind is a ratio.
func tradeArithmetic(p *packages.Package, n *ast.BinaryExpr) string {
	if n.Op != token.MUL && n.Op != token.QUO {
		return ""
	}
	x, y := quantityOf(p, n.X), quantityOf(p, n.Y)
	if x == nil || y == nil || n.Op == token.QUO && x == y {
		return ""
	}
	return fmt.Sprintf("%s: a formula of two quantities belongs into the library", types.ExprString(n))
}

// quantityOf is the type of the library that an expression has, or had before it was
// converted; nil for a constant and for what is no quantity.
func quantityOf(p *packages.Package, e ast.Expr) *types.Named {
	if p.TypesInfo.Types[e].Value != nil {
		return nil
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return quantityOf(p, e.X)
	case *ast.CallExpr:
		if p.TypesInfo.Types[e.Fun].IsType() && len(e.Args) == 1 {
			return quantityOf(p, e.Args[0])
		}
	}
	named, ok := p.TypesInfo.TypeOf(e).(*types.Named)
	if !ok || named.Obj().Pkg() == nil || !strings.HasPrefix(named.Obj().Pkg().Path(), modulePath) {
		return nil
	}
	return named
}

// goFilesOf are the paths in the module of its Go files that are committed, with
// their lines.
func goFilesOf(t *testing.T) map[string][]string {
	t.Helper()
	out, err := output(root, "git", "ls-files", "*.go")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]string{}
	for _, path := range strings.Fields(out) {
		text, err := os.ReadFile(filepath.Join(root, path))
		if err != nil {
			continue // renamed and not yet added
		}
		files[path] = strings.Split(string(text), "\n")
	}
	return files
}

// words that the house does not use, with what it says instead.
var words = map[string]string{
	"spindle": "hydrometer", "spindles": "hydrometers", "doubt": "uncertainty", "doubts": "uncertainties", "road": "method", "roads": "methods",
	"bears": "tolerates, holds", "accepted is": "out of range:",
}

// One name for one idea everywhere, in comments, messages and names.
func TestOneVocabulary(t *testing.T) {
	for path, lines := range goFilesOf(t) {
		if strings.HasSuffix(path, "rooms_test.go") {
			continue
		}
		for i, line := range lines {
			for word, instead := range words {
				if hasWord(strings.ToLower(line), word) {
					t.Errorf("%s:%s: %q; the house says %q:\n%s", path, strconv.Itoa(i+1), word, instead, strings.TrimSpace(line))
				}
			}
		}
	}
}

// hasWord says whether text has this word, not as part of another.
func hasWord(text, word string) bool {
	letter := func(i int) bool { return i >= 0 && i < len(text) && (text[i] >= 'a' && text[i] <= 'z') }
	for from := 0; ; {
		i := strings.Index(text[from:], word)
		if i < 0 {
			return false
		}
		i += from
		if !letter(i-1) && !letter(i+len(word)) {
			return true
		}
		from = i + 1
	}
}
