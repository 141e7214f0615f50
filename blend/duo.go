package blend

import (
	"math"

	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// A duo is two liquids and one want. Either all of the base is used and the
// result has at most room litres, or the two make total litres.
type duo struct {
	base, other Component
	want        Want
	room, total float64       // one of them is zero
	b, o        liquid.Masses // per litre
}

const (
	slack    = 1 + 1e-12 // for rounding
	lastStep = 2e-6      // a Newton step of the share this small leaves a tenth of its square
)

func meet(d duo) (f Fortification, err error) {
	if err = d.want.check(); err != nil {
		return
	}
	if d.b, err = d.base.perLitre(); err != nil {
		return
	}
	if d.o, err = d.other.perLitre(); err != nil {
		return
	}
	share, ok := d.share()
	if ok {
		baseLitres, otherLitres := d.amounts(share)
		if d.within(baseLitres, otherLitres) {
			return d.pour(baseLitres, otherLitres)
		}
	}
	return f, d.unreachable(ok)
}

// share is the part of the second liquid in the volumes poured, from 0 to
// below 1, at which the want holds: Newton on content - perLitre*volume.
func (d *duo) share() (x float64, ok bool) {
	c := d.want.perLitre()
	base, other := d.want.content(d.b, float64(d.base.Acid)), d.want.content(d.o, float64(d.other.Acid))
	// Nothing to pour, or (but for contraction) nothing that would help: the
	// solver is for what lies between the two.
	same := 1e-12 * c
	switch {
	case math.Abs(base-c) <= same:
		return 0, true
	case math.Abs(other-c) <= same, (base < c) == (other < c):
		return 0, false
	}
	sign := math.Copysign(1, c-base)
	by := d.o.Plus(d.b, -1)
	x, err := solve.Rising(func(x float64) (float64, float64) {
		m := d.b.Plus(by, x)
		p := m.Partials()
		y := base + x*(other-base) - c*p.V
		slope := other - base - c*by.In(p)
		return sign * y, sign * slope
	}, (c-base)/(other-base), 0, 1, lastStep, rounding)
	return x, err == nil && x < 1
}

// amounts are the litres of both at a share.
func (d *duo) amounts(share float64) (base, other float64) {
	if d.total == 0 {
		return float64(d.base.Volume), float64(d.base.Volume) * share / (1 - share)
	}
	v := liquid.Masses{}.Plus(d.b, 1-share).Plus(d.o, share).Volume()
	return (1 - share) * d.total / v, share * d.total / v
}

func (d *duo) volume(base, other float64) float64 {
	return liquid.Masses{}.Plus(d.b, base).Plus(d.o, other).Volume()
}

// within says whether stock and vessel allow the amounts.
func (d *duo) within(base, other float64) bool {
	return !lacking(d.base, base) && !lacking(d.other, other) &&
		(d.total > 0 || math.IsInf(d.room, 1) || d.volume(base, other) <= d.room*slack)
}

func lacking(c Component, litres float64) bool {
	return c.Volume > 0 && litres > float64(c.Volume)*slack
}

func (d *duo) pour(base, other float64) (Fortification, error) {
	var sum pour
	sum.add(&d.base, d.b, base)
	sum.add(&d.other, d.o, other)
	m, err := sum.mixture()
	return Fortification{units.Volume(base), units.Volume(other), m}, err
}

// filling is how many litres of o bring m to total litres; zero where m
// already fills it.
func filling(m, o liquid.Masses, total float64) (litres float64, err error) {
	missing := total - m.Volume()
	if missing <= 0 {
		return 0, nil
	}
	return solve.Rising(func(x float64) (float64, float64) {
		n := m.Plus(o, x)
		p := n.Partials()
		return p.V - total, o.In(p)
	}, missing, 0, 2*total, 1e-13*total, 1e-12*total)
}

// unreachable gathers what is reachable and what would change it. between says
// that the want lies between the two liquids.
func (d duo) unreachable(between bool) error {
	e := &UnreachableError{Want: d.want, Limit: LimitContent}
	if between {
		e.Limit = LimitVessel
		share, _ := d.share()
		if base, other := d.amounts(share); lacking(d.base, base) || lacking(d.other, other) {
			e.Limit = LimitStock
		}
	}
	ends, err := d.ends()
	if err != nil {
		return err
	}
	from, to := d.want.of(ends[0].Result), d.want.of(ends[1].Result)
	e.Low, e.High = min(from, to), max(from, to)
	nearest := ends[0]
	if math.Abs(to-d.want.value) < math.Abs(from-d.want.value) {
		nearest = ends[1]
	}
	e.Nearest = nearest.Result
	if nearest.Base+nearest.Spirit > 0 {
		e.Volumes = []units.Volume{nearest.Base, nearest.Spirit}
	}
	e.Changes = d.changes()
	return e
}

// ends are the two ends of what is reachable. The end that is only approached,
// the other liquid without limit, has no volumes.
func (d *duo) ends() (ends [2]Fortification, err error) {
	most := func(c Component) float64 {
		if c.Volume == 0 {
			return math.Inf(1)
		}
		return float64(c.Volume)
	}
	fill := func(there, o liquid.Masses, litres float64) float64 {
		x, failed := filling(there, o, litres)
		if failed != nil {
			err = failed
		}
		return x
	}
	if d.total > 0 {
		other := min(most(d.other), fill(liquid.Masses{}, d.o, d.total))
		base := min(most(d.base), fill(liquid.Masses{}, d.b, d.total))
		ends[0], _ = d.pour(base, min(most(d.other), fill(liquid.Masses{}.Plus(d.b, base), d.o, d.total)))
		ends[1], _ = d.pour(min(most(d.base), fill(liquid.Masses{}.Plus(d.o, other), d.b, d.total)), other)
		return ends, err
	}
	base := float64(d.base.Volume)
	ends[0], _ = d.pour(base, 0)
	fits := math.Inf(1)
	if !math.IsInf(d.room, 1) {
		fits = fill(liquid.Masses{}.Plus(d.b, base), d.o, d.room)
	}
	if other := min(most(d.other), fits); finite(other) {
		ends[1], _ = d.pour(base, other)
	} else {
		ends[1], _ = d.pour(0, 1)
		ends[1].Base, ends[1].Spirit = 0, 0
	}
	return ends, err
}

// changes tries each single change and keeps those that would do.
func (d *duo) changes() []Change {
	var out []Change
	try := func(change Change, with func(*duo), to func(base, other float64, d *duo) float64) {
		t := *d
		with(&t)
		if share, ok := t.share(); ok {
			if base, other := t.amounts(share); t.within(base, other) && base > 0 {
				change.To = to(base, other, &t)
				out = append(out, change)
			}
		}
	}
	if d.other.Volume > 0 {
		try(Change{d.other.label(), "volume", float64(d.other.Volume), 0, "L"},
			func(t *duo) { t.other.Volume = 0 },
			func(_, other float64, _ *duo) float64 { return other })
	}
	if d.total == 0 && !math.IsInf(d.room, 1) {
		try(Change{"", "vessel", d.room, 0, "L"},
			func(t *duo) { t.room = math.Inf(1) },
			func(base, other float64, t *duo) float64 { return t.volume(base, other) })
	}
	if d.total > 0 && d.base.Volume > 0 {
		try(Change{d.base.label(), "volume", float64(d.base.Volume), 0, "L"},
			func(t *duo) { t.base.Volume = 0 },
			func(base, _ float64, _ *duo) float64 { return base })
	}
	if share, ok := d.share(); ok { // less of everything
		base, other := d.amounts(share)
		part := 1.0
		if d.base.Volume > 0 {
			part = min(part, float64(d.base.Volume)/base)
		}
		if d.other.Volume > 0 && other > 0 {
			part = min(part, float64(d.other.Volume)/other)
		}
		if d.total > 0 {
			out = append(out, Change{"", "vessel", d.total, part * d.total, "L"})
		} else {
			part = min(part, d.room/d.volume(base, other))
			out = append(out, Change{d.base.label(), "volume", base, part * base, "L"})
		}
	}
	if c, ok := d.content(); ok {
		out = append(out, c)
	}
	return out
}

// content is the least change of the other liquid's own strength (or extract)
// that would do within stock and vessel.
func (d *duo) content() (Change, bool) {
	if d.want.quantity == acid {
		return Change{}, false
	}
	from, end := float64(d.other.Strength), d.want.quantity.most()
	if d.want.quantity == extract {
		from = float64(d.other.Extract)
	}
	if d.want.content(d.b, 0) > d.want.perLitre() {
		end = 0
	}
	fits := func(part float64) bool {
		t := *d
		if to := from + part*(end-from); t.want.quantity == strength {
			t.other.Strength = units.Strength(to)
		} else {
			t.other.Extract = units.Concentration(to)
		}
		var err error
		if t.o, err = t.other.perLitre(); err != nil {
			return false
		}
		share, ok := t.share()
		return ok && t.within(t.amounts(share))
	}
	part, ok := leastPart(fits)
	return Change{d.other.label(), d.want.quantity.String(), from, from + part*(end-from), d.want.quantity.unit()}, ok
}
