package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"runtime"
	"testing"
	"time"
)

// bench measures the hot functions and the slow ones, and writes their costs.
func bench(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where a limit is exceeded")
	if err := set.Parse(args); err != nil {
		return err
	}
	hots := hotFunctions()
	best, err := measure(hots)
	if err != nil {
		return err
	}
	text, faults := ratios(hots, best)
	columns, err := measureColumn()
	if err != nil {
		return err
	}
	more, worse := columnRatios(columns)
	text += more
	faults = errors.Join(faults, worse)
	fmt.Print(text)
	if *check || faults != nil {
		return faults
	}
	return document{"internal/tools/SPEED.md", "bench", "What the functions cost", text}.write(false)
}

// A busy machine disturbs most bursts of calls and seldom all of them: the
// quickest of many short ones stands for a function, and every round visits all
// functions, so that the floor sees the same weather as the rest.
const (
	burst    = 40 * time.Microsecond  // so long that the clock does not count
	least    = 12                     // bursts of a function, however slow
	spend    = 100 * time.Millisecond // on the bursts of one, in all rounds
	attempts = 4                      // while a limit is exceeded
)

// A cost is the time of the quickest burst a call, and the allocations of one.
type cost struct{ seconds, allocations float64 }

// measure goes on with what exceeds its limit, and with the floor: the quickest burst
// can only become quicker.
func measure(hots []hot) ([]cost, error) {
	best := make([]cost, len(hots))
	calls := make([]int, len(hots))
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	for i, h := range hots {
		best[i] = cost{math.Inf(1), testing.AllocsPerRun(20, func() { h.run(1) })}
		for calls[i] = 1; quickest(h, calls[i]) < burst && calls[i] < 1<<20; calls[i] *= 2 {
		}
	}
	for range attempts {
		rounds(hots, calls, best)
		if missed != nil {
			return nil, fmt.Errorf("bench: %w", missed)
		}
		if _, faults := ratios(hots, best); faults == nil {
			break
		}
	}
	return best, nil
}

// quickest is of a few bursts: one that was disturbed must not count for long.
func quickest(h hot, calls int) time.Duration {
	d := timed(h, calls)
	for i := 0; i < 7 && d < 100*burst; i++ {
		d = min(d, timed(h, calls))
	}
	return d
}

// timed is how long the calls take. A burst that is longer than the machine leaves
// anybody alone counts by what it had of the processors.
func timed(h hot, calls int) time.Duration {
	began, before := time.Now(), time.Duration(0)
	if calls == 1 {
		before = processorTime()
	}
	h.run(calls)
	d := time.Since(began)
	if calls == 1 && d > 2*time.Millisecond {
		d = min(d, processorTime()-before)
	}
	return d
}

var started = time.Now()

func rounds(hots []hot, calls []int, best []cost) {
	spent := make([]time.Duration, len(hots))
	for round, idle := 0, false; !idle; round++ {
		idle = true
		for i, h := range hots {
			if i > 0 && spent[i] > spend && round >= least {
				continue
			}
			idle = idle && i == 0
			d := timed(h, calls[i])
			spent[i] += d
			best[i].seconds = min(best[i].seconds, d.Seconds()/float64(calls[i]))
		}
	}
}

// legend says what the ratios are multiples of.
const legend = `Times are multiples of one evaluation of the twelve-coefficient ethanol-water polynomial: the quickest of many short bursts, all
functions in turn in one process, with inputs that wander over 4,096 values. The floor is that evaluation as throughput; where each waits for the last,
as in Newton's method, it takes what the second line says. No limit: nothing is promised, the slow ones stand here to be seen.

`

// ratios is the table, and what exceeds its limits. The first function is the floor.
func ratios(hots []hot, best []cost) (text string, faults error) {
	rows := [][]string{{"function", "times the floor", "limit", "allocations", "limit"}}
	for i, h := range hots {
		ratio, limit, most := best[i].seconds/best[0].seconds/max(1, h.parts), "", ""
		if h.limit > 0 {
			limit = fmt.Sprint(h.limit)
			if ratio > h.limit {
				faults = errors.Join(faults, fmt.Errorf("bench: %s takes %.1f times the floor, limit %v (%.3g ns, floor %.2g ns)", h.shown, ratio, h.limit, 1e9*best[i].seconds, 1e9*best[0].seconds))
			}
		}
		if h.allocates >= 0 {
			most = fmt.Sprint(h.allocates)
			if best[i].allocations > h.allocates {
				faults = errors.Join(faults, fmt.Errorf("bench: %s allocates %v times, limit %v", h.shown, best[i].allocations, h.allocates))
			}
		}
		rows = append(rows, []string{h.shown, figures(ratio), limit, fmt.Sprint(best[i].allocations), most})
	}
	return legend + table(rows, 1, 2, 3, 4) + fmt.Sprintf("\nMeasured with %s on %s/%s.\n", runtime.Version(), runtime.GOOS, runtime.GOARCH), faults
}

// figures are two of them.
func figures(x float64) string {
	if x >= 10 {
		by := math.Pow(10, math.Floor(math.Log10(x))-1)
		return fmt.Sprintf("%.0f", by*math.Round(x/by))
	}
	return fmt.Sprintf("%.1f", x)
}
