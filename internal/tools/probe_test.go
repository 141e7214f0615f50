package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/types"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// Each exported function is called with arguments at and beyond its domain by
// a program made for it: see package probe. It must return, without panic, and
// give neither NaN nor an infinity with a nil error; one that has no error to
// give must not make them of ordinary numbers.
func TestDomains(t *testing.T) {
	dir := t.TempDir()
	generated := filepath.Join(dir, "functions.go")
	if err := os.WriteFile(generated, []byte(listing(load(t, false))), 0o644); err != nil {
		t.Fatal(err)
	}
	place, err := filepath.Abs(filepath.Join("probe", "functions.go"))
	if err != nil {
		t.Fatal(err)
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{place: generated}})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o644); err != nil {
		t.Fatal(err)
	}
	binary := filepath.Join(dir, "probe.bin")
	if out, err := exec.Command("go", "build", "-overlay", filepath.Join(dir, "overlay.json"), "-o", binary, "./probe").CombinedOutput(); err != nil {
		t.Fatalf("go build ./probe: %v\n%s", err, out)
	}
	var found, log bytes.Buffer
	probe := exec.Command(binary)
	probe.Stdout, probe.Stderr = &found, &log
	if err := probe.Run(); err != nil {
		t.Errorf("probe: %v\n%.4000s", err, log.String())
	}
	t.Logf("%s", log.String())
	for dec := json.NewDecoder(&found); dec.More(); {
		var f struct{ Function, Fault, Arguments, Detail string }
		if err := dec.Decode(&f); err != nil {
			t.Fatal(err)
		}
		t.Errorf("%s(%s): %s: %s", f.Function, f.Arguments, f.Fault, f.Detail)
	}
}

// listing is the file that names all functions to probe.
func listing(loaded []*packages.Package) string {
	var functions, specimens strings.Builder
	var imports strings.Builder
	for _, p := range loaded {
		fmt.Fprintf(&imports, "\t%q\n", p.PkgPath)
		for _, f := range exported(p) {
			if f.Signature().TypeParams() != nil {
				continue
			}
			name := path.Base(p.PkgPath) + "." + f.Name()
			if r := f.Signature().Recv(); r != nil {
				name = types.TypeString(r.Type(), func(p *types.Package) string { return p.Name() })
				if strings.HasPrefix(name, "*") {
					name = "(" + name + ")"
				}
				name += "." + f.Name()
			}
			fmt.Fprintf(&functions, "\t\t{%q, %s},\n", name, name)
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

func isText(t types.Type) bool {
	named, ok := t.(*types.Named)
	return ok && types.Identical(named.Underlying(), types.Typ[types.String])
}
