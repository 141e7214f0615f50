package blend

import (
	"math"
	"slices"

	"example.org/mutage/units"
)

// unreachable says what p can do instead: what it reaches of the first want that
// cannot be met beside the others, and which changes would do. Where that want
// lies between the ends after all, it gives the amounts.
func (p *problem) unreachable() (x amounts, err error) {
	if x, ok := p.justEnough(); ok {
		return x, nil
	}
	k, held := p.failing()
	if k < 0 {
		return x, p.short()
	}
	e := &UnreachableError{Want: p.wants()[k]}
	ends := [2]end{p.reach(k, held, 1, nil), p.reach(k, held, -1, nil)}
	e.between(ends)
	if x, ok := p.inside(e, ends); ok {
		return x, nil
	}
	e.Limit = p.limit()
	p.offerVolumes(e)
	if q := e.Want.quantity; q == strength || q == extract {
		p.offerContent(e, k, held, ends)
	}
	return x, e
}

// justEnough says whether all stocks together, nothing of the rest, meet the wants:
// rounding may take them from the programmes.
func (p *problem) justEnough() (x amounts, ok bool) {
	for i := range p.cs {
		if !math.IsInf(p.stock[i], 1) {
			x[i] = p.stock[i]
		}
	}
	t := p.task(cheapest, p.wants())
	return x, p.meets(&t, &x)
}

// inside tries for a want between the ends, from the blend of the two that has it
// but for contraction. A want that only the amounts of an end meet, as where stocks
// are just enough, is at that end: rounding may take it from the programmes, and the
// end, found without it, is compared with all wants.
func (p *problem) inside(e *UnreachableError, ends [2]end) (x amounts, ok bool) {
	t := p.task(cheapest, p.wants())
	for i := range ends {
		if x = ends[i].parts; p.allows(&t, &x) && p.meets(&t, &x) {
			return x, true
		}
	}
	part := (e.Want.value - ends[0].value) / (ends[1].value - ends[0].value)
	if !(part > 0 && part < 1) {
		return x, false
	}
	lo, hi := &ends[0].parts, &ends[1].parts
	for i := range p.cs {
		x[i] = lo[i] + part*(hi[i]-lo[i])
	}
	return x, p.descend(&t, &x, 1)
}

// failing is the want that cannot be met and those that hold beside it: the first
// one that cannot be met with those before it; beside it all others hold where
// they can, else those before it. It is -1 where there is not enough to fill the
// size.
func (p *problem) failing() (k int, held []Want) {
	if len(p.wants()) == 0 || p.total > 0 && p.all() < 1-wantMet {
		return -1, nil
	}
	for last := len(p.wants()) - 1; k < last; k++ {
		if t := p.task(cheapest, p.wants()[:k+1]); !p.feasible(&t) {
			others := append(slices.Clone(p.wants()[:k]), p.wants()[k+1:]...)
			if t = p.task(cheapest, others); p.feasible(&t) {
				return k, others
			}
			break
		}
	}
	return k, p.wants()[:k]
}

func (p *problem) feasible(t *task) bool {
	_, ok := p.solve(t, false)
	return ok
}

// all is the volume of all stocks together; infinite where one is.
func (p *problem) all() float64 {
	for i := range p.cs {
		if math.IsInf(p.stock[i], 1) {
			return p.stock[i]
		}
	}
	return p.masses(&p.stock).Volume()
}

// short tells that all stocks together do not fill the size.
func (p *problem) short() error {
	e := &UnreachableError{Want: Want{quantity: size, value: p.total}, Limit: LimitStock}
	e.Volumes, e.Nearest = p.pour(&p.stock)
	e.High = float64(e.Nearest.Volume)
	p.offerVolumes(e)
	return e
}

// limit is what keeps the wants from being met.
func (p *problem) limit() Limit {
	t := p.unlimited(cheapest)
	if t.stock != p.stock && p.feasible(&t) {
		return LimitStock
	}
	return LimitContent
}

// unlimited is a task without stocks, but for the component of which all is used.
func (p *problem) unlimited(k kind) task {
	t := p.task(k, p.wants())
	for i := range p.cs {
		if i != p.whole {
			t.stock[i] = math.Inf(1)
		}
	}
	return t
}

