package main

import (
	"encoding/json"
	"fmt"
	"go/types"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

// No exported function allocates more often, with sane arguments, than the file says:
// a call that computes does not allocate at all. Fewer is no fault, but -update notes it.
func TestNoFunctionAllocatesMoreThanListed(t *testing.T) {
	const path = "testdata/allocations.txt"
	loaded := load(t, false)
	needed := map[string]bool{"reflect": true}
	var readies strings.Builder
	for _, p := range loaded {
		delete(needed, p.PkgPath)
		for _, f := range exported(p) {
			if name, ok := f.callable(); ok {
				if text := ready(f.Signature(), needed); text != "" {
					fmt.Fprintf(&readies, "\t\t%q: func(a []reflect.Value) func() { f := %s; %s },\n", name, name, text)
				}
			}
		}
	}
	for _, p := range loaded {
		delete(needed, p.PkgPath)
	}
	content := listing(loaded, slices.Sorted(maps.Keys(needed))...) +
		fmt.Sprintf("\nfunc init() {\n\treadies = map[string]func([]reflect.Value) func(){\n%s\t}\n}\n", &readies)
	out, _ := generated(t, "probe", content, "allocations")
	got := map[string]int{}
	for dec := json.NewDecoder(out); dec.More(); {
		var a struct {
			Function    string
			Allocations int
		}
		if err := dec.Decode(&a); err != nil {
			t.Fatal(err)
		}
		got[a.Function] = a.Allocations
	}
	if *update {
		var text strings.Builder
		for _, name := range slices.Sorted(maps.Keys(got)) {
			fmt.Fprintln(&text, name, got[name])
		}
		if err := os.WriteFile(path, []byte(text.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	listed, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	none := 0
	for line := range strings.Lines(string(listed)) {
		var name string
		var most int
		if _, err := fmt.Sscan(line, &name, &most); err != nil {
			t.Fatal(err)
		}
		n, known := got[name]
		if !known {
			t.Errorf("%s is listed and was not measured: go test -run Allocates -update", name)
		} else if n > most+most/100 { // maps are walked in any order: a whole batch varies by a few in five thousand
			t.Errorf("%s allocates %d times a call, %d are listed", name, n, most)
		}
		if n == 0 {
			none++
		}
		delete(got, name)
	}
	for name := range got {
		t.Errorf("%s is not listed in %s: go test -run Allocates -update", name, path)
	}
	t.Logf("%d do not allocate", none)
}

// ready is the body of a function of readies; empty for one that empties a reader or
// fills a writer. A method's receiver is its first argument.
func ready(s *types.Signature, needed map[string]bool) string {
	var in []types.Type
	if r := s.Recv(); r != nil {
		in = append(in, r.Type())
	}
	for v := range s.Params().Variables() {
		in = append(in, v.Type())
	}
	var named, args []string
	imports := map[string]bool{}
	for i, t := range in {
		text := types.TypeString(t, func(p *types.Package) string { imports[p.Path()] = true; return p.Name() })
		if text == "io.Reader" || text == "io.Writer" {
			return ""
		}
		named = append(named, fmt.Sprintf("x%d := as[%s](a[%d]); ", i, text, i))
		args = append(args, fmt.Sprint("x", i))
	}
	maps.Copy(needed, imports)
	call := strings.Join(args, ", ")
	if s.Variadic() {
		call += "..."
	}
	return strings.Join(named, "") + "return func() { f(" + call + ") }"
}
