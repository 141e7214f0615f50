package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// accuracy writes the accuracy tables from what the tests compare.
func accuracy(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where the tables are stale")
	if err := set.Parse(args); err != nil {
		return err
	}
	logs, err := testLogs()
	if err != nil {
		return err
	}
	e, err := gather(logs)
	if err != nil {
		return err
	}
	if len(e.comparisons) == 0 {
		return errors.New("accuracy: no test compared anything")
	}
	return document{"internal/handbook/ACCURACY.md", "accuracy", "What the tests compare with published values", e.text()}.write(*check)
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

// evidence is what the tests report, in the order in which it is printed.
type evidence struct {
	comparisons []comparison
	exceptions  []note
	spreads     []spread
}

// A comparison is one line of handbook.Check: the rows of one kind of one
// source, and of them the one nearest to its own tolerance.
type comparison struct {
	pkg, name, kind, rows string
	deviation, tolerance  float64
	unit, where, reasons  string
}

// A note is a sentence about a source.
type note struct{ pkg, name, text string }

// A spread is a root mean square against measured samples.
type spread struct{ pkg, method, samples, value string }

// Behind "file.go:12: " stands what a test logs.
var logged = regexp.MustCompile(`(?m)^\s+\w+\.go:\d+: (accuracy|excepted|rms) \| (.*)$`)

func gather(logs map[[2]string]string) (e evidence, err error) {
	tests := slices.SortedFunc(maps.Keys(logs), func(a, b [2]string) int { return slices.Compare(a[:], b[:]) })
	for _, at := range tests {
		pkg := strings.TrimPrefix(strings.TrimPrefix(at[0], module), "/")
		for _, line := range logged.FindAllStringSubmatch(logs[at], -1) {
			cells := strings.Split(line[2], " | ")
			for i := range cells {
				cells[i] = strings.TrimSpace(cells[i])
			}
			switch {
			case line[1] == "accuracy" && len(cells) == 8:
				c := comparison{pkg: pkg, name: cells[0], kind: cells[1], rows: cells[2], unit: cells[5], where: cells[6], reasons: cells[7]}
				var bad, worse error
				c.deviation, bad = strconv.ParseFloat(cells[3], 64)
				c.tolerance, worse = strconv.ParseFloat(cells[4], 64)
				if err := errors.Join(bad, worse); err != nil {
					return e, fmt.Errorf("%s, %s: %w", pkg, c.name, err)
				}
				e.comparisons = append(e.comparisons, c)
			case line[1] == "excepted" && len(cells) == 2:
				e.exceptions = append(e.exceptions, note{pkg, cells[0], cells[1]})
			case line[1] == "rms" && len(cells) == 3:
				e.spreads = append(e.spreads, spread{pkg, cells[0], cells[1], cells[2]})
			default:
				return e, fmt.Errorf("%s %s: cannot read %q", at[0], at[1], line[0])
			}
		}
	}
	slices.SortFunc(e.comparisons, func(a, b comparison) int {
		return cmp.Or(strings.Compare(a.pkg, b.pkg), strings.Compare(a.name, b.name), strings.Compare(a.kind, b.kind),
			strings.Compare(a.rows+a.where, b.rows+b.where))
	})
	// The exceptions of one source keep their order in the test.
	slices.SortStableFunc(e.exceptions, func(a, b note) int {
		return cmp.Or(strings.Compare(a.pkg, b.pkg), strings.Compare(a.name, b.name))
	})
	// The methods keep the order of merit.
	slices.SortFunc(e.spreads, func(a, b spread) int {
		return cmp.Or(strings.Compare(a.pkg, b.pkg), strings.Compare(a.value, b.value), strings.Compare(a.method, b.method))
	})
	return e, nil
}

const kinds = `Each line is one kind of comparison that a test makes with one source. The deviation and
what is allowed are those of one row: the row that comes nearest to what is allowed for it.

- printed: what is allowed is half the last printed digit;
- rounded: the roundings that the source states, added up;
- differs: the source rests on another model; the bound has its reason below.

The ratio is the deviation over what is allowed for that row. Near 1 is what many rows come to
where rounding is all that is between the two: the largest of n such is n/(n+1) in the mean. With
"differs" it is near 1 where the rows beyond the bound are set apart below, and else the reason
says more.

`

func (e evidence) text() string {
	rows := [][]string{{"package", "table or worked example", "kind", "values", "deviation", "allowed", "ratio", "unit", "where"}}
	var bounds []note
	for _, c := range e.comparisons {
		deviation, where, ratio := fmt.Sprintf("%+.3g", c.deviation), c.where, fmt.Sprintf("%.2f", math.Abs(c.deviation)/c.tolerance)
		if math.Abs(c.deviation) < 1e-4*c.tolerance { // rounding, which is not the same everywhere
			deviation, where, ratio = "0", "", "0"
		}
		rows = append(rows, []string{"`" + c.pkg + "`", c.name, c.kind, c.rows, deviation, fmt.Sprint(c.tolerance), ratio, c.unit, where})
		if c.reasons != "" {
			bounds = append(bounds, note{c.pkg, c.name, c.reasons})
		}
	}
	text := kinds + table(rows, 3, 4, 5, 6)
	text += list("Bounds where the source rests on another model", bounds)
	text += list("Printed values that are not compared", e.exceptions)
	if len(e.spreads) > 0 {
		rows := [][]string{{"package", "method", "samples", "root mean square in % vol, or as it says"}}
		for _, s := range e.spreads {
			rows = append(rows, []string{"`" + s.pkg + "`", s.method, s.samples, s.value})
		}
		text += "\n## Against measured samples\n\n" + table(rows, 2, 3)
	}
	return text
}

// list sets notes under a heading, those of one source together.
func list(heading string, notes []note) string {
	var b strings.Builder
	var last note
	for _, n := range notes {
		if b.Len() == 0 {
			fmt.Fprintf(&b, "\n## %s\n\n", heading)
		}
		if n.pkg != last.pkg || n.name != last.name {
			fmt.Fprintf(&b, "- `%s`, %s:\n", n.pkg, n.name)
		}
		fmt.Fprintf(&b, "  - %s\n", n.text)
		last = n
	}
	return b.String()
}
