package blend

import (
	"math"
	"slices"
)

// unreachable says what p can do instead. x is the nearest blend in litres.
func (p *problem) unreachable(x, missed []float64) error {
	nearest, err := p.plan(x)
	if err != nil {
		return err
	}
	e := &UnreachableError{Volumes: nearest.Volumes, Nearest: nearest.Result}
	k := slices.IndexFunc(missed, func(d float64) bool { return d != 0 })
	if k == 0 {
		e.Want, e.Limit = Want{quantity: size, value: p.total}, LimitStock
		e.High = float64(nearest.Result.Volume)
	} else {
		e.Want = p.wants[k-1]
		e.Low, e.High = p.interval(k-1, nearest.Result)
		free := p.with(func(c *Component, _ int) { c.Volume = 0 })
		if free.feasible() {
			e.Limit = LimitStock
		}
	}
	e.Changes = p.changes(e.Want)
	return e
}

// with is the problem with components changed, all but the volume of the one
// that sets the size.
func (p *problem) with(change func(c *Component, i int)) *problem {
	q := *p
	q.cs, q.m = slices.Clone(p.cs), slices.Clone(p.m)
	for i := range q.cs {
		v := q.cs[i].Volume
		change(&q.cs[i], i)
		if i == p.whole {
			q.cs[i].Volume = v
		}
		m, err := q.cs[i].perLitre()
		if err != nil {
			return nil
		}
		q.m[i] = m
	}
	return &q
}

func (p *problem) feasible() bool {
	if p == nil {
		return false
	}
	_, missed, err := p.solve()
	return err == nil && missed == nil
}

// interval is what want k reaches beside the other wants, or, where those
// cannot be met together either, beside the size alone.
func (p *problem) interval(k int, nearest Mixture) (lo, hi float64) {
	q := *p
	q.wants = slices.Clone(p.wants)
	at := q.wants[k].of(nearest)
	q.wants[k].value = at
	if !q.feasible() {
		q.wants = q.wants[k : k+1]
		k = 0
	}
	reach := func(end float64) float64 {
		inside, outside := at, end
		for range 60 {
			if q.wants[k].value = end; q.feasible() {
				return end
			}
			if math.Abs(outside-inside) <= 1e-5*(1+math.Abs(inside)) {
				break
			}
			mid := (inside + outside) / 2
			if q.wants[k].value = mid; q.feasible() {
				inside = mid
			} else {
				outside = mid
			}
		}
		return inside
	}
	return reach(0), reach(q.wants[k].quantity.most())
}

// changes tries each single change and keeps those that would do.
func (p *problem) changes(want Want) []Change {
	var out []Change
	for i := range p.cs { // more of one component, at the least amount of it
		if p.cs[i].Volume == 0 || i == p.whole {
			continue
		}
		q := p.with(func(c *Component, j int) {
			c.Cost = 0
			if j == i {
				c.Cost, c.Volume = 1, 0
			}
		})
		if x, missed, err := q.solve(); err == nil && missed == nil {
			out = append(out, Change{p.cs[i].label(), "volume", float64(p.cs[i].Volume), x[i], "L"})
		}
	}
	if p.total > 0 { // a smaller blend
		if to, ok := leastPart(func(part float64) bool {
			q := *p
			q.total *= max(1e-6, 1-part)
			return q.feasible()
		}); ok {
			out = append(out, Change{"", "vessel", p.total, (1 - to) * p.total, "L"})
		}
	}
	if want.quantity == strength || want.quantity == extract {
		if c, ok := p.content(want); ok {
			out = append(out, c)
		}
	}
	return out
}

// content is the least change of one component's own strength (or extract)
// that would do: of the one that has the most of it already, or the least.
func (p *problem) content(want Want) (Change, bool) {
	read := func(c *Component) *float64 {
		if want.quantity == strength {
			return (*float64)(&c.Strength)
		}
		return (*float64)(&c.Extract)
	}
	order := func(a, b Component) int {
		if *read(&a) < *read(&b) {
			return -1
		}
		return 1
	}
	most, least := slices.MaxFunc(p.cs, order), slices.MinFunc(p.cs, order)
	top := want.quantity.most()
	for _, way := range []struct {
		of  Component
		end float64
	}{{most, top}, {most, 0}, {least, 0}, {least, top}} {
		i := slices.IndexFunc(p.cs, func(c Component) bool { return *read(&c) == *read(&way.of) })
		from, end := *read(&p.cs[i]), way.end
		part, ok := leastPart(func(part float64) bool {
			return p.with(func(c *Component, j int) {
				if j == i {
					*read(c) = from + part*(end-from)
				}
			}).feasible()
		})
		if ok && part > 0 {
			return Change{p.cs[i].label(), want.quantity.String(), from, from + part*(end-from), want.quantity.unit()}, true
		}
	}
	return Change{}, false
}

// leastPart is the smallest part from 0 to 1 at which would is true, on the side
// that does, to 1e-5. Beyond some point would may be false again (a component
// cannot hold so much), so the whole range is looked over first.
func leastPart(would func(part float64) bool) (float64, bool) {
	lo, hi := 0.0, -1.0
	for part := 1.0 / 16; part <= 1; part += 1.0 / 16 {
		if would(part) {
			hi = part
			break
		}
		lo = part
	}
	if hi < 0 {
		return 0, false
	}
	for hi-lo > 1e-5 {
		if mid := (lo + hi) / 2; would(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, true
}
