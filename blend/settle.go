package blend

import (
	"math"

	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

const (
	rounding = 1e-9  // of the programmes' own equations
	unpoured = 1e-11 // of the blend: less is rounding and is not poured
	stands   = 3e-8  // amounts that move no more are settled: the next move is of its square

	same = 3e-3 // a way to a blend this near to a known one leads to it
	jump = 0.03 // more than the partial volumes of one corner move it

	quickRounds = 8 // Newton's method settles in five or does not
	descents    = 80
)

// solve does a task: the amounts, and whether they meet what holds. thorough asks for the best of several starts.
func (p *problem) solve(t *task, thorough bool) (x amounts, ok bool) {
	if len(t.wants) > mostSquare-1 { // two contradict each other
		return x, false
	}
	if m, known, possible := composition(t.wants); known {
		if !possible {
			return x, false
		}
		var v amounts
		p.partialsIn(m, &v)
		ok = p.linear(t, &v, &x)
		return x, ok && (p.meets(t, &x) || p.hold(t, &x))
	}
	thorough = thorough && (t.kind != cheapest || p.dearest > 0) && len(p.cs) >= t.equations()
	var known *amounts
	for k := range p.starts(t) {
		from := p.start(t, k)
		y, met := p.settle(t, &from, known)
		if met && (!ok || p.value(t, &y) < p.value(t, &x)-leastSaved) {
			x, ok, known = y, true, &x
		}
		if ok && !thorough {
			break
		}
	}
	if n := p.starts(t); thorough && t.kind == extreme && n > len(startParts) {
		if y := p.pair(t); p.descend(t, &y, 0.2) && (!ok || p.value(t, &y) < p.value(t, &x)-leastSaved) {
			x, ok = y, true
		}
	}
	return x, ok
}

// pair is equal parts of the two components that have most (or least) of what an
// extreme is sought of: they may contract to more than either has, where no corner
// leads.
func (p *problem) pair(t *task) (x amounts) {
	first, second := -1, -1
	at := func(i int) float64 { return p.gain(t, i) }
	for i := range p.cs {
		switch {
		case first < 0 || at(i) < at(first):
			first, second = i, first
		case second < 0 || at(i) < at(second):
			second = i
		}
	}
	x[first] = min(0.5, t.stock[first])
	if second >= 0 {
		x[second] = min(0.5, t.stock[second])
	}
	return x
}

// gain is what component i adds to what an extreme seeks the least of.
func (p *problem) gain(t *task, i int) float64 {
	w := p.few[t.of]
	return t.sign * w.content(p.m[i], float64(p.cs[i].Acid)) / w.quantity.top()
}

// composition is the blend where strength and extract are both wanted; possible
// is false where no liquid has them.
func composition(wants []Want) (m liquid.Masses, known, possible bool) {
	s, e := -1.0, -1.0
	for _, w := range wants {
		switch w.quantity {
		case strength:
			s = w.value
		case extract:
			e = w.value
		}
	}
	if s < 0 || e < 0 {
		return m, false, false
	}
	m, err := liquid.PerLitre(units.Strength(s), units.Concentration(e))
	return m, true, err == nil
}

// startParts are where the search for what is open begins: parts of the way from the
// least to the most of strength and extract that the components have.
var startParts = [...][2]float64{{0.3, 0.3}, {0, 1}, {1, 0}, {0.1, 0.6}, {0.6, 0.1}}

// starts is how many there are: with strength and extract both open, the components
// themselves too.
func (p *problem) starts(t *task) int {
	for _, w := range t.wants {
		if w.quantity == strength || w.quantity == extract {
			return len(startParts)
		}
	}
	return len(startParts) + len(p.cs)
}

// start is the partial volumes at a start.
func (p *problem) start(t *task, k int) (v amounts) {
	if k >= len(startParts) {
		p.partialsIn(p.m[k-len(startParts)], &v)
		return v
	}
	at := [2]float64{}
	for q, part := range startParts[k] {
		lo, hi := math.Inf(1), 0.0
		for i := range p.cs {
			x := float64(p.cs[i].Strength)
			if q == 1 {
				x = float64(p.cs[i].Extract)
			}
			lo, hi = min(lo, x), max(hi, x)
		}
		at[q] = lo + part*(hi-lo)
	}
	for _, w := range t.wants {
		switch w.quantity {
		case strength:
			at[0] = w.value
		case extract:
			at[1] = w.value
		}
	}
	for m, err := (liquid.Masses{}), error(nil); ; at[0], at[1] = at[0]/2, at[1]/2 {
		if m, err = liquid.PerLitre(units.Strength(at[0]), units.Concentration(at[1])); err == nil {
			p.partialsIn(m, &v)
			return v
		}
	}
}

// settle renews the partial volumes v until the amounts stand still. It gives up
// where they come to a blend that is known. Where they jump to another corner that
// costs more, or do not stand still, it goes on in small steps.
func (p *problem) settle(t *task, v, known *amounts) (x amounts, ok bool) {
	var last amounts
	var before basis
	met, some := false, false
	for round := range quickRounds {
		lastMet := met
		met = p.linear(t, v, &x)
		switch {
		case known != nil && near(&x, known, len(p.cs), same):
			return x, false
		case round > 0 && near(&x, &last, len(p.cs), stands):
			return x, met && (p.meets(t, &x) || p.hold(t, &x))
		case met && lastMet && !near(&x, &last, len(p.cs), jump):
			if p.dearer(t, &x, &last, before) {
				return p.improve(t, last)
			}
		}
		p.partials(&x, v)
		last, before, some = x, p.basis, some || met
	}
	if !some {
		return x, false
	}
	return p.improve(t, x)
}

// dearer says that the true corner at x is no better than the one before it, which
// it puts into last.
func (p *problem) dearer(t *task, x, last *amounts, before basis) bool {
	now, a, b := p.basis, *last, *x
	toB := p.hold(t, &b)
	p.basis = before
	if !p.hold(t, &a) || toB && p.value(t, &b) < p.value(t, &a) {
		p.basis = now
		return false
	}
	*last = a
	return true
}

// improve goes down from the corner of the last programme.
func (p *problem) improve(t *task, x amounts) (amounts, bool) {
	corner := x
	met := p.hold(t, &corner)
	if met {
		x = corner
	}
	if p.descend(t, &x, 1) {
		return x, true
	}
	return corner, met
}

func near(a, b *amounts, n int, by float64) bool {
	for i := range n {
		if !(math.Abs(a[i]-b[i]) <= by*(1+math.Abs(b[i]))) {
			return false
		}
	}
	return true
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
