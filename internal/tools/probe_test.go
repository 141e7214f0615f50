package main

import (
	"encoding/json"
	"fmt"
	"go/types"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// Each exported function is called with arguments at and beyond its domain by
// a program made for it: see package probe. It must return, without panic, and
// give neither NaN nor an infinity with a nil error; one that has no error to
// give must not make them of ordinary numbers.
func TestDomains(t *testing.T) {
	found, _ := generated(t, "probe", listing(load(t, false)))
	for dec := json.NewDecoder(found); dec.More(); {
		var f struct{ Function, Fault, Arguments, Detail string }
		if err := dec.Decode(&f); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s(%s): %s: %s", f.Function, f.Arguments, f.Fault, f.Detail)
	}
}

// listing is the file that names all functions to probe; more are imports of what is
// added to it.
func listing(loaded []*packages.Package, more ...string) string {
	var functions, specimens strings.Builder
	var imports strings.Builder
	for _, path := range more {
		fmt.Fprintf(&imports, "\t%q\n", path)
	}
	for _, p := range loaded {
		fmt.Fprintf(&imports, "\t%q\n", p.PkgPath)
		for _, f := range exported(p) {
			if name, ok := f.callable(); ok {
				fmt.Fprintf(&functions, "\t\t{%q, %s},\n", name, name)
			}
		}
		for _, name := range p.Types.Scope().Names() {
			o := p.Types.Scope().Lookup(name)
			_, isVar := o.(*types.Var)
			_, isConst := o.(*types.Const)
			if o.Exported() && (isVar || isConst && isText(o.Type())) {
				fmt.Fprintf(&specimens, "\t\t%s.%s,\n", p.Name, name)
			}
		}
	}
	return fmt.Sprintf("package main\n\nimport (\n%s)\n\nfunc init() {\n\tfunctions = []function{\n%s\t}\n\tspecimens = []any{\n%s\t}\n}\n", &imports, &functions, &specimens)
}

// callable is what a function, or a method as an expression, is called by; not ok is
// what has type parameters.
func (f function) callable() (name string, ok bool) {
	r := f.Signature().Recv()
	switch {
	case f.Signature().TypeParams() != nil || r != nil && receiver(r.Type()).TypeParams() != nil:
		return "", false
	case r == nil:
		return f.Pkg().Name() + "." + f.Name(), true
	}
	name = types.TypeString(r.Type(), (*types.Package).Name)
	if strings.HasPrefix(name, "*") {
		name = "(" + name + ")"
	}
	return name + "." + f.Name(), true
}

func isText(t types.Type) bool {
	named, ok := t.(*types.Named)
	return ok && types.Identical(named.Underlying(), types.Typ[types.String])
}
