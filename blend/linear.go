package blend

import (
	"math"

	"example.org/mutage/internal/liquid"
)

// A task is one programme about a problem: what holds and what it seeks.
type task struct {
	kind  kind
	wants []Want // that hold
	stock amounts
	of    int     // least: the component; extreme: the want
	sign  float64 // extreme: 1 for the least of it, -1 for the most
	low   amounts // of the amounts, and how far above it they may go: zero, no limit
	reach float64
}

type kind int

const (
	cheapest kind = iota // least cost, then the components named first
	least                // least of one component
	largest              // the largest blend, or the most of the component of which all was to be used
	extreme              // the most or least of a quantity, in one litre of blend
)

func (p *problem) task(k kind, wants []Want) task {
	t := task{kind: k, wants: wants, stock: p.stock}
	if k == extreme && p.total == 0 {
		t.stock[p.whole] = math.Inf(1) // its part of a litre
	}
	return t
}

// sized says that the first equation sets the size.
func (t *task) sized() bool { return t.kind != largest }

func (t *task) equations() int {
	if t.sized() {
		return 1 + len(t.wants)
	}
	return len(t.wants)
}

// partials are the partial volumes of the components in the mixture x.
func (p *problem) partials(x, v *amounts) {
	p.partialsIn(p.masses(x), v)
}

func (p *problem) partialsIn(m liquid.Masses, v *amounts) {
	in := m.Partials()
	for i := range p.cs {
		v[i] = p.m[i].In(in)
	}
}

// equation writes equation k of a task in the amounts, given partial volumes, and
// returns its right side. The size comes first; then one a want, scaled to the
// largest of its coefficients.
func (p *problem) equation(t *task, k int, v *amounts, row []float64) (right float64) {
	n := len(p.cs)
	if t.sized() {
		if k--; k < 0 {
			// The size weighs more than a want, as long as the wants are missed.
			if p.total > 0 || t.kind == extreme {
				for i := range n {
					row[i] = sizeWeight * v[i]
				}
			} else {
				clear(row[:n])
				row[p.whole] = sizeWeight
			}
			return sizeWeight
		}
	}
	w := t.wants[k]
	c := w.perLitre()
	largest := c
	for i := range n {
		content := w.content(p.m[i], float64(p.cs[i].Acid))
		largest = max(largest, content)
		row[i] = content - c*v[i]
	}
	if largest > 0 {
		by := 1 / largest
		for i := range n {
			row[i] *= by
		}
	}
	return 0
}

const sizeWeight = 4

// linear solves a task with these partial volumes: by elimination where there
// are as many equations as amounts, else as a linear programme. met says that
// all equations hold.
func (p *problem) linear(t *task, v, x *amounts) (met bool) {
	if n := len(p.cs); n == t.equations() && n <= mostSquare && t.kind != extreme {
		p.basis = basis{of: [mostSquare]int{0, 1, 2, 3}, amounts: n}
		y := amounts{}
		if p.correct(t, v, &y) && p.allows(t, &y) {
			*x = y
			return true
		}
	}
	return p.programme(t, v, x)
}

// allows says whether amounts keep between zero and stock, and holds those
// that rounding pushed outside.
func (p *problem) allows(t *task, x *amounts) bool {
	for i := range p.cs {
		most := t.stock[i]
		if i != p.whole && p.tied(t) && !math.IsInf(most, 1) {
			most *= x[p.whole]
		}
		if !(x[i] >= -rounding && x[i] <= most*(1+rounding)+unpoured) {
			return false
		}
		x[i] = inside(x[i], most)
	}
	return true
}

// inside leaves out what is only rounding.
func inside(x, most float64) float64 {
	if x < unpoured {
		return 0
	}
	return min(x, most)
}

// tied says that stocks go by the part of the whole: in a litre of blend, without a
// total.
func (p *problem) tied(t *task) bool { return p.total == 0 && t.kind == extreme }

// programme solves a task as a linear programme, from the amounts of the last round
// or none. Every want has a column that takes what it has too much; the simplex
// itself takes what is lacking.
func (p *problem) programme(t *task, v, x *amounts) (met bool) {
	n, m, wants, limited := len(p.cs), t.equations(), len(t.wants), 0
	if p.tied(t) { // such stocks take an equation each
		for i := range n {
			if i != p.whole && !math.IsInf(t.stock[i], 1) {
				limited++
			}
		}
	}
	columns := n + wants + limited
	lp := &p.program
	lp.Reset(m+limited, columns, t.goals())
	for k := range m {
		row := lp.Equation(k)
		right := p.equation(t, k, v, row)
		for i := range n {
			right -= row[i] * t.low[i]
		}
		row[columns] = right
		if j := k - (m - wants); j >= 0 {
			row[n+j] = -1
			lp.Goal(0)[n+j] = 1
		}
	}
	next := 0
	for i := range n {
		most := t.stock[i] - t.low[i]
		if limited > 0 && i != p.whole && !math.IsInf(most, 1) {
			row := lp.Equation(m + next)
			row[i], row[p.whole], row[n+wants+next] = 1, -t.stock[i], 1
			row[columns] = t.stock[i]*t.low[p.whole] - t.low[i]
			next++
			most = math.Inf(1)
		}
		if t.reach > 0 {
			most = min(most, t.reach)
		}
		lp.Limit(i, most)
	}
	p.goal(t, v, lp.Goal)
	for i := range n {
		if t.reach == 0 && x[i] >= t.stock[i] {
			lp.Fill(i) // as in the last round
		}
	}
	var y [maxColumns]float64
	missed, err := lp.Minimize(y[:columns], rounding)
	for i := range n {
		x[i] = inside(t.low[i]+y[i], t.stock[i])
	}
	p.used(t, m, limited, y[n+wants:columns])
	return err == nil && missed <= rounding
}

// used takes over the basis of the last programme.
func (p *problem) used(t *task, m, limited int, left []float64) {
	lp, b := &p.program, &p.basis
	*b = basis{}
	next := 0
	for i := range p.cs {
		if limited > 0 && i != p.whole && !math.IsInf(t.stock[i], 1) {
			if left[next] <= unpoured {
				b.tied[i] = t.stock[i]
			}
			next++
		}
	}
	for k := range m + limited {
		if i := lp.Basic(k); i >= 0 && i < len(p.cs) && b.tied[i] == 0 {
			if b.amounts == mostSquare {
				b.amounts = 0 // more than a square: nothing is held
				return
			}
			b.of[b.amounts] = i
			b.amounts++
		}
	}
}

// maxColumns are the components, the wants (which may contradict each other) and
// the stocks.
const maxColumns = 3*maxComponents + 16

func (t *task) goals() int {
	if t.kind == cheapest {
		return 2
	}
	return 1
}

// goal writes what a task seeks.
func (p *problem) goal(t *task, v *amounts, goal func(k int) []float64) {
	g := goal(1)
	for i := range p.cs {
		switch t.kind {
		case cheapest:
			g[i] = p.cost[i]
			goal(2)[i] = float64(i)
		case least:
			if i == t.of {
				g[i] = 1
			}
		case largest:
			if p.total > 0 {
				g[i] = -v[i]
			} else if i == p.whole {
				g[i] = -1
			}
		case extreme:
			g[i] = p.gain(t, i)
		}
	}
}
