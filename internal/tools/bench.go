package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/perf/benchfmt"
)

// A hot function has its benchmark and what it may cost: a multiple of the
// floor, the first in the list, without allocation. No limit, or allocates,
// means that nothing is promised there.
type hot struct {
	pkg, benchmark, shown string
	limit                 float64
	allocates             bool
}

var hots = []hot{
	{"internal/density", "Polynomial", "the floor: a bare polynomial of 12 coefficients", 1, false},
	{"internal/density", "ByMass", "density.ByMass", 12, false},
	{"gravity", "PlatoSG", "gravity.Plato.SG", 6, false},
	{"gravity", "SGPlato", "gravity.SG.Plato", 10, false},
	{"gravity", "HydrometerCorrect", "gravity.Hydrometer.Correct", 25, false},
	{"abv", "Strength/ByMass", "abv.ByMass", 12, false},
	{"abv", "Strength/Density20C", "abv.Density at 20 C", 15, false},
	{"abv", "Strength/Density8C", "abv.Density at 8 C", 25, false},
	{"abv", "Strength/MassBalance", "abv.MassBalance", 40, false},
	{"abv", "Strength/StopAt", "abv.StopAt", 80, false},
	{"blend", "MixTwo", "blend.Mix of two", 50, false},
	{"blend", "Fortify", "blend.Fortify", 100, false},
	{"blend", "SolveThree", "blend.Solve, three liquids and two wants", 0, true},
	{"additions", "MolecularSO2", "additions.MolecularSO2", 0, false},
	{"additions", "PH", "additions, pH after an addition", 0, false},
}

// A busy machine disturbs most runs and seldom all of them: the least of
// several short rounds stands for the function, and every round visits all
// packages, so that the floor sees the same weather as the rest.
const (
	rounds    = 8
	benchtime = "20ms"
)

// bench measures the hot functions in one run and writes their ratios.
func bench(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where a limit is exceeded")
	record := set.String("record", "", "`file` to keep all measurements in, for benchstat")
	if err := set.Parse(args); err != nil {
		return err
	}
	raw, err := measure()
	if err != nil {
		return err
	}
	if *record != "" {
		if err := os.WriteFile(*record, raw, 0o644); err != nil {
			return err
		}
	}
	best, err := least(raw)
	if err != nil {
		return err
	}
	text, faults := ratios(best)
	fmt.Print(text)
	if *check || faults != nil {
		return faults
	}
	return document{"internal/tools/SPEED.md", "bench", "What the hot functions cost", floor + text}.write(false)
}

// measure is the output of all rounds.
func measure() ([]byte, error) {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	var pkgs []string
	wanted := map[string][]string{}
	for _, h := range hots {
		if wanted[h.pkg] == nil {
			pkgs = append(pkgs, h.pkg)
		}
		top, _, _ := strings.Cut(h.benchmark, "/")
		wanted[h.pkg] = append(wanted[h.pkg], "^Benchmark"+top+"$")
	}
	var out bytes.Buffer
	for round := range rounds {
		for _, pkg := range pkgs {
			binary := filepath.Join(dir, filepath.Base(pkg)+".test")
			if round == 0 {
				build := exec.Command("go", "test", "-c", "-o", binary, "./"+pkg)
				build.Dir, build.Stderr = root, os.Stderr
				if err := build.Run(); err != nil {
					return nil, fmt.Errorf("bench: %s: %w", pkg, err)
				}
			}
			run := exec.Command(binary, "-test.run=^$", "-test.cpu=1", "-test.benchmem", "-test.benchtime="+benchtime,
				"-test.bench="+strings.Join(slices.Compact(wanted[pkg]), "|"))
			run.Dir, run.Stdout = filepath.Join(root, pkg), &out
			if err := run.Run(); err != nil {
				return nil, fmt.Errorf("bench: %s: %w", pkg, err)
			}
		}
	}
	return out.Bytes(), nil
}

// A cost is the least time of all rounds and the most allocations.
type cost struct{ seconds, allocations float64 }

func least(raw []byte) (map[string]cost, error) {
	best := map[string]cost{}
	r := benchfmt.NewReader(bytes.NewReader(raw), "go test")
	for r.Scan() {
		result, ok := r.Result().(*benchfmt.Result)
		if !ok {
			continue
		}
		key := strings.TrimPrefix(result.GetConfig("pkg"), module+"/") + " " + result.Name.String()
		seconds, timed := result.Value("sec/op")
		allocations, counted := result.Value("allocs/op")
		if !timed || !counted {
			return nil, fmt.Errorf("bench: %s reports no time or no allocations", key)
		}
		if old, seen := best[key]; seen {
			seconds, allocations = min(seconds, old.seconds), max(allocations, old.allocations)
		}
		best[key] = cost{seconds, allocations}
	}
	if err := r.Err(); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	return best, nil
}

// floor says what the ratios are multiples of.
const floor = "Times are multiples of one evaluation of the twelve-coefficient ethanol-water polynomial in the same run.\n\n"

// ratios is the table, and what is wrong with it.
func ratios(best map[string]cost) (text string, faults error) {
	floor := best[hots[0].pkg+" "+hots[0].benchmark].seconds
	rows := [][]string{{"function", "times the floor", "limit", "allocations"}}
	for _, h := range hots {
		c, measured := best[h.pkg+" "+h.benchmark]
		if !measured || floor == 0 {
			faults = errors.Join(faults, fmt.Errorf("bench: %s has no Benchmark%s", h.pkg, h.benchmark))
			continue
		}
		ratio, limit := c.seconds/floor, ""
		if h.limit > 0 {
			limit = fmt.Sprint(h.limit)
			if ratio > h.limit {
				faults = errors.Join(faults, fmt.Errorf("bench: %s takes %.1f times the floor, limit %v (%.2g ns, floor %.2g ns)", h.shown, ratio, h.limit, 1e9*c.seconds, 1e9*floor))
			}
		}
		if c.allocations > 0 && !h.allocates {
			faults = errors.Join(faults, fmt.Errorf("bench: %s allocates %v times, limit 0", h.shown, c.allocations))
		}
		places := 1
		if ratio >= 10 {
			places = 0
		}
		rows = append(rows, []string{h.shown, fmt.Sprintf("%.*f", places, ratio), limit, fmt.Sprint(c.allocations)})
	}
	return table(rows, 1, 2, 3) + fmt.Sprintf("\nMeasured with %s on %s/%s; the least of %d rounds in one run.\n", runtime.Version(), runtime.GOOS, runtime.GOARCH, rounds), faults
}
