package mutants

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
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
	Own     bool      // the tests of the changed package alone: a sieve, not a verdict
	cost    map[string]time.Duration
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
	if err := r.measure(mutants); err != nil {
		return 0, err
	}
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
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
				result, err := r.try(mutants[i], filepath.Join(dir, fmt.Sprint(i)))
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

// tests are the packages whose tests may notice the mutant.
func (r *Runner) tests(m Mutant) []string {
	all := r.Module.tests(m.Package)
	if r.Own && slices.Contains(all, m.Package) {
		return []string{m.Package}
	}
	return all
}

// passed is the line of a package whose tests passed.
var passed = regexp.MustCompile(`(?m)^ok\s+(\S+)\s+([0-9.]+s)`)

// measure runs the tests that will be needed once, unchanged, and notes how
// long each takes: the shorter ones run first.
func (r *Runner) measure(mutants []Mutant) error {
	var needed []string
	for _, m := range mutants {
		needed = append(needed, r.tests(m)...)
	}
	slices.Sort(needed)
	needed = slices.Compact(needed)
	if len(needed) == 0 {
		return nil
	}
	out, err := r.test(append([]string{"-count=1", "-short"}, needed...)...)
	if err != nil {
		return fmt.Errorf("mutants: the tests fail before anything is changed: %w\n%s", err, out)
	}
	r.cost = map[string]time.Duration{}
	for _, line := range passed.FindAllStringSubmatch(out, -1) {
		r.cost[line[1]], _ = time.ParseDuration(line[2])
	}
	return nil
}

// maxMemory in kB is what a process may map: a changed loop that never stops
// growing must not take the machine down.
const maxMemory = "8000000"

// test runs "go test". Where there is a shell that can, memory is limited.
func (r *Runner) test(args ...string) (string, error) {
	args = append([]string{"go", "test"}, args...)
	if sh, err := exec.LookPath("sh"); err == nil {
		args = append([]string{sh, "-c", "ulimit -v " + maxMemory + ` 2>/dev/null; exec "$@"`, "sh"}, args...)
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = r.Module.dir
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// try runs the tests against one mutant until one fails, the package's own
// first, then those of its importers from the quickest on.
func (r *Runner) try(m Mutant, scratch string) (Result, error) {
	result := Result{Mutant: m, Outcome: Survived}
	overlay, err := m.overlay(scratch)
	if err != nil {
		return result, err
	}
	tests := r.tests(m)
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
		out, err := r.test("-overlay="+overlay, "-vet=off", "-short", "-failfast", "-p=1", "-timeout="+r.Limit.String(), pkg)
		if err == nil {
			continue
		}
		result.By = r.Module.relative(pkg)
		switch {
		case strings.Contains(out, "[build failed]") || strings.Contains(out, "[setup failed]"):
			result.Outcome = Invalid
		case strings.Contains(out, "panic: test timed out after"):
			result.Outcome = TimedOut
		case strings.Contains(out, "FAIL\t"+pkg):
			result.Outcome = Killed
		default: // not a test that failed, but the go command
			return result, fmt.Errorf("%v: go test %s: %w\n%s", m, pkg, err, out)
		}
		break
	}
	return result, nil
}

// overlay writes the changed file and the list that the go command reads.
func (m Mutant) overlay(scratch string) (string, error) {
	content, err := os.ReadFile(m.path)
	if err != nil {
		return "", err
	}
	if err := os.Mkdir(scratch, 0o755); err != nil {
		return "", err
	}
	changed := filepath.Join(scratch, filepath.Base(m.path))
	text := string(content[:m.start]) + m.replacement + string(content[m.end:])
	if err := os.WriteFile(changed, []byte(text), 0o644); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {m.path: changed}})
	if err != nil {
		return "", err
	}
	path := filepath.Join(scratch, "overlay.json")
	return path, os.WriteFile(path, list, 0o644)
}
