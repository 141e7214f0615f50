package blend

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/units"
)

// someDuo is two liquids in one of the three ways: all of the base without end, in
// a vessel, or both to a total.
func someDuo(r *rand.Rand) duo {
	d := duo{base: someLiquid(r, false), other: someLiquid(r, false), room: math.Inf(1)}
	d.base.Name, d.other.Name = "base", "other"
	d.base.Volume = units.Volume(0.5 + 3*r.Float64())
	if r.IntN(2) == 0 {
		d.other.Volume = units.Volume(0.1 + 3*r.Float64())
	}
	switch r.IntN(3) {
	case 0:
		d.total, d.room = 0.5+4*r.Float64(), 0
		if r.IntN(2) == 0 {
			d.base.Volume = 0
		}
	case 1:
		d.room = float64(d.base.Volume) * (1 + r.Float64())
	}
	d.want = WantStrength(units.Strength(30 * r.Float64()))
	if r.IntN(2) == 0 {
		d.want = WantExtract(units.Concentration(200 * r.Float64()))
	}
	return d
}

// filled is how many litres of one liquid fill up some of another to a volume, by
// bisection of what Mix makes.
func filled(t *testing.T, with, there Component, to float64) float64 {
	lo, hi := 0.0, 2*to
	for range 60 {
		middle := (lo + hi) / 2
		with.Volume = units.Volume(middle)
		m, err := Mix(there, with)
		if err != nil && !errors.Is(err, ErrNothing) {
			t.Fatal(err)
		}
		if float64(m.Volume) < to {
			lo = middle
		} else {
			hi = middle
		}
	}
	return lo
}

// ends of a duo, by Mix: with as little and as much of the other liquid as can be.
// Without limit the much is the other liquid itself.
func (d *duo) mixedEnds(t *testing.T) (values [2]float64) {
	for k := range values {
		b, o := d.base, d.other
		stock := func(c *Component, most float64) units.Volume {
			if c.Volume == 0 {
				return units.Volume(most)
			}
			return min(c.Volume, units.Volume(most))
		}
		switch {
		case d.total > 0 && k == 0:
			b.Volume = stock(&b, d.total)
			o.Volume = stock(&o, filled(t, o, b, d.total))
		case d.total > 0:
			o.Volume = stock(&o, d.total)
			b.Volume = stock(&b, filled(t, b, o, d.total))
		case k == 0:
			o.Volume = 0
		case !math.IsInf(d.room, 1):
			o.Volume = stock(&o, filled(t, o, b, d.room))
		case o.Volume == 0:
			b.Volume, o.Volume = 0, 1
		}
		m, err := Mix(b, o)
		if err != nil {
			t.Fatal(err)
		}
		values[k] = d.want.of(m)
	}
	return values
}

// The ends of two liquids are what Mix makes of as little and as much of the second
// as stock, vessel and total allow, and the nearest is the nearer of them.
func TestEndsOfTwoLiquidsAreMixed(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	missed := 0
	for i := range 2000 * *problems {
		d := someDuo(r)
		_, err := meet(d)
		var u *UnreachableError
		if !errors.As(err, &u) {
			if err != nil {
				t.Fatalf("%d: %v", i, err)
			}
			continue
		}
		missed++
		ends := d.mixedEnds(t)
		low, high := min(ends[0], ends[1]), max(ends[0], ends[1])
		if math.Abs(u.Low-low) > 1e-9*(1+low) || math.Abs(u.High-high) > 1e-9*(1+high) {
			t.Errorf("%d: %v; Mix makes %.12g to %.12g\n%+v", i, u, low, high, d)
		}
		near, far := d.want.of(u.Nearest), u.Low
		if near == u.Low {
			far = u.High
		}
		if near != u.Low && near != u.High || math.Abs(near-d.want.value) > math.Abs(far-d.want.value)+1e-9*near {
			t.Errorf("%d: %v, nearest %v\n%+v", i, u, near, d)
		}
		if u.Volumes == nil {
			continue
		}
		b, o := d.base, d.other
		b.Volume, o.Volume = u.Volumes[0], u.Volumes[1]
		if lacking(&d.base, float64(b.Volume)) || lacking(&d.other, float64(o.Volume)) {
			t.Errorf("%d: %v pours %v", i, u, u.Volumes)
		}
		if m, err := Mix(b, o); err != nil || m != u.Nearest {
			t.Errorf("%d: %v make %+v, not %+v", i, u.Volumes, m, u.Nearest)
		}
	}
	if missed < 500 {
		t.Errorf("only %d not reachable", missed)
	}
}

