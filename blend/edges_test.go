package blend_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The ends of what is taken, and a little beyond each.
func TestEndsOfInputs(t *testing.T) {
	volume := func(v units.Volume, err error) (float64, error) { return float64(v), err }
	mixed := func(c blend.Component) (float64, error) {
		m, err := blend.Mix(cherry, c)
		return float64(m.Volume), err
	}
	of := func(set func(c *blend.Component, x float64)) func(x float64) (float64, error) {
		return func(x float64) (float64, error) {
			c := blend.Component{Name: "jar 3", Volume: 1, Strength: 12, Extract: 20}
			set(&c, x)
			return mixed(c)
		}
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "volume", Of: of(func(c *blend.Component, x float64) { c.Volume = units.Volume(x) }), Good: []float64{0, 1e12}, Bad: []float64{-1, 1.001e12}},
		{Name: "cost", Of: of(func(c *blend.Component, x float64) { c.Cost = x }), Good: []float64{0, 1e12}, Bad: []float64{-1, 1.001e12}},
		{Name: "acid", Of: of(func(c *blend.Component, x float64) { c.Acid = units.Concentration(x) }), Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "potassium", Of: of(func(c *blend.Component, x float64) { c.Potassium = units.Concentration(x) }), Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "known content", Of: func(x float64) (float64, error) {
			c, err := blend.Mixture{Acid: units.Concentration(x)}.Known(blend.Acid)
			return float64(c), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "size of a vessel", Of: func(x float64) (float64, error) { return volume(blend.Vessel{Size: units.Volume(x)}.Room()) }, Good: []float64{1e-9, 1e12}, Bad: []float64{0.99e-9, 1.001e12}},
		{Name: "mass of wood", Of: func(x float64) (float64, error) { return volume(blend.WoodDisplaces(units.Mass(x), 700)) }, Good: []float64{0, 1e9}, Bad: []float64{-1, 1.001e9}},
		{Name: "density of wood", Of: func(x float64) (float64, error) { return volume(blend.WoodDisplaces(35, units.Density(x))) }, Good: []float64{300, 1500}, Bad: []float64{299, 1501}},
		{Name: "topped up to", Of: func(x float64) (float64, error) {
			f, err := blend.TopUp(blend.Component{Strength: 10}, vodka, units.Volume(x))
			return float64(f.Spirit), err
		}, Good: []float64{1e-9, 1000}, Bad: []float64{0.99e-9, 1.001e12}},
		{Name: "volume to fill", Of: func(x float64) (float64, error) {
			f, err := blend.FortifyTo(units.Volume(x), blend.Component{Strength: 10}, vodka, 20)
			return float64(f.Spirit), err
		}, Good: []float64{1e-9, 1000}, Bad: []float64{0.99e-9, 1.001e12}},
		{Name: "size of a blend", Of: func(x float64) (float64, error) {
			r, err := blend.Solve(units.Volume(x), []blend.Component{{Strength: 10}, vodka}, blend.WantStrength(20))
			return float64(r.Result.Volume), err
		}, Good: []float64{1e-9, 1000}, Bad: []float64{0.99e-9, 1.001e12}},
		{Name: "size of a bottle", Of: func(x float64) (float64, error) {
			plan, _, err := blend.Bottles(0.5, units.Volume(x))
			return float64(len(plan)), err
		}, Good: []float64{1e-3, 1e12}, Bad: []float64{0.99e-3, 1.001e12}},
		{Name: "reading of a blend", Of: func(x float64) (float64, error) {
			f, err := blend.Explain(cherry, vodkaLitre, gravity.SG(x), blend.Uncertainty{Strength: 0.3}, blend.Uncertainty{}, 0.0005)
			return float64(f.Expected.Volume), err
		}, Good: []float64{0.79, 1.35}, Bad: []float64{0.789, 1.351}},
		{Name: "portions", Of: func(x float64) (float64, error) {
			if x != math.Trunc(x) || math.IsInf(x, 0) {
				x = -1
			}
			states, err := blend.Portions(cherry, strong, 20, int(x))
			return float64(len(states)), err
		}, Good: []float64{1, 100}, Bad: []float64{0, 101}},
	})
}

var vodkaLitre = blend.Component{Name: "vodka", Volume: 1, Strength: 40}