// reach is the end of what want k comes to, the least (sign 1) or the most (-1). It
// looks for it near a blend, or without one from several sides.
func (p *problem) reach(k int, held []Want, sign float64, near *end) end {
	t := p.task(extreme, held)
	t.of, t.sign = k, sign
	var x amounts
	ok := false
	if near != nil {
		var v amounts
		p.partials(&near.parts, &v)
		x, ok = p.settle(&t, &v, nil)
	}
	if !ok {
		x, ok = p.solve(&t, true)
	}
	if !ok { // rounding: any blend that meets the rest
		t = p.task(cheapest, held)
		x, _ = p.solve(&t, false)
	}
	of := 1.0
	if p.total == 0 {
		of = x[p.whole]
	}
	approached := of < 1e-9 // the others without limit
	if !approached {
		for i := range p.cs {
			x[i] /= of
		}
	}
	e := end{parts: x}
	e.volumes, e.mixture = p.pour(&x)
	if approached {
		e.volumes = nil
	}
	if t.wants = held; p.meets(&t, &x) {
		for _, w := range held {
			w.settle(&e.mixture)
		}
	}
	e.value = p.wants()[k].of(e.mixture)
	return e
}

// offerVolumes offers more of each component, at the least amount of it, and a
// smaller blend.
func (p *problem) offerVolumes(e *UnreachableError) {
	limited := false
	for i := range p.cs {
		if i == p.whole || math.IsInf(p.stock[i], 1) {
			continue
		}
		limited = true
		t := p.task(least, p.wants())
		t.of, t.stock[i] = i, math.Inf(1)
		if x, ok := p.solve(&t, false); ok {
			c := &p.cs[i]
			e.offer(Change{c.label(), "volume", float64(c.Volume), x[i] * p.scale, "L"}, true)
		}
	}
	if !limited {
		return
	}
	t := p.task(largest, p.wants())
	x, ok := p.solve(&t, false)
	switch {
	case !ok:
	case p.total == 0:
		c := &p.cs[p.whole]
		e.offer(Change{c.label(), "volume", float64(c.Volume), x[p.whole] * p.scale, "L"}, false)
	default:
		e.offer(Change{"", "vessel", p.total, p.masses(&x).Volume() * p.scale, "L"}, false)
	}
}

// offerContent offers the least change of one component's own strength (or
// extract) that would do: more of it in the one that has most or least, or less,
// as it lacks.
func (p *problem) offerContent(e *UnreachableError, k int, held []Want, ends [2]end) {
	w := p.wants()[k]
	from := func(i int) float64 { return w.ofComponent(&p.cs[i]) }
	most, fewest := 0, 0
	for i := range p.cs {
		if from(i) > from(most) {
			most = i
		}
		if from(i) < from(fewest) {
			fewest = i
		}
	}
	q := *p
	q.cs = slices.Clone(p.cs)
	lacks := e.High < w.value
	order := [2]int{fewest, most}
	if lacks {
		order = [2]int{most, fewest}
	}
	for _, i := range order {
		set := func(to float64) (err error) {
			w.set(&q.cs[i], to)
			q.m[i], err = q.cs[i].perLitre()
			return err
		}
		s := search{from: from(i), end: w.endOf(&p.cs[i], lacks), want: w.value}
		near := ends[0]
		if lacks {
			near = ends[1]
		}
		s.at, s.part = near.value, near.parts[i]/p.masses(&near.parts).Volume()
		to, ok := s.find(func(to float64) (float64, error) {
			if err := set(to); err != nil {
				return 0, err
			}
			sign := 1.0
			if lacks {
				sign = -1
			}
			return q.reach(k, held, sign, &near).value, nil
		})
		if ok {
			c := Change{p.cs[i].label(), w.quantity.String(), from(i), to, w.quantity.unit()}
			if c.round(to > from(i)); set(c.To) == nil {
				if t := q.task(cheapest, q.wants()); q.feasible(&t) {
					e.Changes = append(e.Changes, c)
					return
				}
			}
		}
		_ = set(from(i))
	}
}

// pour is amounts in litres, and what they make.
func (p *problem) pour(x *amounts) ([]units.Volume, Mixture) {
	volumes := make([]units.Volume, len(p.cs))
	var sum pour
	for i := range p.cs {
		litres := p.litres(i, x[i])
		volumes[i] = units.Volume(litres)
		sum.add(&p.cs[i], p.m[i], litres)
	}
	m, _ := sum.mixture()
	return volumes, m
}
