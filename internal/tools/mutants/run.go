package mutants

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"
)

// An Outcome is what became of a mutant.
type Outcome string

// Outcomes.
const (
	Killed   Outcome = "killed"           // a test failed
	TimedOut Outcome = "killed by time"   // a test did not end
	Survived Outcome = "survived"         // all tests passed
	Invalid  Outcome = "does not compile" // so it is no mutant
)

// A Runner runs tests against mutants.
type Runner struct {
	Module  *Module
	Limit   time.Duration // for the tests of one package
	Workers int
	Until   time.Time // no mutant is begun later; zero is no end
	// Known says which mutants are known to survive: those run the tests of their own
	// package alone.
	Known func(Mutant) bool
	built *switched
	cost  map[string]time.Duration
}

// A Result is the outcome of one mutant and the package that decided it.
type Result struct {
	Mutant
	Outcome Outcome
	By      string
	Took    time.Duration
}

// Run tries mutants and hands each result to told, one at a time. It returns
// how many were tried. The tests have to pass before anything is changed.
func (r *Runner) Run(mutants []Mutant, told func(Result)) (tried int, err error) {
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	if err := r.build(mutants, dir); err != nil {
		return 0, err
	}
	var mu sync.Mutex
	var faults error
	next := 0
	draw := func() (int, bool) {
		mu.Lock()
		defer mu.Unlock()
		if faults != nil || next == len(mutants) || !r.Until.IsZero() && time.Now().After(r.Until) {
			return 0, false
		}
		next++
		return next - 1, true
	}
	var workers sync.WaitGroup
	for range max(r.Workers, 1) {
		workers.Go(func() {
			for i, ok := draw(); ok; i, ok = draw() {
				begun := time.Now()
				result, err := r.try(mutants[i], dir)
				result.Took = time.Since(begun)
				mu.Lock()
				if faults = errors.Join(faults, err); err == nil {
					tried++
					told(result)
				}
				mu.Unlock()
			}
		})
	}
	workers.Wait()
	return tried, faults
}

// build builds the tests that will be needed, with the mutants switched off, and
// notes how long each takes: the shorter ones run first.
func (r *Runner) build(mutants []Mutant, dir string) (err error) {
	if r.built, err = r.Module.switches(mutants, dir); err != nil {
		return err
	}
	var needed []string
	for _, m := range mutants {
		needed = append(needed, r.Module.tests(m.Package)...)
	}
	if len(needed) == 0 {
		return nil
	}
	slices.Sort(needed)
	needed = slices.Compact(needed)
	args := []string{"go", "test", "-c", "-vet=off", "-o", dir + string(filepath.Separator)}
	if r.built.overlay != "" {
		args = append(args, "-overlay="+r.built.overlay)
	}
	if out, err := r.run(r.Module.dir, nil, append(args, needed...)...); err != nil {
		return fmt.Errorf("mutants: the tests cannot be built: %w\n%s", err, out)
	}
	r.cost = map[string]time.Duration{}
	for _, pkg := range needed {
		begun := time.Now()
		if out, err := r.switchedTest(dir, pkg, 0); err != nil {
			return fmt.Errorf("mutants: the tests fail before anything is changed: %s: %w\n%s", pkg, err, out)
		}
		r.cost[pkg] = time.Since(begun)
	}
	return nil
}

// maxMemory in kB is what a process may map: a changed loop that never stops
// growing must not take the machine down.
const maxMemory = "8000000"

// run runs a command. Where there is a shell that can, memory is limited.
func (r *Runner) run(dir string, env []string, args ...string) (string, error) {
	if sh, err := exec.LookPath("sh"); err == nil {
		args = append([]string{sh, "-c", "ulimit -v " + maxMemory + ` 2>/dev/null; exec "$@"`, "sh"}, args...)
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir, cmd.Env = dir, append(os.Environ(), env...)
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// switchedTest runs the tests of a package, built before, against mutant k.
func (r *Runner) switchedTest(dir, pkg string, k int) (string, error) {
	return r.run(r.Module.folder(pkg), []string{fmt.Sprintf("%s=%d", variable, k)},
		filepath.Join(dir, path.Base(pkg)+".test"), "-test.short", "-test.failfast", "-test.timeout="+r.Limit.String())
}

// overlaidTest builds and runs the tests of a package with files in the place of
// others.
func (r *Runner) overlaidTest(overlay, pkg string) (string, error) {
	return r.run(r.Module.dir, nil, "go", "test", "-overlay="+overlay, "-vet=off", "-short", "-failfast", "-p=1", "-timeout="+r.Limit.String(), pkg)
}

// try runs the tests against one mutant until one fails, the package's own
// first, then those of its importers from the quickest on.
func (r *Runner) try(m Mutant, dir string) (Result, error) {
	result := Result{Mutant: m, Outcome: Survived}
	k := r.built.number[m.place()]
	test := func(pkg string) (string, error) { return r.switchedTest(dir, pkg, k) }
	if k == 0 {
		overlay, err := m.overlay(dir)
		if err != nil {
			return result, err
		}
		test = func(pkg string) (string, error) { return r.overlaidTest(overlay, pkg) }
	}
	tests := r.Module.tests(m.Package)
	if r.Known != nil && r.Known(m) && slices.Contains(tests, m.Package) {
		tests = []string{m.Package}
	}
	slices.SortStableFunc(tests, func(a, b string) int {
		switch {
		case a == m.Package:
			return -1
		case b == m.Package:
			return 1
		}
		return int(r.cost[a] - r.cost[b])
	})
	for _, pkg := range tests {
		out, err := test(pkg)
		if err == nil {
			continue
		}
		result.By = r.Module.relative(pkg)
		switch {
		case strings.Contains(out, "[build failed]") || strings.Contains(out, "[setup failed]"):
			result.Outcome = Invalid
		case strings.Contains(out, "panic: test timed out after"):
			result.Outcome = TimedOut
		case k > 0 || strings.Contains(out, "FAIL\t"+pkg):
			result.Outcome = Killed
		default: // not a test that failed, but the go command
			return result, fmt.Errorf("%v: go test %s: %w\n%s", m, pkg, err, out)
		}
		break
	}
	return result, nil
}

// overlay writes the changed file and the list that the go command reads, and
// returns the path of the list.
func (m Mutant) overlay(dir string) (string, error) {
	content, err := os.ReadFile(m.path)
	if err != nil {
		return "", err
	}
	scratch, err := os.MkdirTemp(dir, "one")
	if err != nil {
		return "", err
	}
	text := string(content[:m.start]) + m.replacement + string(content[m.end:])
	return writeOverlay(map[string][]byte{m.path: []byte(text)}, scratch)
}
