// Package table reads the tables of facts that packages embed as CSV, and reads
// between the rows of tables of numbers.
package table

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// Evidence says how a value of a table is known: the codes of the column "kind".
type Evidence string

// The kinds of evidence.
const (
	Published      Evidence = "published"                  // seen in the source beside it
	Computed       Evidence = "computed"                   // follows from published values
	CommonPractice Evidence = "common practice, no source" // a fact of the trade
	FromMemory     Evidence = "from memory"                // known, not seen: check before relying on it
)

// A Record is one line of a table, read by column name.
type Record map[string]string

// Parse reads an embedded table, whose first line names the columns; # begins a
// comment. The text is part of the package that embeds it and every one is read
// by its tests, so that a failure here is a build that went wrong: it panics.
func Parse(text string) []Record {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	out := make([]Record, 0, len(rows)-1)
	for _, cells := range rows[1:] {
		row := Record{}
		for i, column := range rows[0] {
			row[column] = cells[i]
		}
		out = append(out, row)
	}
	return out
}

// Number reads a cell; an empty cell is the given default. It panics as Parse.
func (r Record) Number(column string, empty float64) float64 {
	if r[column] == "" {
		return empty
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic(fmt.Sprintf("%s: %v", column, err))
	}
	return x
}

// Evidence is the cell of the column "kind".
func (r Record) Evidence() Evidence { return Evidence(r["kind"]) }
