package main

import (
	"go/ast"
	"go/types"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// aboutErrors are the words by which a comment says what can go wrong.
var aboutErrors = regexp.MustCompile(`(?i)\berrors?\b|\*\[?units\.|\*[A-Z]\w*Error|\bErr[A-Z]|\bfails?\b|refuse|\bok\b`)

// aboutDomain are those by which it says what is taken; a reference to another name
// does, where that name says it.
var aboutDomain = regexp.MustCompile(`(?i)domain|\d|\bas [A-Z(a-z]|above|positive|every|zero|inverse|beside|\bany\b|\bis [A-Z]\w+`)

// ofText are methods that do for every type the same, which their package says.
var ofText = []string{"MarshalText", "UnmarshalText", "MarshalJSON", "UnmarshalJSON", "Set", "String", "Error", "Unwrap", "Figures"}

// Who reads the comment of an exported function knows what can go wrong, and what
// goes in: a function with an error says both.
func TestCommentsSayDomainAndErrors(t *testing.T) {
	for _, p := range load(t, false) {
		for name, decl := range documented(p) {
			text := strings.Join(strings.Fields(decl.Doc.Text()), " ")
			switch f := p.TypesInfo.Defs[decl.Name].(*types.Func); {
			case text == "":
				t.Errorf("%s.%s has no comment", p.Name, name)
			case slices.Contains(ofText, decl.Name.Name) || !withError(f):
			case !aboutErrors.MatchString(text):
				t.Errorf("%s.%s does not say what can go wrong: %s", p.Name, name, text)
			case numbersGoIn(f) && !aboutDomain.MatchString(text):
				t.Errorf("%s.%s does not say what goes in: %s", p.Name, name, text)
			}
		}
	}
}

// documented are the exported functions and methods of exported types, by name.
func documented(p *packages.Package) map[string]*ast.FuncDecl {
	out := map[string]*ast.FuncDecl{}
	for _, file := range p.Syntax {
		for _, d := range file.Decls {
			decl, ok := d.(*ast.FuncDecl)
			if !ok || !decl.Name.IsExported() {
				continue
			}
			name := decl.Name.Name
			if r := p.TypesInfo.Defs[decl.Name].(*types.Func).Signature().Recv(); r != nil {
				of := receiver(r.Type()).Obj()
				if !of.Exported() {
					continue
				}
				name = of.Name() + "." + name
			}
			out[name] = decl
		}
	}
	return out
}

func withError(f *types.Func) bool {
	out := f.Signature().Results()
	return out.Len() > 0 && out.At(out.Len()-1).Type().String() == "error"
}

// numbersGoIn says whether a parameter is a number, or a quantity.
func numbersGoIn(f *types.Func) bool {
	for v := range f.Signature().Params().Variables() {
		if b, ok := v.Type().Underlying().(*types.Basic); ok && b.Info()&types.IsNumeric != 0 {
			return true
		}
	}
	return false
}
