package gravity_test

import (
	"math"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// A scale as two functions through the pivot.
type scale struct {
	name   string
	of     func(gravity.SG) (float64, error)
	sg     func(float64) (gravity.SG, error)
	lo, hi float64 // domain in SG
}

func through[T ~float64](of func(gravity.SG) (T, error), sg func(T) (gravity.SG, error)) (func(gravity.SG) (float64, error), func(float64) (gravity.SG, error)) {
	return func(g gravity.SG) (float64, error) { x, err := of(g); return float64(x), err },
		func(x float64) (gravity.SG, error) { return sg(T(x)) }
}

const (
	heaviest = 1.34990 // 70 % sucrose is 1.349904
	lightest = 0.98105
)

func scales() []scale {
	var out []scale
	add := func(name string, lo float64, of func(gravity.SG) (float64, error), sg func(float64) (gravity.SG, error)) {
		out = append(out, scale{name, of, sg, lo, heaviest})
	}
	of, sg := through(gravity.SG.Plato, gravity.Plato.SG)
	add("Plato", 1, of, sg)
	of, sg = through(gravity.SG.ApparentExtract, gravity.Plato.ApparentSG)
	add("apparent extract", lightest, of, sg)
	of, sg = through(gravity.SG.Brix, gravity.Brix.SG)
	add("Brix", 1, of, sg)
	of, sg = through(gravity.SG.Oechsle, gravity.Oechsle.SG)
	add("Oechsle", 1, of, sg)
	of, sg = through(gravity.SG.Points, gravity.Points.SG)
	add("points", lightest, of, sg)
	of, sg = through(gravity.SG.Baume, gravity.Baume.SG)
	add("Baume 145", 1, of, sg)
	of, sg = through(gravity.SG.Baume1443, gravity.Baume1443.SG)
	add("Baume 144.3", 1, of, sg)
	of, sg = through(gravity.SG.Density, gravity.Of)
	add("density", 1, of, sg)
	of, sg = through(gravity.SG.Extract, gravity.OfExtract)
	add("g/L", 1, of, sg)
	for _, b := range []gravity.Basis{gravity.Basis20C, gravity.Basis20C4C, gravity.Basis60F, gravity.Basis15C, gravity.Basis17C5} {
		add("SG "+b.String(), lightest, b.Of, b.SG)
	}
	return out
}

// Every pair of scales, each way through the pivot and back.
func TestPairsOfScales(t *testing.T) {
	all := scales()
	for _, a := range all {
		for _, b := range all {
			for g := 1.0; g <= heaviest; g += 0.0349 {
				x, err := a.of(gravity.SG(g))
				if err != nil {
					t.Fatalf("%s of %g: %v", a.name, g, err)
				}
				there, err := a.sg(x)
				if err != nil {
					t.Fatalf("%s %g: %v", a.name, x, err)
				}
				y, err := b.of(there)
				if err != nil {
					t.Fatalf("%s %g to %s: %v", a.name, x, b.name, err)
				}
				back, err := b.sg(y)
				if err != nil {
					t.Fatalf("%s %g: %v", b.name, y, err)
				}
				z, err := a.of(back)
				if err != nil || math.Abs(z-x) > 1e-8*max(1, x) {
					t.Errorf("%s %.12g to %s %.12g and back: %.12g, %v", a.name, x, b.name, y, z, err)
				}
			}
		}
	}
}

// Every scale rises with gravity, refuses both sides of its domain and what is
// no number, and takes its ends.
func TestDomainOfScales(t *testing.T) {
	for _, s := range scales() {
		last := math.Inf(-1)
		for g := s.lo; g <= s.hi; g += 0.001 {
			x, err := s.of(gravity.SG(g))
			if err != nil || x <= last {
				t.Fatalf("%s of %g: %g after %g, %v", s.name, g, x, last, err)
			}
			last = x
		}
		for _, g := range []float64{s.lo - 0.0001, s.hi + 0.0001, 0, -1, 99, math.NaN(), math.Inf(1), math.Inf(-1)} {
			if x, err := s.of(gravity.SG(g)); !handbook.IsRange(err) || x != 0 {
				t.Errorf("%s of %g: %g, %v", s.name, g, x, err)
			}
		}
		lo, hi := s.lo, s.hi
		if s.name == "density" { // Of takes lighter liquids too
			lo = 0.7
		}
		xlo, xhi := endOf(t, s, lo), endOf(t, s, hi)
		for _, x := range []float64{xlo - 0.02*(xhi-xlo), xhi + 0.02*(xhi-xlo), math.NaN(), math.Inf(1), math.Inf(-1)} {
			if g, err := s.sg(x); !handbook.IsRange(err) || g != 0 {
				t.Errorf("SG of %s %g: %g, %v", s.name, x, float64(g), err)
			}
		}
	}
}

// endOf is the scale's value at g, by its slope where it does not reach.
func endOf(t *testing.T, s scale, g float64) float64 {
	t.Helper()
	if x, err := s.of(gravity.SG(g)); err == nil {
		return x
	}
	a, err := s.of(1)
	if err != nil {
		t.Fatal(err)
	}
	return a * g // density alone
}

func TestEndsOfScales(t *testing.T) {
	// The ends meet exactly: what a scale gives at its end it also takes.
	for _, g := range []gravity.SG{1, mustSG(t, 70)} {
		for _, s := range scales() {
			x, err := s.of(g)
			if err != nil {
				t.Errorf("%s of %v: %v", s.name, float64(g), err)
				continue
			}
			if back, err := s.sg(x); err != nil || math.Abs(float64(back-g)) > 1e-12 {
				t.Errorf("%s %v: %v, %v", s.name, x, float64(back), err)
			}
		}
	}
	if p, err := gravity.Plato(-5).ApparentSG(); err != nil {
		t.Error(err)
	} else if x, err := p.ApparentExtract(); err != nil || math.Abs(float64(x)+5) > 1e-9 {
		t.Errorf("-5 %% comes back as %v, %v", x, err)
	}
}

func mustSG(t *testing.T, b gravity.Brix) gravity.SG {
	t.Helper()
	g, err := b.SG()
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// What any basis has to do with 20/20: water is 1 on every x/x basis, and a basis
// is its own hydrometer at its own temperature.
func TestBasis(t *testing.T) {
	for _, b := range []gravity.Basis{gravity.Basis20C, gravity.Basis60F, gravity.Basis15C, gravity.Basis17C5} {
		if g, err := b.SG(1); err != nil || math.Abs(float64(g)-1) > 1e-12 {
			t.Errorf("water on %v: %v, %v", b, float64(g), err)
		}
	}
	for _, b := range []gravity.Basis{gravity.Basis20C4C, gravity.Basis60F, gravity.Basis15C, gravity.Basis17C5} {
		for r := 0.99; r < 1.3; r += 0.031 {
			g, err := b.SG(r)
			h, err2 := b.Hydrometer().Correct(gravity.SG(r), b.Liquid)
			if err != nil || err2 != nil || math.Abs(float64(g-h)) > 1e-12 {
				t.Errorf("%v %g: %v by the basis, %v by its hydrometer, %v, %v", b, r, float64(g), float64(h), err, err2)
			}
		}
	}
	for _, b := range []gravity.Basis{{units.Celsius(-1), units.Celsius(20)}, {units.Celsius(41), units.Celsius(20)}, {units.Celsius(20), units.Celsius(-1)}, {units.Celsius(20), units.Celsius(41)}, {units.Celsius(math.NaN()), units.Celsius(20)}, {units.Celsius(20), units.Celsius(math.Inf(1))}} {
		if _, err := b.SG(1.05); !handbook.IsRange(err) {
			t.Errorf("%v: %v", b, err)
		}
		if _, err := b.Of(1.05); !handbook.IsRange(err) {
			t.Errorf("%v: %v", b, err)
		}
		if x, err := b.Extract(1.05); !handbook.IsRange(err) || x != 0 {
			t.Errorf("%v: %v, %v", b, x, err)
		}
		if _, err := b.Hydrometer().Correct(1.05, units.Celsius(20)); !handbook.IsRange(err) {
			t.Errorf("hydrometer of %v: %v", b, err)
		}
	}
}

func TestBasisExtract(t *testing.T) {
	last := units.Concentration(-1)
	for r := 1.0; r < 1.35; r += 0.01 {
		x, err := gravity.Basis20C.Extract(r)
		want, err2 := gravity.SG(r).Extract()
		if err != nil || err2 != nil || math.Abs(float64(x-want)) > 1e-8 || x <= last {
			t.Errorf("%v: %v, by SG %v, %v, %v", r, float64(x), float64(want), err, err2)
		}
		last = x
	}
	for _, r := range []float64{0.999, 1.4, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if x, err := gravity.Basis15C.Extract(r); !handbook.IsRange(err) || x != 0 {
			t.Errorf("%v: %v, %v", r, x, err)
		}
	}
}

// The constant is the density that the formula gives at 20 C, to its last digit.
func TestWater20IsTheWaterOfTheFormula(t *testing.T) {
	if float64(gravity.Water20) != density.Water20 || density.Water20 != density.Water(20) {
		t.Errorf("%v, %v, %v", float64(gravity.Water20), density.Water20, density.Water(20))
	}
}
