package main

import (
	"encoding/json"
	"fmt"
	"go/types"
	"strings"
	"testing"
)

// The library never reads its own exported variables: after each was changed, every
// function gives what it gave before.
func TestChangingAnExportedVariableChangesNoResult(t *testing.T) {
	loaded := load(t, false)
	var variables strings.Builder
	errorType := types.Universe.Lookup("error").Type()
	for _, p := range loaded {
		for _, name := range p.Types.Scope().Names() {
			v, ok := p.Types.Scope().Lookup(name).(*types.Var)
			if ok && v.Exported() && !types.Identical(v.Type(), errorType) { // sentinels are compared, as in the standard library
				fmt.Fprintf(&variables, "\t\t{%q, &%s.%s},\n", p.Name+"."+name, p.Name, name)
			}
		}
	}
	content := listing(loaded) + fmt.Sprintf("\nfunc init() {\n\tvariables = []variable{\n%s\t}\n}\n", &variables)
	found, _ := generated(t, "probe", content, "variables")
	for dec := json.NewDecoder(found); dec.More(); {
		var f struct{ Function, Fault, Arguments, Detail string }
		if err := dec.Decode(&f); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s: %s", f.Function, f.Detail)
	}
}
