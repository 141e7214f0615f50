package blend_test

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

func TestFortifyUnreachable(t *testing.T) {
	weak := blend.Component{Name: "liqueur", Strength: 18}
	_, err := blend.Fortify(cherry, weak, 20)
	var u *blend.UnreachableError
	if !errors.As(err, &u) || !errors.Is(err, blend.ErrUnreachable) || u.Limit != blend.LimitContent || math.Abs(u.High-18) > 1e-9 || math.Abs(u.Low-6.094) > 1e-9 {
		t.Fatalf("a weak spirit: %v", err)
	}

	short := vodka
	short.Volume = 0.15
	_, err = blend.Fortify(cherry, short, 20)
	all, _ := blend.Mix(cherry, short)
	if !errors.As(err, &u) || u.Limit != blend.LimitStock || math.Abs(u.High-float64(all.Strength)) > 1e-9 || u.Nearest != all {
		t.Fatalf("too little spirit: %v", err)
	}
	t.Log(err)
	proves(t, u, func(c blend.Change) (blend.Mixture, error) {
		b, s := cherry, short
		switch {
		case c.Component == "spirit 40" && c.Quantity == "volume":
			s.Volume = units.Volume(c.To)
		case c.Component == "spirit 40" && c.Quantity == "strength":
			s.Strength = units.Strength(c.To)
		case c.Component == "cherry" && c.Quantity == "volume":
			b.Volume = units.Volume(c.To)
		}
		f, err := blend.Fortify(b, s, 20)
		return f.Result, err
	}, 2)

	jar := blend.Vessel{Size: 1.3, Headspace: 0.05}
	_, err = blend.FortifyIn(jar, cherry, vodka, 20)
	if !errors.As(err, &u) || u.Limit != blend.LimitVessel || math.Abs(float64(u.Nearest.Volume)-1.25) > 1e-9 {
		t.Fatalf("a small jar: %v", err)
	}
	t.Log(err)
	proves(t, u, func(c blend.Change) (blend.Mixture, error) {
		b, s, v := cherry, vodka, jar
		switch {
		case c.Quantity == "vessel":
			v.Size = units.Volume(c.To) + v.Headspace
		case c.Component == "spirit 40" && c.Quantity == "strength":
			s.Strength = units.Strength(c.To)
		case c.Component == "cherry" && c.Quantity == "volume":
			b.Volume = units.Volume(c.To)
		}
		f, err := blend.FortifyIn(v, b, s, 20)
		return f.Result, err
	}, 2)

	_, err = blend.FortifyTo(3, cherry, vodka, 20)
	if !errors.As(err, &u) || u.Limit != blend.LimitStock {
		t.Fatalf("too little base: %v", err)
	}
	t.Log(err)
	proves(t, u, func(c blend.Change) (blend.Mixture, error) {
		b, s, v := cherry, vodka, units.Volume(3)
		switch {
		case c.Quantity == "vessel":
			v = units.Volume(c.To)
		case c.Component == "spirit 40":
			s.Strength = units.Strength(c.To)
		case c.Component == "cherry":
			b.Volume = units.Volume(c.To)
		}
		f, err := blend.FortifyTo(v, b, s, 20)
		return f.Result, err
	}, 2)
}

// proves makes each change, and sees that it does what it says.
func proves(t *testing.T, u *blend.UnreachableError, with func(blend.Change) (blend.Mixture, error), least int) {
	t.Helper()
	if len(u.Changes) < least {
		t.Errorf("%d changes are named, want %d: %v", len(u.Changes), least, u)
	}
	for _, c := range u.Changes {
		if m, err := with(c); err != nil || math.Abs(float64(m.Strength)-20) > 1e-9 {
			t.Errorf("%v: %v % v", c, m.Strength, err)
		}
	}
}
