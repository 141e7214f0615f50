package blend

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// A Plan is what to pour: one volume a component, in their order, and what it
// makes. Choices is how many amounts were free beyond the wants; they were
// settled at least cost, and where the cost is equal by using the components
// named first.
type Recipe struct {
	Volumes []units.Volume
	Result  Mixture
	Cost    float64
	Choices int
}

// Solve finds what to pour of two, three or more components so that the blend
// fills total litres and meets every want to 1e-9. With total zero, one want
// must be WantAll: that component's Volume sets the size. Otherwise each
// component's Volume is the stock at hand; zero means as much as is needed.
// At most 16 components. Errors: *units.RangeError; *UnreachableError (wraps
// ErrUnreachable).
//
// Method: the masses are linear in the amounts and the volume is their sum
// weighted by partial volumes (exactly, at the point of solution), so each
// round solves a small linear programme and renews the partial volumes. This is
// Newton's method on the true, non-additive volumes.
func Solve(total units.Volume, cs []Component, wants ...Want) (Recipe, error) {
	p, err := pose(total, cs, wants)
	if err != nil {
		return Recipe{}, err
	}
	x, missed, err := p.solve()
	if err != nil {
		return Recipe{}, err
	}
	if missed != nil {
		return Recipe{}, p.unreachable(x, missed)
	}
	return p.plan(x)
}

const maxComponents = 16

// A problem is Solve's arguments, checked, with the masses per litre.
type problem struct {
	cs    []Component
	m     []liquid.Masses
	wants []Want
	total float64 // zero: all of the component with index whole
	whole int
}

func pose(total units.Volume, cs []Component, wants []Want) (*problem, error) {
	p := &problem{cs: cs, total: float64(total), whole: -1}
	if len(cs) < 1 || len(cs) > maxComponents {
		return nil, &units.RangeError{Quantity: "number of components", Value: float64(len(cs)), Min: 1, Max: maxComponents}
	}
	if p.total != 0 {
		if err := units.Check("total volume", p.total, 1e-9, check.MostVolume, "L", ""); err != nil {
			return nil, err
		}
	}
	for i := range cs {
		m, err := cs[i].perLitre()
		if err != nil {
			return nil, err
		}
		p.m = append(p.m, m)
	}
	for _, w := range wants {
		if w.quantity != all {
			if err := w.check(); err != nil {
				return nil, err
			}
			p.wants = append(p.wants, w)
			continue
		}
		if err := units.Check("index of the component to use up", float64(w.index), 0, float64(len(cs)-1), "", ""); err != nil {
			return nil, err
		}
		if p.total > 0 || p.whole >= 0 {
			return nil, fmt.Errorf("%v beside a total volume or another such want: the size of the blend is set twice", w)
		}
		if cs[w.index].Volume == 0 {
			return nil, &units.RangeError{Quantity: "volume of " + cs[w.index].name() + ", all of which is wanted", Min: 1e-9, Max: check.MostVolume, Unit: "L"}
		}
		p.whole = w.index
	}
	if p.total == 0 && p.whole < 0 {
		return nil, &units.RangeError{Quantity: "total volume (or a want for all of a component)", Min: 1e-9, Max: check.MostVolume, Unit: "L"}
	}
	return p, nil
}

// stock of a component in litres.
func (p *problem) stock(i int) float64 {
	// More than a thousand times the blend is as good as no limit, and the
	// programme stays well scaled.
	if v := float64(p.cs[i].Volume); v > 0 && !(p.total > 0 && v > 1000*p.total) {
		return v
	}
	if p.total == 0 {
		return 1e6 * p.scale() // without a total, a limit keeps every amount in the programme
	}
	return math.Inf(1)
}

// scale is a volume of the blend's order, to make equations dimensionless.
func (p *problem) scale() float64 {
	if p.total > 0 {
		return p.total
	}
	return float64(p.cs[p.whole].Volume)
}

// partials are the partial volumes of the components in the mixture x.
func (p *problem) partials(x, into []float64) {
	var m liquid.Masses
	for i, litres := range x {
		m = m.Plus(p.m[i], litres)
	}
	v := m.Partials()
	for i, c := range p.m {
		into[i] = c.In(v)
	}
}

// equations in the amounts (in units of scale), given partial volumes: row
// times x = right. Row 0 sets the size; then one a want, scaled to the
// largest of its coefficients.
func (p *problem) equations(v []float64) (rows [][]float64, right []float64) {
	n := len(p.m)
	flat := make([]float64, n*(1+len(p.wants)))
	size := flat[:n:n]
	if p.total > 0 {
		copy(size, v)
	} else {
		size[p.whole] = 1
	}
	rows, right = append(rows, size), append(right, 1)
	for k, w := range p.wants {
		row := flat[n*(k+1) : n*(k+2) : n*(k+2)]
		largest := 0.0
		for i := range row {
			row[i] = w.content(p.m[i], float64(p.cs[i].Acid)) - w.perLitre()*v[i]
			largest = max(largest, math.Abs(w.content(p.m[i], float64(p.cs[i].Acid))), w.perLitre())
		}
		for i := range row {
			row[i] /= max(largest, 1e-9)
		}
		rows, right = append(rows, row), append(right, 0)
	}
	return rows, right
}

// solve renews the partial volumes until the amounts stand still. missed is
// nil where every equation holds; else x is the nearest blend there is, and
// missed what each equation lacks.
func (p *problem) solve() (x, missed []float64, err error) {
	v := make([]float64, len(p.m))
	for i := range v {
		v[i] = 1
	}
	cost := p.costs()
	var last, nearest, lacks []float64 // of the last round that missed
	for round := 0; round < 2 || !near(x, last, 1e-12); round++ {
		if round == mostRounds {
			if lacks != nil { // of what cannot be met, any of the nearest will do
				x, missed = nearest, lacks
			}
			if lacks != nil || near(x, last, rounding) {
				break
			}
			return nil, nil, fmt.Errorf("the amounts do not settle: %v after %v", x, last)
		}
		// Components that cost nearly the same change places with every renewal:
		// after some rounds those in use are kept while they can be.
		if round >= mostRounds/2 {
			cost = p.kept(x)
		}
		last = x
		rows, right := p.equations(v)
		if x, missed, err = p.linear(rows, right, cost); err != nil {
			return nil, nil, err
		}
		if missed != nil {
			nearest, lacks = x, missed
		}
		p.partials(x, v)
	}
	for i := range x {
		x[i] = min(x[i]*p.scale(), p.stock(i)) // which rounding passes
	}
	return x, missed, nil
}

const mostRounds = 40

// kept are costs at which the amounts in units of scale, a corner of the
// programme, stay the cheapest: what is used up pays, what is not used costs.
func (p *problem) kept(x []float64) []float64 {
	c := make([]float64, len(x))
	for i := range x {
		switch {
		case x[i] <= 0:
			c[i] = 1e-3
		case x[i]*p.scale() >= p.stock(i)*(1-rounding):
			c[i] = -1e-3
		}
	}
	return c
}

func near(a, b []float64, tolerance float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > tolerance*(1+math.Abs(b[i])) {
			return false
		}
	}
	return true
}

func (p *problem) plan(x []float64) (Recipe, error) {
	var sum pour
	plan := Recipe{Volumes: make([]units.Volume, len(x)), Choices: max(0, len(x)-1-len(p.wants))}
	for i, litres := range x {
		plan.Volumes[i] = units.Volume(litres)
		plan.Cost += p.cs[i].Cost * litres
		sum.add(&p.cs[i], p.m[i], litres)
	}
	var err error
	plan.Result, err = sum.mixture()
	return plan, err
}
