package blend_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// A syrup thought to hold 880 g/L that holds 930 is found, for water takes up to
// 943 g/L (70 % mass of 1347 kg/m3); and wine of 20 % vol, which takes less.
func TestAnExplanationGoesAsFarAsTheLiquidExists(t *testing.T) {
	for _, x := range []struct {
		name           string
		assumed, truly blend.Component
	}{
		{"syrup", blend.Component{Name: "syrup", Volume: 1, Extract: 880}, blend.Component{Name: "syrup", Volume: 1, Extract: 930}},
		{"sweetened wine", blend.Component{Name: "wine", Volume: 1, Strength: 20, Extract: 400}, blend.Component{Name: "wine", Volume: 1, Strength: 20, Extract: 600}},
	} {
		other := blend.Component{Name: "spirit 40", Strength: 40, Volume: 0.5}
		for _, isBase := range []bool{true, false} {
			base, spirit, ofBase, ofSpirit, read := x.assumed, other, blend.Uncertainty{Extract: 20}, blend.Uncertainty{}, x.truly
			if !isBase {
				base, spirit, ofBase, ofSpirit = other, x.assumed, blend.Uncertainty{}, blend.Uncertainty{Extract: 20}
			}
			m, err := blend.Mix(read, other)
			if err != nil {
				t.Fatal(err)
			}
			f, err := blend.Explain(base, spirit, m.Gravity, ofBase, ofSpirit, 0.0005)
			if err != nil || len(f.Explanations) != 1 || math.Abs(f.Explanations[0].To-float64(x.truly.Extract)) > 1e-4 {
				t.Errorf("%s of %v: %+v, %v", x.name, x.truly.Extract, f.Explanations, err)
			}
		}
	}
}

// A volume may be up to twenty times all that was thought poured, down to next to
// none; a strength up to what the liquid can be, pure or beside its extract.
func TestAnExplanationGoesToTheEndsOfItsQuantity(t *testing.T) {
	wine, spirit := blend.Component{Name: "wine", Volume: 1, Strength: 6, Extract: 140}, blend.Component{Name: "spirit", Volume: 0.5, Strength: 40}
	water, pure := blend.Component{Name: "water", Volume: 1}, blend.Component{Name: "alcohol", Volume: 1, Strength: 95}
	liqueur := blend.Component{Name: "liqueur", Volume: 1, Strength: 40, Extract: 300} // up to 70 % vol
	for _, x := range []struct {
		base, spirit blend.Component
		isBase       bool
		quantity     string
		truly        float64
		found        bool
	}{
		{wine, spirit, true, "volume", 29.9, true}, {wine, spirit, true, "volume", 30.1, false}, {wine, spirit, true, "volume", 0.01, true},
		{wine, spirit, false, "volume", 29.9, true}, {wine, spirit, false, "volume", 30.1, false}, {wine, spirit, false, "volume", 0.01, true},
		{pure, water, true, "strength", 99.9, true}, {water, pure, false, "strength", 99.9, true}, {pure, water, true, "strength", 0.05, true},
		{liqueur, water, true, "strength", 69, true}, {water, liqueur, false, "strength", 69, true},
		{wine, spirit, true, "extract", 0.05, true}, {spirit, wine, false, "extract", 0.05, true},
	} {
		one, u := blend.Uncertainty{}, map[bool]*blend.Uncertainty{true: {}, false: {}}
		truly := map[bool]*blend.Component{true: &x.base, false: &x.spirit}
		base, spirit := x.base, x.spirit
		switch c := truly[x.isBase]; x.quantity {
		case "volume":
			c.Volume, one.Volume = units.Volume(x.truly), 0.01
		case "strength":
			c.Strength, one.Strength = units.Strength(x.truly), 0.1
		case "extract":
			c.Extract, one.Extract = units.Concentration(x.truly), 1
		}
		*u[x.isBase] = one
		m, err := blend.Mix(x.base, x.spirit)
		if err != nil {
			t.Fatal(err)
		}
		f, err := blend.Explain(base, spirit, m.Gravity, *u[true], *u[false], 0.0001)
		if found := len(f.Explanations) == 1; err != nil || found != x.found || found && math.Abs(f.Explanations[0].To-x.truly) > 1e-6 {
			t.Errorf("%s of %s and %s, base %v, of %v: %+v, %v", x.quantity, x.base.Name, x.spirit.Name, x.isBase, x.truly, f.Explanations, err)
		}
	}
}

