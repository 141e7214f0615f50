// Package mutants asks whether the tests notice a change. It changes one
// constant, comparison, sign or table cell of a module at a time, runs the
// tests that could notice, and tells which changes survive.
//
// What is changed, in files that are no tests:
//
//   - a number with a decimal point or an exponent, and a whole number other
//     than 0 and 1 that is used as a floating-point number: up by two per cent
//     exactly (17 becomes 17.34);
//   - any other whole number of two digits or more: up by two per cent, rounded,
//     at least by one (24 becomes 25);
//   - a comparison: into its opposite (< becomes >=), save those with nil, which
//     are many and of which nearly every test notices the change;
//   - + and -, * and /, also before "=": one into the other; a minus sign is
//     taken away;
//   - a number in a cell of an embedded CSV file: by the rule for numbers with a
//     point or for whole numbers, whichever it is as printed.
//
// The tree is never changed: the go command reads the changed files through
// -overlay, embedded files included. What can stand behind a switch is built once,
// all mutants together, and the environment says which of them a run of the tests
// is; table cells, exported constants and what else cannot are built one at a time.
package mutants

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A Module is a tree of Go packages and who imports whom.
type Module struct {
	dir      string // absolute
	path     string
	packages []listed
}

// A listed package is what "go list -json" says of it.
type listed struct {
	Dir, ImportPath                    string
	Imports, TestImports, XTestImports []string
	EmbedFiles                         []string
	TestGoFiles, XTestGoFiles          []string
	Module                             struct{ Path string }
}

// Open lists the packages of the module in a directory.
func Open(dir string) (*Module, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if dir, err = filepath.EvalSymlinks(dir); err != nil {
		return nil, err
	}
	cmd := exec.Command("go", "list", "-json=Dir,ImportPath,Imports,TestImports,XTestImports,EmbedFiles,TestGoFiles,XTestGoFiles,Module", "./...")
	var complaint bytes.Buffer
	cmd.Dir, cmd.Stderr = dir, &complaint
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, &complaint)
	}
	m := &Module{dir: dir}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		m.packages, m.path = append(m.packages, p), p.Module.Path
	}
	return m, nil
}

// relative is a package's folder below the module's, with slashes.
func (m *Module) relative(pkg string) string {
	return strings.TrimPrefix(strings.TrimPrefix(pkg, m.path), "/")
}

// folder is a package's folder.
func (m *Module) folder(pkg string) string {
	return filepath.Join(m.dir, filepath.FromSlash(m.relative(pkg)))
}

// tests are the packages whose tests can notice a change of pkg: itself first,
// then those that import it, directly or in their tests. Those without tests
// are left out.
func (m *Module) tests(pkg string) []string {
	var own, importers []string
	for _, p := range m.packages {
		switch {
		case len(p.TestGoFiles)+len(p.XTestGoFiles) == 0:
		case p.ImportPath == pkg:
			own = []string{pkg}
		case slices.Contains(slices.Concat(p.Imports, p.TestImports, p.XTestImports), pkg):
			importers = append(importers, p.ImportPath)
		}
	}
	return append(own, importers...)
}
