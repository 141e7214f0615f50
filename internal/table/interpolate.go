package table

// Between is where x lies among rows whose first numbers rise: i of the row
// below, and the part of the way to the next. Rows are two at least; the caller
// keeps x within them.
func Between(rows [][2]float64, x float64) (i int, part float64) {
	for i < len(rows)-2 && x > rows[i+1][0] {
		i++
	}
	return i, (x - rows[i][0]) / (rows[i+1][0] - rows[i][0])
}

// Linear reads the second number straight between the rows. As Between.
func Linear(rows [][2]float64, x float64) float64 {
	i, part := Between(rows, x)
	return rows[i][1] + part*(rows[i+1][1]-rows[i][1])
}

// Bilinear reads a table straight between its rows at x and y, counted in rows
// and columns from 0. The caller keeps both within the table.
func Bilinear(table [][5]float64, x, y float64) float64 {
	i, j := min(int(x), len(table)-2), min(int(y), len(table[0])-2)
	x, y = x-float64(i), y-float64(j)
	return (1-x)*((1-y)*table[i][j]+y*table[i][j+1]) + x*((1-y)*table[i+1][j]+y*table[i+1][j+1])
}
