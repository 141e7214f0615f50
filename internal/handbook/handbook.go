// Package handbook is the test side of every cited table. It loads a table
// from testdata, compares computed values with printed ones, names exceptions
// with their reason, and reports under -v how near the nearest failure was.
// Three kinds of comparison are told apart:
//
//	Printed  agrees to half the last printed digit
//	Rounded  agrees to the roundings that the source states, added up
//	Differs  the source rests on another model: a bound with its reason
//
// A bound comes from the source or from the other model's documented error,
// never from the deviation found. The package holds no values of its own.
package handbook

import (
	"bufio"
	"encoding/csv"
	"errors"
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

// IsRange says whether an error is, or wraps, a *units.RangeError that can be read.
func IsRange(err error) bool {
	var r *units.RangeError
	return errors.As(err, &r) && r.Error() != ""
}
