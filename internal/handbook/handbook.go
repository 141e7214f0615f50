// Package handbook is the test side of every cited table: it loads a table
// from testdata, compares computed values with printed ones at half the last
// printed digit, names exceptions with their reason, and reports the largest
// deviation under -v. It holds no values of its own.
package handbook

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.org/mutage/units"
)

// A Table is a CSV file whose first lines, behind "#", cite the document.
type Table struct {
	Path, Citation string
	Rows           []Row
	t              testing.TB
}

// A Row is one line of a table; cells are read by column name.
type Row struct {
	Line  int
	cells map[string]string
	t     testing.TB
}

// Load reads a table; a file without a citation fails the test.
func Load(t testing.TB, path string) Table {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table := Table{Path: path, t: t}
	in := bufio.NewReader(f)
	for {
		if next, err := in.Peek(1); err != nil || next[0] != '#' {
			break
		}
		line, _ := in.ReadString('\n')
		table.Citation = strings.TrimSpace(table.Citation + " " + strings.TrimSpace(strings.TrimPrefix(line, "#")))
	}
	if table.Citation == "" {
		t.Fatalf("%s: no citation in its first line", path)
	}
	r := csv.NewReader(in)
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", path, len(rows), err)
	}
	for i, cells := range rows[1:] {
		row := Row{Line: i + 2, cells: map[string]string{}, t: t}
		for j, name := range rows[0] {
			row.cells[name] = cells[j]
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// Text is the cell as printed; an unknown column fails the test.
func (r Row) Text(column string) string {
	r.t.Helper()
	s, ok := r.cells[column]
	if !ok {
		r.t.Fatalf("no column %q", column)
	}
	return strings.TrimSpace(s)
}

// Number is the cell as a number; anything else fails the test.
func (r Row) Number(column string) float64 {
	r.t.Helper()
	x, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.t.Fatalf("row %d, %s: %v", r.Line, column, err)
	}
	return x
}

// A Check gathers comparisons against one source and reports their largest
// deviation when the test ends.
type Check struct {
	t          testing.TB
	name, unit string
	rows       int
	tolerance  float64
	largest    float64
	at         string
	exceptions []string
}

// Mixed is the unit of a Check whose values have several: deviations are then
// counted in what is allowed.
const Mixed = "of what is allowed"

// NewCheck starts a comparison with the named source.
func NewCheck(t testing.TB, name, unit string) *Check {
	c := &Check{t: t, name: name, unit: unit}
	t.Cleanup(c.report)
	return c
}

// HalfDigit is half the last printed digit of a number.
func HalfDigit(printed string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(printed), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	e, _ := strconv.Atoi(exponent)
	return 0.5 * math.Pow(10, float64(e-len(decimals)))
}

// Printed compares got with a printed number at half its last digit.
func (c *Check) Printed(got float64, printed, at string) {
	c.t.Helper()
	want, err := strconv.ParseFloat(printed, 64)
	if err != nil {
		c.t.Fatalf("%s: %v", at, err)
	}
	c.Within(got, want, HalfDigit(printed), at)
}

// Within compares at a tolerance that the caller has a reason for.
func (c *Check) Within(got, want, tolerance float64, at string) {
	c.t.Helper()
	c.rows++
	d, counted, allowed := got-want, got-want, tolerance
	if c.unit == Mixed {
		counted, allowed = d/tolerance, 1
	}
	c.tolerance = max(c.tolerance, allowed)
	if math.Abs(counted) >= math.Abs(c.largest) {
		c.largest, c.at = counted, at
	}
	// The slack is for decimal fractions that float64 cannot hold.
	if !(math.Abs(d) <= tolerance*(1+1e-9)+1e-12*math.Abs(want)) {
		c.t.Errorf("%s, %s: computed %.8g, printed %.8g, off by %.3g where %.3g is allowed", c.name, at, got, want, d, tolerance)
	}
}

// Except names a printed value that is not compared and says why, with the
// computed value beside it.
// A value that does agree is no exception: that fails the test.
func (c *Check) Except(got float64, printed, at, reason string) {
	c.t.Helper()
	if want, err := strconv.ParseFloat(printed, 64); err == nil && math.Abs(got-want) <= HalfDigit(printed) {
		c.t.Errorf("%s, %s: excepted, but computed %.8g agrees with printed %s", c.name, at, got, printed)
	}
	c.exceptions = append(c.exceptions, fmt.Sprintf("%s: printed %s, computed %.6g (%s)", at, printed, got, reason))
}

func (c *Check) report() {
	if c.rows == 0 {
		c.t.Errorf("%s: nothing was compared", c.name)
		return
	}
	c.t.Logf("accuracy | %s | %d | %.3g %s | %+.4g at %s | %s",
		c.name, c.rows, c.tolerance, c.unit, c.largest, c.at, strings.Join(c.exceptions, "; "))
}

// IsRange says whether an error is, or wraps, a *units.RangeError that can be read.
func IsRange(err error) bool {
	var r *units.RangeError
	return errors.As(err, &r) && r.Error() != ""
}
