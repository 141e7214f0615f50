package blend

import "errors"

// A tableau is a small linear programme in canonical form: every row's basic
// column is a unit column, its last cell the right-hand side, none below zero.
//
// It is our own because gonum's simplex (v0.17.0) does not come back from some
// degenerate programmes, which wants that repeat each other and stocks next to
// nothing make: here Bland's rule and a bound on the steps see to that.
type tableau struct {
	rows  [][]float64
	basic []int
	cost  []float64
}

var errUnsettled = errors.New("the simplex does not settle")

const (
	mostPivots  = 2000
	leastPivot  = 1e-9
	leastGained = 1e-11
)

// minimize gives the values of all columns at least cost.
func (t *tableau) minimize() ([]float64, error) {
	last := len(t.cost)
	reduced := make([]float64, last)
	for range mostPivots {
		copy(reduced, t.cost)
		for i, row := range t.rows {
			if c := t.cost[t.basic[i]]; c != 0 {
				for j := range reduced {
					reduced[j] -= c * row[j]
				}
			}
		}
		enters := -1
		for j, r := range reduced { // Bland: the first that gains
			if r < -leastGained {
				enters = j
				break
			}
		}
		if enters < 0 {
			x := make([]float64, last)
			for i, row := range t.rows {
				x[t.basic[i]] = max(0, row[last])
			}
			return x, nil
		}
		leaves := -1
		for i, row := range t.rows {
			if row[enters] <= leastPivot {
				continue
			}
			if leaves >= 0 {
				here, best := row[last]/row[enters], t.rows[leaves][last]/t.rows[leaves][enters]
				if here > best || here == best && t.basic[i] > t.basic[leaves] {
					continue
				}
			}
			leaves = i
		}
		if leaves < 0 {
			return nil, errUnsettled
		}
		t.pivot(leaves, enters)
	}
	return nil, errUnsettled
}

func (t *tableau) pivot(leaves, enters int) {
	row := t.rows[leaves]
	by := row[enters]
	for j := range row {
		row[j] /= by
	}
	for i, other := range t.rows {
		if f := other[enters]; i != leaves && f != 0 {
			for j := range other {
				other[j] -= f * row[j]
			}
			other[enters] = 0
		}
	}
	t.basic[leaves] = enters
}