// A refusal states the bounds that are in force.
func TestRefusalsStateTheirBounds(t *testing.T) {
	for _, x := range []struct {
		name     string
		err      func() error
		min, max float64
	}{
		{"volume", func() error { _, err := blend.Mix(blend.Component{Volume: -1}); return err }, 0, 1e12},
		{"cost", func() error { _, err := blend.Mix(blend.Component{Volume: 1, Cost: -1}); return err }, 0, 1e12},
		{"acid", func() error { _, err := blend.Mix(blend.Component{Volume: 1, Acid: -1}); return err }, 0, 1000},
		{"nothing to fortify", func() error { _, err := blend.Fortify(blend.Component{Strength: 6}, vodka, 20); return err }, 1e-9, 1e12},
		{"no size", func() error { _, err := blend.Solve(0, []blend.Component{vodka}); return err }, 1e-9, 1e12},
		{"all of nothing", func() error { _, err := blend.Solve(0, []blend.Component{vodka}, blend.WantAll(0)); return err }, 1e-9, 1e12},
		{"no such component", func() error { _, err := blend.Solve(0, []blend.Component{vodka, strong}, blend.WantAll(7)); return err }, 0, 1},
		{"components", func() error { _, err := blend.Solve(1, make([]blend.Component, 17)); return err }, 1, 16},
		{"strength", func() error { _, err := blend.Fortify(cherry, strong, 101); return err }, 0, 100},
		{"wanted acid", func() error { _, err := blend.Solve(1, []blend.Component{vodka}, blend.WantAcid(1001)); return err }, 0, 1000},
		{"wanted strength", func() error {
			_, err := blend.Solve(1, []blend.Component{vodka}, blend.WantStrength(100.5))
			return err
		}, 0, 100},
		{"solute", func() error { _, err := blend.Mixture{}.Known(blend.Solute(9)); return err }, 0, 3},
		{"bottles", func() error { _, _, err := blend.Bottles(1001, 0.001); return err }, 0, 1e6},
		{"vessel", func() error { _, err := blend.Vessel{Size: 1, Headspace: 0.7, Displaced: 0.5}.Room(); return err }, 0, 1},
		{"hand check", func() error {
			_, err := blend.Alligation(blend.Component{Volume: 1, Strength: 20}, blend.Component{Strength: 20}, 20)
			return err
		}, 1e-6, 100},
	} {
		var r *units.RangeError
		if err := x.err(); !errors.As(err, &r) || r.Min != x.min || r.Max != x.max {
			t.Errorf("%s: %v, want %v to %v", x.name, err, x.min, x.max)
		}
	}
	var r *units.RangeError
	if _, err := (blend.Vessel{Size: 1, Headspace: 0.7, Displaced: 0.5}).Room(); !errors.As(err, &r) || math.Abs(r.Value-1.2) > 1e-12 {
		t.Errorf("headspace and wood: %v", err)
	}
}

// A million bottles of a millilitre are filled, one more is not.
func TestAMillionBottles(t *testing.T) {
	plan, rest, err := blend.Bottles(1000, 0.001)
	if err != nil || len(plan) != 1 || plan[0].Count != 1000000 || rest > 1e-9 {
		t.Errorf("%v, %v, %v", plan, rest, err)
	}
	if plan, _, err := blend.Bottles(1000.001, 0.001); err == nil {
		t.Errorf("%v", plan)
	}
}

// OIML R 22 prints 984.95 kg/m3 for 12 % vol at 5 C and 979.28 at 30 C; with about
// 982.4 at 20 C it is 12 x 789.24/982.4 = 9.64 % mass. At -15 C ice is in it, and
// the refusal states the strength from which there is none.
func TestAFrozenLiquidIsRefused(t *testing.T) {
	_, err := blend.Component{Name: "must", Volume: 1, Strength: 12}.MeasuredAt(units.Celsius(-15))
	var r *units.RangeError
	if !errors.As(err, &r) || math.Abs(r.Value-9.64) > 0.01 || r.Max != 100 || !strings.Contains(err.Error(), "9.64 % mass is partly frozen at -15 C") {
		t.Fatalf("%v", err)
	}
	for by, taken := range map[float64]bool{0.001: true, -0.001: false} {
		s, err := abv.ByVolume(units.MassPercent(r.Min + by))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := (blend.Component{Volume: 1, Strength: s}).MeasuredAt(units.Celsius(-15)); (err == nil) != taken {
			t.Errorf("%v %% mass from the bound: %v", by, err)
		}
	}
}

// A liquid from 30 % vol is taken for a spirit, which has no extract that it does
// not state.
func TestASpiritBeginsAtThirty(t *testing.T) {
	for text, spirit := range map[string]bool{"1 L at 29.9 % vol": false, "1 L at 30 % vol": true} {
		p, err := blend.ParsePoured(text)
		if err != nil || p.Spirit() != spirit || p.ExtractNotKnown == spirit {
			t.Errorf("%q: %+v, %v", text, p, err)
		}
	}
}

// Numbers of a change are written as people write them, to four digits below ten
// thousand and from a thousand millions upward.
func TestDigitsOfAChange(t *testing.T) {
	for to, want := range map[float64]string{9999: "9999 L", 10100: "10100 L", 0.99e9: "990000000 L", 1.01e9: "1.01e+09 L"} {
		c := blend.Change{Quantity: "vessel", From: 1, To: to, Unit: "L"}
		if s := c.String(); s != "with "+want+" in the vessel instead of 1" {
			t.Errorf("%v: %q", to, s)
		}
	}
	if s := blend.WantAll(12).String(); s != "all of component 12" {
		t.Errorf("%q", s)
	}
}

// In the hand check the target stands in the column of the strengths, and the
// parts of both liquids below one another.
func TestColumnsOfTheHandCheck(t *testing.T) {
	base, spirit := blend.Component{Name: "wine", Volume: 3, Strength: 6}, blend.Component{Name: "spirit", Strength: 75}
	q, err := blend.Alligation(base, spirit, 20)
	if err != nil {
		t.Fatal(err)
	}
	ends := func(line, word string) int {
		i := strings.Index(line, word)
		if i < 0 {
			t.Fatalf("no %q in %q", word, line)
		}
		return i + len(word)
	}
	if ends(q.Working[0], " 55") != ends(q.Working[2], " 14") || ends(q.Working[0], " 6") != ends(q.Working[2], " 75") {
		t.Errorf("columns:\n%s", fmt.Sprint(strings.Join(q.Working, "\n")))
	}
	if from := ends(q.Working[0], " 6"); ends(q.Working[1], " 20") <= from || ends(q.Working[1], " 20") >= ends(q.Working[0], " 55") {
		t.Errorf("the target is not between strengths and parts:\n%s", strings.Join(q.Working, "\n"))
	}
}
