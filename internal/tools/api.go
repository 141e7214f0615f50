package main

import (
	"flag"
	"fmt"
	"go/types"
	"os"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

const apiFile = "api.txt"

// api writes the listing of every name that an importer can use, with its type, or
// compares it with the committed one: who changes a name does so on purpose.
func api(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where "+apiFile+" is not what the library offers")
	if err := set.Parse(args); err != nil {
		return err
	}
	lines, err := apiLines()
	if err != nil {
		return err
	}
	if !*check {
		return os.WriteFile(apiFile, []byte(strings.Join(lines, "\n")+"\n"), 0o644)
	}
	text, err := os.ReadFile(apiFile)
	if err != nil {
		return err
	}
	before := strings.Split(strings.TrimSpace(string(text)), "\n")
	var changed []string
	for _, l := range before {
		if _, found := slices.BinarySearch(lines, l); !found {
			changed = append(changed, "- "+l)
		}
	}
	for _, l := range lines {
		if !slices.Contains(before, l) {
			changed = append(changed, "+ "+l)
		}
	}
	if len(changed) > 0 {
		return fmt.Errorf("api: what an importer sees has changed; where that is meant, run \"go run . api\" in internal/tools and commit %s:\n%s", apiFile, strings.Join(changed, "\n"))
	}
	fmt.Printf("api: the %d names are those of %s\n", len(lines), apiFile)
	return nil
}

// apiLines are the exported names of the public packages, one a line, sorted.
func apiLines() ([]string, error) {
	loaded, err := packages.Load(&packages.Config{Dir: root, Mode: packages.LoadTypes}, "./...")
	if err != nil {
		return nil, err
	}
	var lines []string
	for _, p := range loaded {
		for _, fault := range p.Errors {
			return nil, fault
		}
		if strings.Contains(p.PkgPath, "/internal") || strings.Contains(p.PkgPath, "/examples") {
			continue
		}
		room := strings.TrimPrefix(p.PkgPath, module+"/")
		for _, name := range p.Types.Scope().Names() {
			if o := p.Types.Scope().Lookup(name); o.Exported() {
				lines = append(lines, apiOf(room, o)...)
			}
		}
	}
	slices.Sort(lines)
	return slices.Compact(lines), nil
}

// apiOf are the lines of one name: of a type also its exported fields and methods.
func apiOf(room string, o types.Object) []string {
	short := func(p *types.Package) string { return p.Name() }
	line := func(format string, args ...any) string { return room + ": " + fmt.Sprintf(format, args...) }
	t := func(t types.Type) string { return types.TypeString(t, short) }
	signature := func(f *types.Func) string { return strings.TrimPrefix(t(f.Signature()), "func") }
	switch o := o.(type) {
	case *types.Const:
		return []string{line("const %s %s = %s", o.Name(), t(o.Type()), o.Val())}
	case *types.Var:
		return []string{line("var %s %s", o.Name(), t(o.Type()))}
	case *types.Func:
		return []string{line("func %s%s", o.Name(), signature(o))}
	}
	named, ok := o.Type().(*types.Named)
	if !ok {
		return []string{line("type %s = %s", o.Name(), t(types.Unalias(o.Type())))}
	}
	var lines []string
	kind := t(named.Underlying())
	if s, ok := named.Underlying().(*types.Struct); ok {
		kind = "struct"
		for f := range s.Fields() {
			if f.Exported() {
				lines = append(lines, line("field %s.%s %s", o.Name(), f.Name(), t(f.Type())))
			}
		}
	}
	lines = append(lines, line("type %s %s", o.Name(), kind))
	for f := range named.Methods() {
		if f.Exported() {
			lines = append(lines, line("method (%s) %s%s", t(f.Signature().Recv().Type()), f.Name(), signature(f)))
		}
	}
	return lines
}
