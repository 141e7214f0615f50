package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// A csvSheet is rows for one function of column: its columns, from and to which their
// values wander, and how many processor times of a plain copy it may take.
type csvSheet struct {
	function, shown string
	columns         string
	ranges          [][2]float64
	limit           float64
}

var sheets = []csvSheet{
	{"fortify", "fortify", "base_volume,base_strength,base_extract,spirit_strength,target", [][2]float64{{1, 20}, {4, 9}, {20, 200}, {40, 96}, {16, 22}}, 3},
	{"fortify", "fortify, no row reachable", "base_volume,base_strength,base_extract,spirit_strength,target", [][2]float64{{1, 20}, {4, 9}, {20, 200}, {10, 16}, {17, 22}}, 5},
	{"mix", "mix", "base_volume,base_strength,base_extract,spirit_volume,spirit_strength", [][2]float64{{1, 20}, {4, 9}, {20, 200}, {0.4, 2}, {40, 96}}, 6},
	{"ferment", "ferment", "og,fg", [][2]float64{{1.06, 1.12}, {0.995, 1.05}}, 6},
	{"stop", "stop", "og,target", [][2]float64{{1.08, 1.12}, {4, 9}}, 6},
	{"gravity", "gravity", "reading,temperature", [][2]float64{{1, 1.12}, {10, 30}}, 6},
	{"instruments", "instruments", "hydrometer,refractometer", [][2]float64{{1, 1.03}, {14, 20}}, 6},
	{"spirit", "spirit", "strength,temperature", [][2]float64{{20, 96}, {5, 35}}, 6},
	{"alcoholometer", "alcoholometer", "apparent,temperature", [][2]float64{{20, 90}, {10, 30}}, 6},
	{"sugar", "sugar", "volume,from,to", [][2]float64{{1, 20}, {1.03, 1.06}, {1.07, 1.1}}, 6},
	{"doses", "doses", "volume,so2,sorbic_acid", [][2]float64{{1, 20}, {20, 80}, {100, 200}}, 6},
	{"stability", "stability", "strength,extract", [][2]float64{{15, 21}, {10, 150}}, 6},
}

const sheetRows = 50_000

// A columnCost is what a sheet takes of the processor, and its copy.
type columnCost struct {
	column, copied []float64 // seconds, by sheet
	first          float64   // until the first row is out of a pipe that stays open
}

// measureColumn runs both commands on one processor each, in turn.
func measureColumn() (c columnCost, err error) {
	dir, err := os.MkdirTemp("", "bench")
	if err != nil {
		return c, err
	}
	defer os.RemoveAll(dir)
	column, copier := filepath.Join(dir, "worksheet"), filepath.Join(dir, "csvcopy")
	for _, build := range [][]string{{root, column, "./examples/worksheet"}, {".", copier, "./csvcopy"}} {
		cmd := exec.Command("go", "build", "-o", build[1], build[2])
		cmd.Dir, cmd.Stderr = build[0], os.Stderr
		if err := cmd.Run(); err != nil {
			return c, fmt.Errorf("bench: %s: %w", build[2], err)
		}
	}
	for range sheets {
		c.column, c.copied = append(c.column, math.Inf(1)), append(c.copied, math.Inf(1))
	}
	for i, s := range sheets {
		if err := os.WriteFile(s.path(dir, i), s.text(), 0o644); err != nil {
			return c, err
		}
	}
	for attempt := range attempts {
		for range 5 {
			for i, s := range sheets {
				path := s.path(dir, i)
				c.copied[i] = min(c.copied[i], processor(path, copier))
				c.column[i] = min(c.column[i], processor(path, column, "column", s.function))
			}
		}
		if _, faults := columnRatios(c); faults == nil && attempt > 0 {
			break
		}
	}
	c.first, err = firstRow(column)
	return c, err
}

func (s csvSheet) path(dir string, i int) string { return filepath.Join(dir, fmt.Sprint(i, ".csv")) }

func (s csvSheet) text() []byte {
	r := rand.New(rand.NewPCG(1, 2))
	b := []byte("name," + s.columns + "\n")
	for i := range sheetRows {
		b = fmt.Appendf(b, "batch %d", i)
		for _, to := range s.ranges {
			b = fmt.Appendf(b, ",%.4g", to[0]+(to[1]-to[0])*r.Float64())
		}
		b = append(b, '\n')
	}
	return b
}

// processor is the seconds of processor that a command takes for a file; infinite
// where it fails but for rows that have an error.
func processor(path, command string, args ...string) float64 {
	in, err := os.Open(path)
	if err != nil {
		return math.Inf(1)
	}
	defer in.Close()
	cmd := exec.Command(command, args...)
	cmd.Stdin, cmd.Env = in, append(os.Environ(), "GOMAXPROCS=1")
	var exit *exec.ExitError
	if err := cmd.Run(); err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 3) {
		return math.Inf(1)
	}
	return (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds()
}

// firstRow is the seconds from a row going into column to its result coming out.
func firstRow(column string) (least float64, err error) {
	least = math.Inf(1)
	for range 10 {
		cmd := exec.Command(column, "column", "stability")
		in, err := cmd.StdinPipe()
		if err != nil {
			return 0, err
		}
		out, err := cmd.StdoutPipe()
		if err != nil {
			return 0, err
		}
		if err := cmd.Start(); err != nil {
			return 0, err
		}
		lines := bufio.NewReader(out)
		began := time.Now()
		_, err = io.WriteString(in, "strength,extract\n20,84\n")
		for i := 0; i < 2 && err == nil; i++ {
			_, err = lines.ReadString('\n')
		}
		if err != nil {
			return 0, fmt.Errorf("bench: the first row of column: %w", err)
		}
		least = min(least, time.Since(began).Seconds())
		_ = in.Close()
		if err := cmd.Wait(); err != nil {
			return 0, err
		}
	}
	return least, nil
}

const firstRowLimit = 0.050 // s

// columnRatios is the table, and what exceeds its limits.
func columnRatios(c columnCost) (text string, faults error) {
	rows := [][]string{{"column", "times a copy", "limit"}}
	for i, s := range sheets {
		ratio := c.column[i] / c.copied[i]
		if !(ratio <= s.limit) {
			faults = errors.Join(faults, fmt.Errorf("bench: column %s takes %.2f times the processor of a copy, limit %v", s.shown, ratio, s.limit))
		}
		rows = append(rows, []string{s.shown, fmt.Sprintf("%.1f", ratio), fmt.Sprint(s.limit)})
	}
	if c.first > firstRowLimit {
		faults = errors.Join(faults, fmt.Errorf("bench: column's first row takes %.0f ms, limit %.0f", 1e3*c.first, 1e3*firstRowLimit))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "\nThe functions of `worksheet column` as multiples of the processor time that a bare copy by encoding/csv takes for the same %d rows, both on one processor.\n\n%s", sheetRows, table(rows, 1, 2))
	fmt.Fprintf(&b, "\nThe first row of a pipe that stays open is out within %.0f ms (it may take %.0f; the quickest of ten).\n", math.Ceil(1e3*c.first), 1e3*firstRowLimit)
	return b.String(), faults
}
