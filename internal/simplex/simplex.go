// Package simplex solves small linear programmes: several goals in order of
// rank, each minimised where those before it stay at their least, subject to
// equations, with every amount between zero and its limit. It knows nothing of
// what the amounts are. A Program keeps its memory from one use to the next.
package simplex

import (
	"errors"
	"math"
	"slices"
)

// Errors of Minimize.
var (
	ErrUnbounded = errors.New("the goal has no least value: nothing limits the amounts")
	ErrUnsettled = errors.New("the simplex does not settle")
)

const (
	mostPivots  = 2000
	leastPivot  = 1e-9  // what is smaller counts as zero in a column: rows are scaled to about 1
	leastGained = 1e-11 // a smaller gain per unit is rounding
)

// A Program is set up by Reset, Equation, Goal and Limit, and solved by
// Minimize, which uses it up.
//
// It is a tableau: equations first, then the goals as rows of reduced costs,
// which each pivot renews. Goal 0 is what the equations lack, with the costs of
// missing given to Goal(0).
type Program struct {
	rows, columns, goals int
	cells                []float64
	limits               []float64
	basic                []int  // by row: its basic column, -1 where it still lacks its equation
	flipped              []bool // by column: counted down from its limit
	closed               []bool // by column: an earlier goal would lose by it
}

// Reset makes room for a number of equations, of columns and of goals beside
// goal 0. All cells are zero, all limits infinite.
func (p *Program) Reset(equations, columns, goals int) {
	p.rows, p.columns, p.goals = equations, columns, goals
	p.cells = zeroed(p.cells, (equations+1+goals)*(columns+1))
	p.limits = zeroed(p.limits, columns)
	for j := range p.limits {
		p.limits[j] = math.Inf(1)
	}
	p.basic = zeroed(p.basic, equations)
	p.flipped, p.closed = zeroed(p.flipped, columns), zeroed(p.closed, columns)
}

func zeroed[T any](s []T, n int) []T {
	s = slices.Grow(s[:0], n)[:n]
	clear(s)
	return s
}

func (p *Program) row(i int) []float64 {
	w := p.columns + 1
	return p.cells[i*w : (i+1)*w : (i+1)*w]
}

// Equation is row i to write: the coefficients, then the right side. They
// should be of the order of 1.
func (p *Program) Equation(i int) []float64 { return p.row(i) }

// Goal is goal k to write, from 1: its cost by column. Goal 0 comes before all:
// the sum of what the equations lack and of what is written to it.
func (p *Program) Goal(k int) []float64 { return p.row(p.rows + k)[:p.columns] }

// Limit is the largest value of a column, above zero.
func (p *Program) Limit(j int, most float64) { p.limits[j] = most }

// Fill starts column j at its limit: quicker where it ends there. To be called
// when equations and limits are written.
func (p *Program) Fill(j int) {
	if !p.flipped[j] && !math.IsInf(p.limits[j], 1) {
		p.flip(j)
	}
}

// Basic is the column that equation i determines, -1 where none does: the
// equation is missed or repeats others. To be asked after Minimize.
func (p *Program) Basic(i int) int { return p.basic[i] }

// Minimize writes the amounts to x and gives what goal 0 comes to: zero but for
// rounding where every equation holds. Where it is more than feasible, the other
// goals are left aside. Errors: ErrUnbounded; ErrUnsettled.
func (p *Program) Minimize(x []float64, feasible float64) (missed float64, err error) {
	lacks := p.row(p.rows)
	for i := range p.rows {
		row := p.row(i)
		if row[p.columns] < 0 {
			for j := range row {
				row[j] = -row[j]
			}
		}
		p.basic[i] = -1
		for j := range row {
			lacks[j] -= row[j]
		}
	}
	for goal := 0; goal <= p.goals; goal++ {
		if err = p.minimize(goal); err != nil {
			return 0, err
		}
		if goal == 0 {
			if missed = -lacks[p.columns]; missed > feasible {
				break
			}
		}
	}
	p.amounts(x)
	return missed, nil
}

