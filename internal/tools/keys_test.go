package main

import (
	"flag"
	"fmt"
	"go/ast"
	"go/constant"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"

	"example.org/mutage/units"
)

var update = flag.Bool("update", false, "write testdata/keys.txt")

// A program tells errors apart by RangeError.Key, which is the quantity in snake
// case. So a quantity is a constant without values, and the list of all keys
// changes on purpose only: "go test -run Keys -update ." writes it.
func TestKeysOfErrorsAreStable(t *testing.T) {
	keys := map[string]bool{}
	for _, p := range libraryPackages(t) {
		for _, fault := range quantities(p, keys) {
			t.Error(fault)
		}
	}
	found := strings.Join(slices.Sorted(maps.Keys(keys)), "\n") + "\n"
	file := filepath.Join("testdata", "keys.txt")
	if *update {
		if err := os.WriteFile(file, []byte(found), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	listed, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(listed) == found {
		return
	}
	before := strings.Fields(string(listed))
	for _, key := range before {
		if !keys[key] {
			t.Errorf("the key %q is gone: programs may wait for it", key)
		}
	}
	for key := range keys {
		if !slices.Contains(before, key) {
			t.Errorf("the key %q is new: not in %s", key, file)
		}
	}
}

// libraryPackages are the public packages and what stands below them.
func libraryPackages(t *testing.T) []*packages.Package {
	t.Helper()
	loaded, err := packages.Load(&packages.Config{Dir: root, Mode: packages.LoadSyntax}, "./...")
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(loaded, func(p *packages.Package) bool {
		return strings.Contains(p.PkgPath, "/examples") || p.PkgPath == "example.org/mutage/blend/batch" // whose quantities are the fields of its file
	})
}

// quantities adds the keys of all constants that are passed as a quantity or stand
// in a field of that name, and says where a quantity is put together instead.
func quantities(p *packages.Package, keys map[string]bool) (faults []string) {
	note := func(e ast.Expr) {
		value := p.TypesInfo.Types[e].Value
		switch {
		case value != nil && value.Kind() == constant.String:
			if name := constant.StringVal(value); name != "" {
				keys[units.OutOfRange("", name, 0, 0, 0, "", "").Key] = true
			}
		case !isQuantity(e):
			faults = append(faults, fmt.Sprintf("%v: the quantity of an error is a constant; the thing goes into Of, what is wrong into Cause", p.Fset.Position(e.Pos())))
		}
	}
	for _, file := range p.Syntax {
		for n := range ast.Preorder(file) {
			switch n := n.(type) {
			case *ast.CallExpr:
				signature, ok := p.TypesInfo.TypeOf(n.Fun).(*types.Signature)
				if !ok {
					continue
				}
				for i := range min(signature.Params().Len(), len(n.Args)) {
					if v := signature.Params().At(i); v.Name() == "quantity" && types.Identical(v.Type(), types.Typ[types.String]) && ranged(p, n.Fun) {
						note(n.Args[i])
					}
				}
			case *ast.CompositeLit:
				named := p.TypesInfo.TypeOf(n)
				if named.String() == "example.org/mutage/units.RangeError" && p.Name != "units" && len(n.Elts) > 0 {
					faults = append(faults, fmt.Sprintf("%v: make it with units.OutOfRange, which gives it a key", p.Fset.Position(n.Pos())))
				}
				structure, ok := named.Underlying().(*types.Struct)
				if !ok {
					continue
				}
				for i, e := range n.Elts {
					if pair, ok := e.(*ast.KeyValueExpr); ok {
						if id, ok := pair.Key.(*ast.Ident); ok && id.Name == "quantity" && isTextConstant(p, pair.Value) {
							note(pair.Value)
						}
					} else if structure.Field(i).Name() == "quantity" && isTextConstant(p, e) {
						note(e)
					}
				}
			}
		}
	}
	return faults
}

// ranged leaves out functions whose quantity goes only into a *units.ParseError.
func ranged(p *packages.Package, fun ast.Expr) bool {
	name := types.ExprString(fun)
	return !strings.HasSuffix(name, "Scan") && !strings.HasSuffix(name, "Within") && !strings.HasPrefix(name, "codes.")
}

// isTextConstant says whether an expression is a constant text.
func isTextConstant(p *packages.Package, e ast.Expr) bool {
	value := p.TypesInfo.Types[e].Value
	return value != nil && value.Kind() == constant.String
}

// isQuantity says whether an expression passes on a quantity: a parameter or field
// of that name, or the name of a value of an enumeration.
func isQuantity(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name == "quantity"
	case *ast.SelectorExpr:
		return e.Sel.Name == "quantity"
	case *ast.CallExpr:
		method, ok := e.Fun.(*ast.SelectorExpr)
		return ok && method.Sel.Name == "String" && len(e.Args) == 0
	}
	return false
}
