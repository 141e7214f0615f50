package blend

import "math"

const (
	rounding = 1e-9  // of the programmes' own equations
	unpoured = 1e-11 // of the blend: less is rounding and is not poured
	stands   = 3e-8  // amounts that move no more are settled: the next move is of its square

	same = 3e-3 // a way to a blend this near to a known one leads to it
	jump = 0.03 // more than the partial volumes of one corner move it

	quickRounds = 8  // Newton's method settles in five or does not
	descents    = 80 // small steps: more than any problem of the tests takes
)

// solve does a task: the amounts, and whether they meet what holds. thorough asks
// for the best of several starts.
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