// lesser is a change that goes a little less far, beyond the rounding of its four
// digits; false where nothing is left of it.
func (c Change) lesser() (to float64, ok bool) {
	step := 0.02*math.Abs(c.To-c.From) + 2e-3*c.To
	return c.To - math.Copysign(step, c.To-c.From), step < math.Abs(c.To-c.From)
}

// A change is the least that does: what goes 2 % less far does not.
func TestNoLesserChangeOfTwoLiquidsDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	tried := map[string]int{}
	for i := range 2000 * *problems {
		d := someDuo(r)
		_, err := meet(d)
		var u *UnreachableError
		if !errors.As(err, &u) {
			continue
		}
		for _, c := range u.Changes {
			to, ok := c.lesser()
			if !ok {
				continue
			}
			tried[c.Component+c.Quantity]++
			e := d
			of := map[string]*Component{"base": &e.base, "other": &e.other}[c.Component]
			switch c.Quantity {
			case "volume":
				of.Volume = units.Volume(to)
			case "vessel":
				if e.total > 0 {
					e.total = to
				} else {
					e.room = to
				}
			default:
				e.want.set(of, to)
			}
			if f, err := meet(e); err == nil {
				t.Errorf("%d: %v, but %v does: %v and %v\n%+v", i, c, to, f.Base, f.Spirit, d)
			}
		}
	}
	for _, kind := range []string{"basevolume", "othervolume", "vessel", "otherstrength", "otherextract"} {
		if tried[kind] < 20 {
			t.Errorf("only %d of %s", tried[kind], kind)
		}
	}
}

// Water thins to any strength but none.
func TestNothingIsDilutedToNothing(t *testing.T) {
	wine := Component{Name: "wine", Volume: 2, Strength: 12, Extract: 20}
	_, err := DiluteTo(wine, Component{Name: "water"}, 0)
	var u *UnreachableError
	if !errors.As(err, &u) || u.Low != 0 || math.Abs(u.High-12) > 1e-9 || u.Volumes != nil {
		t.Errorf("%v", err)
	}
}

// What is poured meets the want as Mix counts it, keeps to the stocks, fills the
// total and fits the vessel.
func TestWhatTwoLiquidsPourIsWhatMixMakes(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	met := 0
	for i := range 2000 * *problems {
		d := someDuo(r)
		f, err := meet(d)
		if err != nil {
			continue
		}
		met++
		b, o := d.base, d.other
		b.Volume, o.Volume = f.Base, f.Spirit
		m, err := Mix(b, o)
		if err != nil || math.Abs(d.want.of(m)-d.want.value) > 1e-9*d.want.value {
			t.Errorf("%d: %v makes %v, %v", i, d.want, d.want.of(m), err)
		}
		if d.total > 0 && math.Abs(float64(m.Volume)-d.total) > 1e-12*d.total ||
			d.total == 0 && (f.Base != d.base.Volume || float64(m.Volume) > d.room*slack) ||
			lacking(&d.base, float64(f.Base)) || lacking(&d.other, float64(f.Spirit)) {
			t.Errorf("%d: %v and %v make %v\n%+v", i, f.Base, f.Spirit, m.Volume, d)
		}
	}
	if met < 200 {
		t.Errorf("only %d met", met)
	}
}
