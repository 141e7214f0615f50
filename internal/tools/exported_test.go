package main

import (
	"go/ast"
	"go/types"
	"maps"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/cover"
	"golang.org/x/tools/go/packages"
)

// publicPaths are the packages that an importer sees: all that are neither
// internal nor examples.
func publicPaths(t *testing.T) []string {
	t.Helper()
	list := exec.Command("go", "list", "./...")
	list.Dir = root
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, p := range strings.Fields(string(out)) {
		if !strings.Contains(p, "/internal") && !strings.Contains(p, "/examples") {
			paths = append(paths, p)
		}
	}
	return paths
}

// load type-checks the public packages, with their tests or without.
func load(t *testing.T, tests bool) []*packages.Package {
	t.Helper()
	loaded, err := packages.Load(&packages.Config{Dir: root, Tests: tests, Mode: packages.LoadSyntax}, publicPaths(t)...)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range loaded {
		for _, fault := range p.Errors {
			t.Fatal(fault)
		}
	}
	return loaded
}

func inTestFile(p *packages.Package, file *ast.File) bool {
	return strings.HasSuffix(p.Fset.File(file.FileStart).Name(), "_test.go")
}

// A function is one that an importer can call, and where it stands.
type function struct {
	*types.Func
	file        string // as coverage profiles have it
	first, last int    // lines
}

// exported are the functions of a package, and the methods of its types, that
// an importer can call.
func exported(p *packages.Package) []function {
	var out []function
	for _, file := range p.Syntax {
		if inTestFile(p, file) {
			continue
		}
		for _, d := range file.Decls {
			decl, ok := d.(*ast.FuncDecl)
			if !ok || !decl.Name.IsExported() {
				continue
			}
			f := p.TypesInfo.Defs[decl.Name].(*types.Func)
			if r := f.Signature().Recv(); r != nil && !receiver(r.Type()).Obj().Exported() {
				continue
			}
			first, last := p.Fset.Position(decl.Pos()), p.Fset.Position(decl.End())
			out = append(out, function{f, path.Join(p.PkgPath, filepath.Base(first.Filename)), first.Line, last.Line})
		}
	}
	return out
}

func receiver(t types.Type) *types.Named {
	if p, ok := t.(*types.Pointer); ok {
		t = p.Elem()
	}
	return t.(*types.Named)
}

// implicit are the methods that the standard library calls for one: a test
// that prints, encodes or compares errors runs them without naming them.
var implicit = []string{"String", "Error", "Unwrap", "Is", "MarshalText", "UnmarshalText", "MarshalJSON", "UnmarshalJSON"}

// Every exported function runs in the tests of the module, and a test names
// it: itself or, for a method, through an interface.
func TestEveryExportedFunctionIsTested(t *testing.T) {
	all := map[string]function{}
	named, throughInterface := map[string]bool{}, map[string]bool{}
	for _, p := range load(t, true) {
		for _, f := range exported(p) {
			all[f.FullName()] = f
		}
		for _, file := range p.Syntax {
			if !inTestFile(p, file) {
				continue
			}
			for n := range ast.Preorder(file) {
				id, ok := n.(*ast.Ident)
				if !ok {
					continue
				}
				f, ok := p.TypesInfo.Uses[id].(*types.Func)
				if !ok {
					continue
				}
				named[f.Origin().FullName()] = true
				if r := f.Signature().Recv(); r != nil && types.IsInterface(r.Type()) {
					throughInterface[f.Name()] = true
				}
			}
		}
	}
	if len(all) < 100 {
		t.Fatalf("only %d exported functions found", len(all))
	}
	runs := covered(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		f := all[name]
		byInterface := f.Signature().Recv() != nil && (throughInterface[f.Name()] || slices.Contains(implicit, f.Name()))
		switch {
		case !runs(f):
			t.Errorf("%s runs in no test", name)
		case !named[name] && !byInterface:
			t.Errorf("%s is called by no test, only by what tests call", name)
		}
	}
	t.Logf("%d exported functions and methods", len(all))
}

// covered says of a function whether any of its statements runs in the tests
// of the main module.
func covered(t *testing.T) func(function) bool {
	t.Helper()
	profile := filepath.Join(t.TempDir(), "profile")
	args := append([]string{"test", "-coverprofile=" + profile, "-coverpkg=" + strings.Join(publicPaths(t), ",")}, publicPaths(t)...)
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("go test: %v\n%s", err, out)
	}
	files, err := cover.ParseProfiles(profile)
	if err != nil {
		t.Fatal(err)
	}
	blocks := map[string][]cover.ProfileBlock{}
	for _, file := range files {
		blocks[file.FileName] = append(blocks[file.FileName], file.Blocks...)
	}
	return func(f function) bool {
		return slices.ContainsFunc(blocks[f.file], func(b cover.ProfileBlock) bool {
			return b.Count > 0 && b.StartLine >= f.first && b.EndLine <= f.last
		})
	}
}
