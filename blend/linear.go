package blend

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// linear solves the equations for amounts between zero and stock, in units of
// scale: by elimination where there are as many as amounts, else as a linear
// programme at least cost. missed is nil where all are met.
func (p *problem) linear(rows [][]float64, right, cost []float64) (x, missed []float64, err error) {
	if n := len(p.m); n == len(rows) {
		if x, ok := square(rows, right); ok && p.allowed(x) {
			return x, nil, nil
		}
	}
	x, missed, err = p.programme(rows, right, cost)
	if err != nil || missed == nil {
		return x, missed, err
	}
	// The price of a miss is finite: make sure that it was not preferred.
	if y, none, err := p.programme(rows, right, make([]float64, len(p.m))); err == nil && none == nil {
		return y, nil, nil
	}
	return x, missed, nil
}

func square(rows [][]float64, right []float64) ([]float64, bool) {
	n := len(right)
	a := mat.NewDense(n, n, nil)
	for i, row := range rows {
		a.SetRow(i, row)
	}
	x := mat.NewVecDense(n, nil)
	if err := x.SolveVec(a, mat.NewVecDense(n, right)); err != nil {
		return nil, false
	}
	return x.RawVector().Data, true
}

const rounding = 1e-9

// allowed says whether amounts keep between zero and stock, and holds those
// that rounding pushed below zero at zero.
func (p *problem) allowed(x []float64) bool {
	for i := range x {
		if !(x[i] >= -rounding && x[i]*p.scale() <= p.stock(i)*(1+rounding)) {
			return false
		}
		x[i] = max(0, x[i])
	}
	return true
}

// costs of the components, small beside a miss, with a trace of their order to
// settle what costs the same.
func (p *problem) costs() []float64 {
	c, most := make([]float64, len(p.cs)), 0.0
	for i := range p.cs {
		most = max(most, p.cs[i].Cost)
	}
	for i := range c {
		if most > 0 {
			c[i] = 1e-3 * p.cs[i].Cost / most
		}
		c[i] += 1e-7 * float64(i)
	}
	return c
}

// What one unit of an unmet equation costs; the size binds before the wants.
const (
	miss     = 1
	missSize = 100
)

// programme minimises cost over the amounts, with two slacks an equation that
// take what cannot be met. missed is nil where all is met, else what each
// equation lacks.
func (p *problem) programme(rows [][]float64, right, cost []float64) (x, missed []float64, err error) {
	n, m := len(p.m), len(rows)
	limited := 0
	for i := range n {
		if !math.IsInf(p.stock(i), 1) {
			limited++
		}
	}
	columns := n + 2*m + limited
	t := tableau{cost: make([]float64, columns)}
	copy(t.cost, cost)
	row := func(right float64, basic int) []float64 {
		r := make([]float64, columns+1)
		r[basic], r[columns] = 1, right
		t.rows, t.basic = append(t.rows, r), append(t.basic, basic)
		return r
	}
	for k := range m {
		r := row(right[k], n+2*k)
		copy(r, rows[k])
		r[n+2*k+1] = -1
		t.cost[n+2*k], t.cost[n+2*k+1] = miss, miss
	}
	t.cost[n], t.cost[n+1] = missSize, missSize
	for i, k := 0, 0; i < n; i++ {
		if s := p.stock(i); !math.IsInf(s, 1) {
			row(s/p.scale(), n+2*m+k)[i] = 1
			k++
		}
	}
	all, err := t.minimize()
	if err != nil {
		return nil, nil, fmt.Errorf("linear programme of %d components and %d wants: %w", n, len(p.wants), err)
	}
	x = all[:n:n]
	for k := range m {
		if d := all[n+2*k] - all[n+2*k+1]; math.Abs(d) > rounding {
			if missed == nil {
				missed = make([]float64, m)
			}
			missed[k] = d
		}
	}
	return x, missed, nil
}
