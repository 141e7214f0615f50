package main

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/types"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// readAsTyped are types that hold what people write: reading one checks it, so that
// the zero value and random contents are refused. Their own tests bring them back.
var readAsTyped = []string{"batch.Batch"}

// printed are types whose JSON is the one that the command prints: figures with the
// places that are shown. They are written and read, and not compared.
var printed = []string{"batch.Liquid", "batch.Plan", "batch.Pour"}

// What a program has of the library it can send to another one: each exported
// type, its zero value too, is written as JSON whatever finite numbers it holds and
// comes back as it was. A type that is no data says so in its comment.
func TestEveryTypeComesBackFromJSON(t *testing.T) {
	loaded := load(t, false)
	var imports, names, constants strings.Builder
	for _, p := range loaded {
		used := false
		comments := typeComments(p)
		scope := p.Types.Scope()
		for _, name := range scope.Names() {
			o := scope.Lookup(name)
			if !o.Exported() {
				continue
			}
			switch o := o.(type) {
			case *types.TypeName:
				named, ok := o.Type().(*types.Named)
				if !ok || named.TypeParams() != nil || types.IsInterface(named) || strings.Contains(comments[name], "not data") || slices.Contains(readAsTyped, p.Name+"."+name) {
					continue
				}
				fmt.Fprintf(&names, "\t\t{reflect.TypeFor[%s.%s](), %t},\n", p.Name, name, slices.Contains(printed, p.Name+"."+name))
				used = true
			case *types.Const:
				if named, ok := o.Type().(*types.Named); ok && named.Obj().Pkg() == p.Types {
					fmt.Fprintf(&constants, "\t\t%s.%s,\n", p.Name, name)
					used = true
				}
			}
		}
		if used {
			fmt.Fprintf(&imports, "\t%q\n", p.PkgPath)
		}
	}
	found, _ := generated(t, "roundtrip", fmt.Sprintf("package main\n\nimport (\n\t\"reflect\"\n%s)\n\nfunc init() {\n\ttypes = []kind{\n%s\t}\n\tconstants = []any{\n%s\t}\n}\n",
		&imports, &names, &constants))
	for dec := json.NewDecoder(found); dec.More(); {
		var f struct{ Type, Fault, JSON string }
		if err := dec.Decode(&f); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s: %s\n%.800s", f.Type, f.Fault, f.JSON)
	}
}

// typeComments are the comments of the types of a package.
func typeComments(p *packages.Package) map[string]string {
	comments := map[string]string{}
	for _, file := range p.Syntax {
		for _, d := range file.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, s := range g.Specs {
				if spec, ok := s.(*ast.TypeSpec); ok {
					comments[spec.Name.Name] = strings.Join(strings.Fields(g.Doc.Text()+" "+spec.Doc.Text()), " ")
				}
			}
		}
	}
	return comments
}