// One of two liquids was other than thought: that is among the explanations, with
// as many deviations as it was off, and each of them gives the reading.
func TestTheErrorThatWasMadeIsAmongTheExplanations(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	ofBase, ofSpirit := blend.Uncertainty{Volume: 0.05, Strength: 0.3, Extract: 3}, blend.Uncertainty{Volume: 0.02, Strength: 0.2, Extract: 2}
	for i := range 300 {
		base := blend.Component{Name: "wine", Volume: units.Volume(1 + r.Float64()), Strength: units.Strength(5 + 8*r.Float64()), Extract: units.Concentration(60 + 100*r.Float64())}
		spirit := blend.Component{Name: "spirit", Volume: units.Volume(0.2 + r.Float64()), Strength: units.Strength(40 + 40*r.Float64()), Extract: units.Concentration(5 + 10*r.Float64())}
		truly := [2]blend.Component{base, spirit}
		isBase := r.IntN(2)
		c, u := &truly[1-isBase], [2]blend.Uncertainty{ofBase, ofSpirit}[1-isBase]
		part := 0.7 + 0.6*r.Float64()
		quantity, to, standard := "volume", float64(c.Volume)*part, float64(u.Volume)
		switch r.IntN(3) {
		case 0:
			c.Volume = units.Volume(to)
		case 1:
			quantity, to, standard = "strength", float64(c.Strength)*part, float64(u.Strength)
			c.Strength = units.Strength(to)
		case 2:
			quantity, to, standard = "extract", float64(c.Extract)*part, float64(u.Extract)
			c.Extract = units.Concentration(to)
		}
		m, err := blend.Mix(truly[:]...)
		if err != nil {
			t.Fatal(err)
		}
		f, err := blend.Explain(base, spirit, m.Gravity, ofBase, ofSpirit, 0.0005)
		if err != nil {
			t.Fatal(err)
		}
		found, before := false, 0.0
		for _, e := range f.Explanations {
			if e.Deviations < before {
				t.Errorf("%d: %v deviations after %v", i, e.Deviations, before)
			}
			before = e.Deviations
			if math.Abs(float64(e.Result.Gravity-m.Gravity)) > 1e-9 {
				t.Errorf("%d: %+v does not give %v", i, e, m.Gravity)
			}
			if e.Component == c.Name && e.Quantity == quantity {
				found = true
				if math.Abs(e.To-to) > 1e-6*to || math.Abs(e.Deviations-math.Abs(to-e.From)/standard) > 1e-4*(1+e.Deviations) {
					t.Errorf("%d: %+v, want %v", i, e, to)
				}
			}
		}
		if !found {
			t.Errorf("%d: %s of %s, %v, is not among %+v", i, quantity, c.Name, to, f.Explanations)
		}
	}
}

// The standard uncertainty of the difference is that of the reading, of the model
// and of every input, each by how far the gravity moves with it.
func TestTheDifferenceIsAsUncertainAsWhatItIsOf(t *testing.T) {
	base, spirit := cherry, strong
	spirit.Volume, spirit.Extract = 0.25, 10
	all := []blend.Uncertainty{{Volume: 0.01}, {Strength: 0.2}, {Extract: 3}}
	standard := func(ofBase, ofSpirit blend.Uncertainty, ofReading gravity.SG) float64 {
		f, err := blend.Explain(base, spirit, 1.03, ofBase, ofSpirit, ofReading)
		if err != nil {
			t.Fatal(err)
		}
		return float64(f.Standard)
	}
	m, err := blend.Mix(base, spirit)
	if err != nil {
		t.Fatal(err)
	}
	model := spread(m) * float64(m.Gravity)
	near(t, "the model alone", standard(blend.Uncertainty{}, blend.Uncertainty{}, 0), model, 1e-6)
	near(t, "with a reading", standard(blend.Uncertainty{}, blend.Uncertainty{}, 0.0005), math.Hypot(model, 0.0005), 1e-6)
	for i, u := range all {
		for _, isBase := range []bool{true, false} {
			ofBase, ofSpirit := u, blend.Uncertainty{}
			if !isBase {
				ofBase, ofSpirit = ofSpirit, u
			}
			var at [2]float64
			for k, side := range []float64{1, -1} {
				b, s := base, spirit
				c := &b
				if !isBase {
					c = &s
				}
				c.Volume += u.Volume * units.Volume(side)
				c.Strength += u.Strength * units.Strength(side)
				c.Extract += u.Extract * units.Concentration(side)
				m, err := blend.Mix(b, s)
				if err != nil {
					t.Fatal(err)
				}
				at[k] = float64(m.Gravity)
			}
			near(t, fmt.Sprintf("input %d, base %v", i, isBase), standard(ofBase, ofSpirit, 0), math.Hypot(model, (at[0]-at[1])/2), 1e-6)
		}
	}
}
