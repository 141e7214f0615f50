package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// accuracy writes the README's accuracy table from what the tests compare.
func accuracy(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where the section is stale")
	if err := set.Parse(args); err != nil {
		return err
	}
	logs, err := testLogs()
	if err != nil {
		return err
	}
	comparisons, spreads, err := gather(logs)
	if err != nil {
		return err
	}
	if len(comparisons) == 0 {
		return errors.New("accuracy: no test compared anything")
	}
	s := section{"accuracy", accuracyText(comparisons, spreads)}
	return s.write(*check)
}

// testLogs is what every test of the main module prints under -v, by package
// and test. The test cache keeps it.
func testLogs() (map[[2]string]string, error) {
	cmd := exec.Command("go", "test", "-json", "./...")
	cmd.Dir, cmd.Stderr = root, os.Stderr
	out, failed := cmd.Output()
	logs := map[[2]string]string{}
	var faults []string
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var event struct{ Action, Package, Test, Output, ImportPath string }
		if err := dec.Decode(&event); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, fmt.Errorf("go test -json: %w", err)
		}
		switch event.Action {
		case "output": // a long line comes in pieces
			logs[[2]string{event.Package, event.Test}] += event.Output
		case "build-fail":
			faults = append(faults, event.ImportPath+" does not compile")
		case "fail":
			faults = append(faults, strings.TrimSpace(event.Package+" "+event.Test))
		}
	}
	if failed != nil || len(faults) > 0 {
		return nil, fmt.Errorf("accuracy: go test: %v: %s", failed, strings.Join(faults, "; "))
	}
	return logs, nil
}

// A comparison is one line of handbook.Check.
type comparison struct {
	pkg, name, rows, tolerance, largest, where string
	exceptions                                 []string
}

// A spread is a root mean square against measured samples.
type spread struct{ pkg, method, samples, value string }

// Behind "file.go:12: " stands what a test logs.
var logged = regexp.MustCompile(`(?m)^\s+\w+\.go:\d+: (accuracy|rms) \| (.*)$`)

func gather(logs map[[2]string]string) (comparisons []comparison, spreads []spread, err error) {
	for at, log := range logs {
		pkg := strings.TrimPrefix(strings.TrimPrefix(at[0], module), "/")
		for _, line := range logged.FindAllStringSubmatch(log, -1) {
			cells := strings.Split(strings.TrimSpace(line[2])+" ", " | ")
			switch {
			case line[1] == "accuracy" && len(cells) == 5:
				c, err := newComparison(pkg, cells)
				if err != nil {
					return nil, nil, err
				}
				comparisons = append(comparisons, c)
			case line[1] == "rms" && len(cells) == 3:
				spreads = append(spreads, spread{pkg, cells[0], cells[1], strings.TrimSpace(cells[2])})
			default:
				return nil, nil, fmt.Errorf("%s %s: cannot read %q", at[0], at[1], line[0])
			}
		}
	}
	slices.SortFunc(comparisons, func(a, b comparison) int {
		return strings.Compare(a.pkg+"\x00"+a.name+"\x00"+a.rows+a.where, b.pkg+"\x00"+b.name+"\x00"+b.rows+b.where)
	})
	// The methods keep the order of merit.
	slices.SortFunc(spreads, func(a, b spread) int {
		return strings.Compare(a.pkg+"\x00"+a.value+"\x00"+a.method, b.pkg+"\x00"+b.value+"\x00"+b.method)
	})
	return comparisons, spreads, nil
}

func newComparison(pkg string, cells []string) (comparison, error) {
	c := comparison{pkg: pkg, name: cells[0], rows: cells[1], tolerance: strings.TrimSuffix(cells[2], " 1")}
	deviation, where, _ := strings.Cut(cells[3], " at ")
	d, err := strconv.ParseFloat(deviation, 64)
	if err != nil {
		return c, fmt.Errorf("%s, %s: deviation %w", pkg, c.name, err)
	}
	number, _, _ := strings.Cut(cells[2], " ")
	allowed, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return c, fmt.Errorf("%s, %s: tolerance %w", pkg, c.name, err)
	}
	c.largest, c.where = fmt.Sprintf("%+.3g", d), where
	if math.Abs(d) < 1e-4*allowed { // rounding, which is not the same everywhere
		c.largest, c.where = "0", ""
	}
	for part := range strings.SplitSeq(strings.TrimSpace(cells[4]), "; ") {
		if last := len(c.exceptions) - 1; last >= 0 && !strings.Contains(part, ": printed ") {
			c.exceptions[last] += "; " + part // of the reason
		} else if part != "" {
			c.exceptions = append(c.exceptions, part)
		}
	}
	return c, nil
}

func accuracyText(comparisons []comparison, spreads []spread) string {
	rows := [][]string{{"package", "table or worked example", "values", "tolerance", "largest deviation", "where", "excepted"}}
	var exceptions strings.Builder
	for _, c := range comparisons {
		excepted := ""
		if n := len(c.exceptions); n > 0 {
			excepted = strconv.Itoa(n)
		}
		rows = append(rows, []string{"`" + c.pkg + "`", c.name, c.rows, c.tolerance, c.largest, c.where, excepted})
		for i, e := range c.exceptions {
			if i == 0 {
				fmt.Fprintf(&exceptions, "- `%s`, %s:\n", c.pkg, c.name)
			}
			fmt.Fprintf(&exceptions, "  - %s\n", e)
		}
	}
	text := table(rows, 2, 4, 6)
	if exceptions.Len() > 0 {
		text += "\nExcepted, each with its reason:\n\n" + exceptions.String()
	}
	if len(spreads) > 0 {
		rows := [][]string{{"package", "method", "samples", "root mean square in % vol, or as it says"}}
		for _, s := range spreads {
			rows = append(rows, []string{"`" + s.pkg + "`", s.method, s.samples, s.value})
		}
		text += "\nAgainst measured samples:\n\n" + table(rows, 2, 3)
	}
	return text
}
