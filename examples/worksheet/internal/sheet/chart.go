package sheet

import (
	"fmt"
	"strings"
)

// A Mark is a point of a chart, in units of its axes.
type Mark struct {
	X, Y float64
	Sign rune
}

// Chart draws marks as text, the y axis upward, labels on it written with
// places decimals; rows whose y lies within band are shaded with dots. Later
// marks cover earlier ones. It is lines of at most 76 characters, height of
// them.
func Chart(marks []Mark, band [2]float64, height int, places int) []string {
	if len(marks) == 0 || height < 2 {
		return nil
	}
	const columns = 64
	x0, x1, y0, y1 := marks[0].X, marks[0].X, marks[0].Y, marks[0].Y
	for _, m := range marks {
		x0, x1, y0, y1 = min(x0, m.X), max(x1, m.X), min(y0, m.Y), max(y1, m.Y)
	}
	if band[1] > band[0] {
		y0, y1 = min(y0, band[0]), max(y1, band[1])
	}
	if x1 == x0 {
		x1++
	}
	if y1 == y0 {
		y1++
	}
	step := (y1 - y0) / float64(height-1)
	rows := make([][]rune, height)
	for i := range rows {
		fill := " "
		if y := y1 - float64(i)*step; y >= band[0]-step/2 && y <= band[1]+step/2 && band[1] > band[0] {
			fill = "."
		}
		rows[i] = []rune(strings.Repeat(fill, columns))
	}
	for _, m := range marks {
		row, column := int((y1-m.Y)/step+0.5), int((m.X-x0)/(x1-x0)*float64(columns-1)+0.5)
		rows[row][column] = m.Sign
	}
	lines := make([]string, height)
	for i := range rows {
		lines[i] = strings.TrimRight(fmt.Sprintf("  %8.*f |%s", places, y1-float64(i)*step, string(rows[i])), " ")
	}
	return lines
}
