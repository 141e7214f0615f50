package units

import (
	"fmt"
	"strings"
)

// FigureTable lays the figures of many batches out as one table: a row a batch,
// a column a key. header has the keys in the order in which they first appear,
// with the unit behind: "strength, % vol". A batch without the figure has an
// empty cell. Where two batches give a figure in different units, each unit has
// a column of its own, so no column mixes them.
func FigureTable(rows [][]Figure) (header []string, cells [][]string) {
	column := map[string]int{}
	for _, row := range rows {
		for _, f := range row {
			if name := f.column(); !has(column, name) {
				column[name] = len(header)
				header = append(header, name)
			}
		}
	}
	cells = make([][]string, len(rows))
	for i, row := range rows {
		cells[i] = make([]string, len(header))
		for _, f := range row {
			cells[i][column[f.column()]] = f.Fixed()
		}
	}
	return header, cells
}

func has(m map[string]int, key string) bool {
	_, ok := m[key]
	return ok
}

func (f Figure) column() string {
	if f.Unit == "" {
		return f.Key
	}
	return f.Key + ", " + f.Unit
}

// FormulaAt is the figure's Formula with the addresses of cells for the keys in
// braces: "{strength}*4.5+{sugar}/10" becomes "B2*4.5+B3/10". It is empty where
// the figure has no formula. The grammar uses no argument separator and has its
// decimals with a point, so the text is the same in a file of Office Open XML
// and, with "of:=" before it and addresses as "[.B2]", in one of OpenDocument.
// Error: a key for which address has no answer.
func (f Figure) FormulaAt(address func(key string) (cell string, ok bool)) (string, error) {
	var out strings.Builder
	rest := f.Formula
	for {
		before, after, found := strings.Cut(rest, "{")
		out.WriteString(before)
		if !found {
			return out.String(), nil
		}
		key, behind, closed := strings.Cut(after, "}")
		cell, ok := address(key)
		if !closed || !ok {
			return "", fmt.Errorf("formula of %s: no cell for the figure %q", f.Key, key)
		}
		out.WriteString(cell)
		rest = behind
	}
}
