// Command tools holds the checks of mutage that need more than the Go
// distribution, in a module of their own so that an importer never sees what
// they depend on. It is run from internal/tools:
//
//	go run . accuracy         write internal/handbook/ACCURACY.md from the tests
//	go run . accuracy -check  fail where that file is stale
//	go run . bench            measure the hot functions and column, write SPEED.md
//	go run . bench -check     fail where one is above its limit, or allocates
//	go run . lint             go vet, staticcheck, govulncheck, apidiff
//	go run . mutants          change one constant at a time, list what no test notices
//	go run . api              write api.txt, the names that an importer can use
//	go run . api -check       fail where a name has changed and api.txt has not
//	go run . builds           build for other platforms, run as WebAssembly, write SIZES.md
//	go run . builds -check    fail where a program with the library has grown
//	go run . check            accuracy, api and builds with -check, and lint: what works
//	                          offline and in CI
//
// bench -check is no part of check: it takes two minutes, and what a machine does
// in them is luck, although a busy one has kept the limits so far. How often each
// exported function allocates is no luck: a test compares it.
//
// "go test -count=1 ./..." runs the rest: every exported function is called by
// a test and holds at and beyond its domain (exported_test.go, probe_test.go,
// probe), the worksheet command follows its scripts (testdata/script), and a
// workbook computes the hand check like the library (workbook_test.go). The
// -count is needed because the test cache of this module does not see when a
// file of the main module changes.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A check is one subcommand: run defines its flags on set, parses args, works.
type check struct {
	name string
	run  func(set *flag.FlagSet, args []string) error
}

var checks = []check{
	{"accuracy", accuracy},
	{"bench", bench},
	{"lint", lint},
	{"mutants", mutate},
	{"api", api},
	{"builds", builds},
	{"check", offline},
}

func main() {
	err := run(os.Args[1:])
	switch {
	case errors.Is(err, flag.ErrHelp):
	case err != nil:
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(args []string) error {
	var names []string
	for _, c := range checks {
		names = append(names, c.name)
	}
	if len(args) == 0 || !slices.Contains(names, args[0]) {
		return fmt.Errorf("go run . CHECK: expected one of %s", strings.Join(names, ", "))
	}
	if _, err := os.Stat(filepath.Join(root, "go.mod")); err != nil {
		return fmt.Errorf("run this from internal/tools: %w", err)
	}
	return checks[slices.Index(names, args[0])].run(flag.NewFlagSet(args[0], flag.ContinueOnError), args[1:])
}

// offline runs what needs neither the internet nor a quiet machine.
func offline(set *flag.FlagSet, args []string) error {
	if err := set.Parse(args); err != nil {
		return err
	}
	fmt.Println("bench -check is left out: times are luck")
	return errors.Join(
		accuracy(flag.NewFlagSet("accuracy", flag.ContinueOnError), []string{"-check"}),
		api(flag.NewFlagSet("api", flag.ContinueOnError), []string{"-check"}),
		builds(flag.NewFlagSet("builds", flag.ContinueOnError), []string{"-check"}),
		lint(flag.NewFlagSet("lint", flag.ContinueOnError), nil))
}
