package blend

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/simplex"
	"example.org/mutage/units"
)

// A Recipe is what to pour: one volume a component, in their order, and what it
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
// fills total litres and meets every want to 1e-9 of it (or to 1e-10 g/L, where it
// is next to nothing). With total zero, one want must be WantAll: that
// component's Volume sets the size. Otherwise each component's Volume is the
// stock at hand; zero means as much as is needed. At most 16 components. Every
// recipe is mixed and compared with the wants before it is returned; in its Result
// the wanted quantities and the total are then the wanted ones to the last digit.
//
// Cost: where strength and extract are both wanted, no other recipe is cheaper.
// Elsewhere the volumes are not linear in what is open, and the recipe is a local
// optimum: no small change of it that keeps the wants saves a millionth of the cost.
// It is the cheapest of the local optima found from several compositions.
//
// Errors: *units.RangeError; ErrUnknown where acid is wanted and a component's is
// not known; *UnreachableError (wraps ErrUnreachable).
//
// Method: the masses are linear in the amounts and the volume is their sum
// weighted by partial volumes (exactly, at the point of solution), so each
// round solves a small linear programme and renews the partial volumes. This is
// Newton's method on the true, non-additive volumes. Strength and extract
// together give the partial volumes beforehand: one round is exact.
func Solve(total units.Volume, cs []Component, wants ...Want) (Recipe, error) {
	var p problem
	if err := p.pose(total, cs, wants); err != nil {
		return Recipe{}, err
	}
	all := p.task(cheapest, p.wants())
	if x, ok := p.solve(&all, true); ok {
		return p.recipe(&x), nil
	}
	x, err := p.unreachable()
	if err != nil {
		return Recipe{}, err
	}
	return p.recipe(&x), nil
}

const maxComponents = 16

// amounts are one figure a component.
type amounts [maxComponents]float64

// A problem is Solve's arguments, checked, with the masses per litre.
type problem struct {
	cs      []Component
	m       [maxComponents]liquid.Masses
	few     [mostSquare]Want // no two alike
	wanted  int
	total   float64
	whole   int     // without a total: the component of which all is used
	scale   float64 // a volume of the blend's order; amounts are in its unit
	stock   amounts // infinite: no limit
	cost    amounts // of the dearest; all zero where nothing costs
	dearest float64
	program simplex.Program
	basis   basis // of the last programme
}

func (p *problem) pose(total units.Volume, cs []Component, wants []Want) error {
	p.cs, p.total, p.whole = cs, float64(total), -1
	if len(cs) < 1 || len(cs) > maxComponents {
		return units.OutOfRange("", "number of components", float64(len(cs)), 1, maxComponents, "", "")
	}
	if p.total != 0 {
		if err := units.Check("total volume", p.total, 1e-9, check.MostVolume, "L", ""); err != nil {
			return err
		}
	}
	for i := range cs {
		m, err := cs[i].perLitre()
		if err != nil {
			return err
		}
		p.m[i] = m
		p.dearest = max(p.dearest, cs[i].Cost)
	}
	for _, w := range wants {
		if err := p.want(w); err != nil {
			return err
		}
	}
	if p.total == 0 && p.whole < 0 {
		return units.OutOfRange("", "total volume (or a want for all of a component)", 0, 1e-9, check.MostVolume, "L", "")
	}
	p.measure()
	return nil
}

func (p *problem) wants() []Want { return p.few[:p.wanted] }

// want takes one want.
func (p *problem) want(w Want) error {
	if w.quantity != all {
		for _, other := range p.wants() {
			if other == w {
				return nil
			}
		}
		for i := range p.cs {
			if c := &p.cs[i]; w.quantity == acid && c.Unknown.Has(Acid) {
				return fmt.Errorf("%v of %s: %w, so the blend's cannot be wanted", Acid, c.label(), ErrUnknown)
			}
		}
		if p.wanted < len(p.few) { // of more, two contradict each other
			p.few[p.wanted] = w
			p.wanted++
		}
		return w.check()
	}
	if w.index < 0 || w.index >= len(p.cs) {
		return units.Check("index of the component to use up", float64(w.index), 0, float64(len(p.cs)-1), "", "")
	}
	if p.total > 0 || p.whole >= 0 {
		return fmt.Errorf("%v beside a total volume or another such want: the size of the blend is set twice", w)
	}
	if c := &p.cs[w.index]; c.Volume == 0 {
		return units.OutOfRange(c.label(), "volume, all of which is wanted", 0, 1e-9, check.MostVolume, "L", "")
	}
	p.whole = w.index
	return nil
}

// measure sets the scale, and stocks and costs by it.
func (p *problem) measure() {
	p.scale = p.total
	if p.total == 0 {
		p.scale = float64(p.cs[p.whole].Volume)
	}
	for i := range p.cs {
		c := &p.cs[i]
		p.stock[i] = float64(c.Volume) / p.scale
		if c.Volume == 0 {
			p.stock[i] = math.Inf(1)
			if most := check.MostVolume / p.scale; most < 1e6 {
				p.stock[i] = most
			}
		}
		if p.dearest > 0 {
			p.cost[i] = c.Cost / p.dearest
		}
	}
}

// litres of component i in an amount; rounding does not pass the stock.
func (p *problem) litres(i int, x float64) float64 {
	if v := float64(p.cs[i].Volume); v > 0 {
		return min(x*p.scale, v)
	}
	return min(x*p.scale, check.MostVolume)
}

// recipe is what to pour for amounts that meet the wants.
func (p *problem) recipe(x *amounts) Recipe {
	r := Recipe{Choices: max(0, len(p.cs)-1-len(p.wants()))}
	r.Volumes, r.Result = p.pour(x)
	for i, litres := range r.Volumes {
		r.Cost += p.cs[i].Cost * float64(litres)
	}
	for _, w := range p.wants() {
		w.settle(&r.Result)
	}
	if p.total > 0 {
		r.Result.Volume = units.Volume(p.total)
	}
	return r
}

// masses of all amounts together.
func (p *problem) masses(x *amounts) (m liquid.Masses) {
	for i := range p.cs {
		m = m.Plus(p.m[i], x[i])
	}
	return m
}

// meets says whether amounts fill the size and meet the wants, as they mix.
func (p *problem) meets(t *task, x *amounts) bool {
	m, acids := p.masses(x), 0.0
	for i := range p.cs {
		if x[i]*p.scale > check.MostVolume*slack {
			return false
		}
		acids += x[i] * float64(p.cs[i].Acid)
	}
	v := m.Volume()
	if p.total == 0 && (t.kind == cheapest || t.kind == least) && !(math.Abs(x[p.whole]-1) <= rounding) {
		return false
	}
	if !(v > 0) || (t.kind == cheapest || t.kind == least) && p.total > 0 && !(math.Abs(v-1) <= wantMet) {
		return false
	}
	for _, w := range t.wants {
		if !w.met(w.content(m, acids) / v) {
			return false
		}
	}
	return true
}
