package blend

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// A duo is two liquids and one want, of strength or extract. Either all of the base is used and the
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
		if base, other := d.amounts(share); d.within(base, other) {
			f = d.pour(base, other)
			if !d.want.met(d.content(d.masses(base, other)) / float64(f.Result.Volume)) {
				return f, fmt.Errorf("the amounts do not settle: %.12g L and %.12g L for %v", base, other, d.want)
			}
			d.want.settle(&f.Result)
			if d.total > 0 {
				f.Result.Volume = units.Volume(d.total)
			}
			return f, nil
		}
	}
	return f, d.unreachable(share, ok)
}

// content is what the want counts.
func (d *duo) content(m liquid.Masses) float64 { return d.want.content(m, 0) }

// masses of both together.
func (d *duo) masses(base, other float64) liquid.Masses {
	return liquid.Masses{}.Plus(d.b, base).Plus(d.o, other)
}

// share is the part of the second liquid in the volumes poured, from 0 to
// below 1, at which the want holds: Newton on content - perLitre*volume.
func (d *duo) share() (x float64, ok bool) {
	c := d.want.perLitre()
	base, other := d.content(d.b), d.content(d.o)
	// Nothing to pour, or (but for contraction) nothing that would help: the
	// solver is for what lies between the two.
	same := 1e-12 * c
	switch {
	case math.Abs(base-c) <= same:
		return 0, true
	case math.Abs(other-c) <= same:
		return 1, d.total > 0 // all of the base is never diluted away
	case (base < c) == (other < c):
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
	v := d.masses(1-share, share).Volume()
	return (1 - share) * d.total / v, share * d.total / v
}

// within says whether stock and vessel allow the amounts.
func (d *duo) within(base, other float64) bool {
	return !lacking(&d.base, base) && !lacking(&d.other, other) && d.fits(base, other)
}

func (d *duo) fits(base, other float64) bool {
	return d.total > 0 || math.IsInf(d.room, 1) || d.masses(base, other).Volume() <= d.room*slack
}

func lacking(c *Component, litres float64) bool {
	return c.Volume > 0 && litres > float64(c.Volume)*slack || litres > check.MostVolume
}

func (d *duo) pour(base, other float64) Fortification {
	var sum pour
	sum.add(&d.base, d.b, base)
	sum.add(&d.other, d.o, other)
	m, _ := sum.mixture()
	return Fortification{units.Volume(base), units.Volume(other), m}
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

// unreachable says what the two reach and what would do. between says that the
// want lies between the two liquids, at this share of the second.
func (d *duo) unreachable(share float64, between bool) error {
	var room struct { // all in one piece
		UnreachableError
		changes [3]Change
		volumes [2]units.Volume
	}
	e := &room.UnreachableError
	e.Want, e.Changes = d.want, room.changes[:0]
	var values [2]float64
	for i := range values {
		var err error
		if values[i], err = d.endValue(i > 0); err != nil {
			return err
		}
	}
	far := math.Abs(values[1]-d.want.value) < math.Abs(values[0]-d.want.value)
	nearest, err := d.end(far, room.volumes[:0])
	if err != nil {
		return err
	}
	if far {
		values[1] = nearest.value
	} else {
		values[0] = nearest.value
	}
	e.Low, e.High = min(values[0], values[1]), max(values[0], values[1])
	e.Volumes, e.Nearest = nearest.volumes, nearest.mixture
	if between {
		d.offerVolumes(e, share)
	}
	d.offerContent(e, &nearest)
	return e
}

// end is one end of what is reachable. Where the other liquid is without limit,
// that is only approached and has no volumes.
func (d *duo) end(far bool, volumes []units.Volume) (e end, err error) {
	base, other, ends, err := d.endAmounts(far)
	if err != nil {
		return e, err
	}
	f := d.pour(base, other)
	e = end{mixture: f.Result, parts: amounts{base, other}, value: d.want.of(f.Result)}
	if ends {
		e.volumes = append(volumes, f.Base, f.Spirit)
	}
	return e, nil
}

// endValue is what the end has of the want.
func (d *duo) endValue(far bool) (float64, error) {
	base, other, _, err := d.endAmounts(far)
	m := d.masses(base, other)
	return d.want.inUnit(d.content(m) / m.Volume()), err
}

// endAmounts are as little or as much as can be of the other liquid; ends is false
// where that is without limit and they are the proportions approached.
func (d *duo) endAmounts(far bool) (base, other float64, ends bool, err error) {
	b, o := stockOf(&d.base), stockOf(&d.other)
	switch {
	case d.total > 0 && far:
		other = min(o, d.total)
		base, err = d.fill(d.masses(0, other), d.b, b, d.total)
	case d.total > 0:
		base = min(b, d.total)
		other, err = d.fill(d.masses(base, 0), d.o, o, d.total)
	case !far:
		base = b
	case !math.IsInf(d.room, 1):
		base = b
		other, err = d.fill(d.masses(base, 0), d.o, o, d.room)
	case !math.IsInf(o, 1):
		base, other = b, o
	default:
		return 0, 1, false, nil
	}
	return base, other, true, err
}

// stockOf is what there is of a component; infinite without limit.
func stockOf(c *Component) float64 {
	if c.Volume == 0 {
		return math.Inf(1)
	}
	return float64(c.Volume)
}

// fill is how much of o, of a stock, fills up m to a volume.
func (d *duo) fill(m, o liquid.Masses, stock, to float64) (float64, error) {
	litres, err := filling(m, o, to)
	return min(stock, litres), err
}

// offerVolumes offers more of a liquid, a larger vessel, or less of all at the
// share that meets the want.
func (d *duo) offerVolumes(e *UnreachableError, share float64) {
	base, other := d.amounts(share)
	e.Limit = LimitVessel
	if lacking(&d.base, base) || lacking(&d.other, other) {
		e.Limit = LimitStock
	}
	fits := d.fits(base, other)
	part := math.Inf(1) // of all, by the scarcest
	if lacking(&d.other, other) {
		part = float64(d.other.Volume) / other
		if fits && !lacking(&d.base, base) {
			e.offer(Change{d.other.label(), "volume", float64(d.other.Volume), other, "L"}, true)
		}
	}
	if lacking(&d.base, base) {
		part = min(part, float64(d.base.Volume)/base)
		if !lacking(&d.other, other) {
			e.offer(Change{d.base.label(), "volume", float64(d.base.Volume), base, "L"}, true)
		}
	}
	if d.total > 0 {
		e.offer(Change{"", "vessel", d.total, part * d.total, "L"}, false)
		return
	}
	if !fits {
		volume := d.masses(base, other).Volume()
		part = min(part, d.room/volume)
		if !lacking(&d.other, other) {
			e.offer(Change{"", "vessel", d.room, volume, "L"}, true)
		}
	}
	e.offer(Change{d.base.label(), "volume", base, part * base, "L"}, false)
}

// offerContent offers the least change of the other liquid's own strength (or
// extract) that would do within stock and vessel.
func (d *duo) offerContent(e *UnreachableError, near *end) {
	from := d.want.ofComponent(&d.other)
	up := near.value < d.want.value
	open := near.volumes == nil
	if near.parts[1] == 0 { // nearest without it: what it is made of counts where there is much of it
		base, other, ends, err := d.endAmounts(true)
		if err != nil {
			return
		}
		f := d.pour(base, other)
		near, open = &end{mixture: f.Result, parts: amounts{base, other}, value: d.want.of(f.Result)}, !ends
	}
	if open {
		d.offerBeyond(e, from, up)
		return
	}
	t := *d
	set := func(to float64) (err error) {
		d.want.set(&t.other, to)
		t.o, err = t.other.perLitre()
		return err
	}
	far := near.parts[1] > 0
	s := search{from: from, end: d.want.endOf(&d.other, up), want: d.want.value,
		at: near.value, part: near.parts[1] / float64(near.mixture.Volume)}
	to, ok := s.find(func(to float64) (float64, error) {
		if err := set(to); err != nil {
			return 0, err
		}
		return t.endValue(far)
	})
	if !ok {
		return
	}
	c := Change{d.other.label(), d.want.quantity.String(), from, to, d.want.quantity.unit()}
	if c.round(up); set(c.To) == nil {
		if share, ok := t.share(); ok && t.within(t.amounts(share)) {
			e.Changes = append(e.Changes, c)
		}
	}
}

// offerBeyond is offerContent for a liquid without limit: it does as soon as it is
// on the other side of the want.
func (d *duo) offerBeyond(e *UnreachableError, from float64, up bool) {
	want, end := d.want.value, d.want.endOf(&d.other, up)
	c := Change{d.other.label(), d.want.quantity.String(), from, want, d.want.quantity.unit()}
	if c.round(up); c.To == want {
		c.To += (want - from) * 1e-6
		c.round(up)
	}
	if up && c.To > want && c.To <= end || !up && c.To < want && c.To >= end {
		e.Changes = append(e.Changes, c)
	}
}
