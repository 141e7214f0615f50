package blend

import "math"

// gain is what component i adds to what an extreme seeks the least of.
func (p *problem) gain(t *task, i int) float64 {
	w := p.few[t.of]
	return t.sign * w.content(p.m[i], float64(p.cs[i].Acid)) / w.quantity.top()
}

// value is what a task seeks the least of.
func (p *problem) value(t *task, x *amounts) (sum float64) {
	switch t.kind {
	case cheapest:
		for i := range p.cs {
			sum += p.cost[i] * x[i]
		}
	case least:
		return x[t.of]
	case largest:
		if p.total == 0 {
			return -x[p.whole]
		}
		return -p.masses(x).Volume()
	case extreme:
		for i := range p.cs {
			sum += p.gain(t, i) * x[i]
		}
	}
	return sum
}

// leastSaved is worth a change of plan: of the dearest component's price for all
// of the blend.
const leastSaved = 1e-9

// descend is for programmes that jump between two corners, each the better one by
// the partial volumes at the other: the best may lie between. It takes steps as
// long as they bring the amounts nearer to what holds and to what is sought, and
// shorter ones where they do not.
func (p *problem) descend(t *task, x *amounts, reach float64) (ok bool) {
	step := *t
	step.reach = reach
	left := p.lacks(t, x)
	for range descents {
		var v, y amounts
		for i := range p.cs {
			step.low[i] = max(0, x[i]-step.reach/2)
		}
		p.partials(x, &v)
		p.programme(&step, &v, &y)
		if z := y; p.hold(t, &z) { // back to the true volumes, or steps stay short
			y = z
		}
		if l := p.lacks(t, &y); l < left-leastSaved {
			*x, left = y, l
			step.reach *= 2
		} else if step.reach /= 4; step.reach < stands {
			break
		}
	}
	return p.hold(t, x)
}

// lacks is what a task seeks the least of, and at a high price what it misses.
func (p *problem) lacks(t *task, x *amounts) float64 {
	var v, row amounts
	p.partials(x, &v)
	missed := 0.0
	for k := range t.equations() {
		right := p.equation(t, k, &v, row[:])
		for i := range p.cs {
			right -= row[i] * x[i]
		}
		missed += math.Abs(right)
	}
	return p.value(t, x) + 1000*missed
}

// hold repeats Newton's method on the amounts that the last programme determined,
// the others held; ok says that the wants are met within the stocks.
func (p *problem) hold(t *task, x *amounts) (ok bool) {
	var v amounts
	for range quickRounds {
		last := *x
		p.partials(x, &v)
		if !p.correct(t, &v, x) {
			return false
		}
		if near(x, &last, len(p.cs), stands) {
			break
		}
	}
	p.partials(x, &v) // the last digits
	return p.correct(t, &v, x) && p.allows(t, x) && p.meets(t, x)
}
