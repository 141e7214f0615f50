package blend

import (
	"math"

	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// pair is equal parts of the two components that have most (or least) of what an
// extreme is sought of: they may contract to more than either has, where no corner
// leads.
func (p *problem) pair(t *task) (x amounts) {
	first, second := 0, 1 // of one alone, the second has no stock
	at := func(i int) float64 { return p.gain(t, i) }
	for i := range p.cs {
		switch {
		case at(i) < at(first):
			first, second = i, first
		case i != first && at(i) < at(second):
			second = i
		}
	}
	x[first], x[second] = min(0.5, t.stock[first]), min(0.5, t.stock[second])
	return x
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
