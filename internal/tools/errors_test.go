package main

import (
	"go/types"
	"strings"
	"testing"
)

// Who handles errors finds every type and sentinel in one place.
func TestThePackageCommentOfUnitsListsEveryError(t *testing.T) {
	loaded := load(t, false)
	errorType := types.Universe.Lookup("error").Type().Underlying().(*types.Interface)
	var comment string
	for _, p := range loaded {
		for _, file := range p.Syntax {
			if p.Name == "units" && file.Doc != nil {
				comment += file.Doc.Text()
			}
		}
	}
	for _, p := range loaded {
		for _, name := range p.Types.Scope().Names() {
			o := p.Types.Scope().Lookup(name)
			_, isType := o.(*types.TypeName)
			_, isVar := o.(*types.Var)
			if !o.Exported() || !isType && !isVar || isType && types.IsInterface(o.Type()) {
				continue
			}
			if !types.Implements(o.Type(), errorType) && !(isType && types.Implements(types.NewPointer(o.Type()), errorType)) {
				continue
			}
			qualified := name
			if p.Name != "units" {
				qualified = p.Name + "." + name
			}
			if !strings.Contains(comment, qualified) {
				t.Errorf("%s.%s is an error that the comment of package units does not list", p.Name, name)
			}
		}
	}
}