func (p *Program) amounts(x []float64) {
	for j := range p.columns {
		x[j] = 0
	}
	for i, j := range p.basic {
		if j >= 0 {
			x[j] = p.row(i)[p.columns]
		}
	}
	for j, limit := range p.limits {
		x[j] = min(max(0, x[j]), limit) // which rounding passes
		if p.flipped[j] {
			x[j] = limit - x[j]
		}
	}
}

// minimize takes one goal to its least and closes the columns by which it would
// lose.
func (p *Program) minimize(goal int) error {
	gains := p.row(p.rows + goal)
	for pivots := 0; ; pivots++ {
		if pivots == mostPivots {
			return ErrUnsettled
		}
		// The steepest column is quick; after some pivots Bland's rule, the first
		// column and row of several, which cannot go round in a circle.
		careful := pivots > 4*(p.rows+p.columns)
		enters, steepest := -1, -leastGained
		for j, g := range gains[:p.columns] {
			if g < steepest && !p.closed[j] {
				enters, steepest = j, g
				if careful {
					break
				}
			}
		}
		if enters < 0 {
			break
		}
		if err := p.step(enters, goal, careful); err != nil {
			return err
		}
	}
	for j, g := range gains[:p.columns] {
		if g > leastGained {
			p.closed[j] = true
		}
	}
	return nil
}

// step raises a column until a basic one comes to zero or to its limit, or it
// comes to its own.
func (p *Program) step(enters, goal int, careful bool) error {
	end, w := p.columns, p.columns+1
	by, leaves, full := p.limits[enters], -1, false
	for i, b := range p.basic {
		a, x := p.cells[i*w+enters], p.cells[i*w+end]
		filled := false
		switch {
		case a > leastPivot:
		case a < -leastPivot && b >= 0 && !math.IsInf(p.limits[b], 1):
			a, x, filled = -a, p.limits[b]-x, true
		default:
			continue
		}
		t := max(0, x/a)
		if t > by || t == by && leaves >= 0 && !p.before(i, leaves, enters, careful) {
			continue
		}
		by, leaves, full = t, i, filled
	}
	switch {
	case math.IsInf(by, 1):
		return ErrUnbounded
	case leaves < 0:
		p.flip(enters)
		return nil
	}
	if full { // count the leaving column from its limit, so that it comes to zero
		row, b := p.row(leaves), p.basic[leaves]
		right := p.limits[b] - row[end]
		for j := range row {
			row[j] = -row[j]
		}
		row[b], row[end] = 1, right
		p.flipped[b] = !p.flipped[b]
	}
	p.pivot(leaves, enters, goal)
	return nil
}

// before says which of two rows that come to their end together leaves: the
// larger pivot rounds less, the smaller column settles.
func (p *Program) before(i, best, enters int, careful bool) bool {
	if careful {
		return p.basic[i] < p.basic[best]
	}
	return math.Abs(p.row(i)[enters]) > math.Abs(p.row(best)[enters])
}

// flip counts a column that is zero from its limit: it is full.
func (p *Program) flip(j int) {
	w := p.columns + 1
	for i := range p.rows + 1 + p.goals {
		p.cells[i*w+p.columns] -= p.limits[j] * p.cells[i*w+j]
		p.cells[i*w+j] = -p.cells[i*w+j]
	}
	p.flipped[j] = !p.flipped[j]
}

// pivot makes a column basic in a row. Goals that are done need no renewal.
func (p *Program) pivot(leaves, enters, goal int) {
	row := p.row(leaves)
	by := 1 / row[enters]
	for j := range row {
		row[j] *= by
	}
	row[enters] = 1
	for i := range p.rows + 1 + p.goals {
		if i == leaves || i >= p.rows && i < p.rows+goal {
			continue
		}
		other := p.row(i)
		if f := other[enters]; f != 0 {
			for j, x := range row {
				other[j] -= f * x
			}
			other[enters] = 0
		}
	}
	p.basic[leaves] = enters
}
