package blend_test

import (
	"errors"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

func TestFortifyInAVessel(t *testing.T) {
	jar := blend.Vessel{Size: 2, Headspace: 0.1, Displaced: 0.02}
	f, err := blend.FortifyIn(jar, cherry, vodka, 20)
	if err != nil {
		t.Fatal(err)
	}
	free, _ := blend.Fortify(cherry, vodka, 20)
	if f != free {
		t.Errorf("a jar with room changes the blend: %+v, %+v", f, free)
	}
	if got, want := f.Share(), float64(f.Spirit/f.Result.Volume); got != want || got < 0.40 || got > 0.42 {
		t.Errorf("share of spirit %v", got)
	}
	for _, v := range []blend.Vessel{{}, {Size: 1, Headspace: 2}, {Size: units.Volume(math.NaN())}, {Size: 0.9}} {
		if _, err := blend.FortifyIn(v, cherry, vodka, 20); err == nil {
			t.Errorf("%+v: no error", v)
		}
	}
}

func TestPortionsAndTopUp(t *testing.T) {
	states, err := blend.Portions(cherry, strong, 20, 4)
	if err != nil {
		t.Fatal(err)
	}
	last := 6.094
	for i, s := range states {
		if float64(s.Result.Strength) <= last {
			t.Errorf("portion %d brings %v after %v", i+1, s.Result.Strength, last)
		}
		last = float64(s.Result.Strength)
	}
	if math.Abs(last-20) > 1e-9 {
		t.Errorf("the last portion brings %v", last)
	}
	if _, err := blend.Portions(cherry, strong, 20, 0); err == nil {
		t.Error("no portions: no error")
	}
	f, err := blend.TopUp(cherry, strong, 1.2398)
	if err != nil || math.Abs(float64(f.Result.Volume)-1.2398) > 1e-10 || math.Abs(float64(f.Result.Strength)-20) > 0.01 {
		t.Errorf("%+v, %v", f, err)
	}
	little := strong
	little.Volume = 0.1
	if _, err := blend.TopUp(cherry, little, 1.2398); err == nil {
		t.Error("topped up with what is not there")
	}
	if _, err := blend.TopUp(cherry, strong, 0.5); err == nil {
		t.Error("topped up to less than there is")
	}
}

func TestBottles(t *testing.T) {
	plan, rest, err := blend.Bottles(1.7, 0.375, 0.75)
	if err != nil || len(plan) != 1 || plan[0] != (blend.Bottle{Size: 0.75, Count: 2}) || math.Abs(float64(rest)-0.2) > 1e-12 {
		t.Errorf("%v, %v, %v", plan, rest, err)
	}
	plan, rest, err = blend.Bottles(2.25, 0.75)
	if err != nil || plan[0].Count != 3 || rest != 0 {
		t.Errorf("%v, %v, %v", plan, rest, err)
	}
	for _, v := range []units.Volume{-1, units.Volume(math.NaN()), 1e9} {
		if _, _, err := blend.Bottles(v, 0.001); err == nil {
			t.Errorf("%v: no error", v)
		}
	}
	if _, _, err := blend.Bottles(1, 0); err == nil {
		t.Error("bottles of nothing")
	}
}

// 1 L of 40 % vol bought at 20 C is less at 8 C, by OIML R 22 Table II.
func TestMeasuredAt(t *testing.T) {
	c, err := blend.Component{Name: "spirit", Volume: 1, Strength: 40}.MeasuredAt(units.Celsius(8))
	p := density.ByMass(40)
	if want := density.Ethanol(p, 8) / density.Ethanol(p, 20); err != nil || math.Abs(float64(c.Volume)-want) > 1e-12 {
		t.Errorf("%v, %v; want %v", c.Volume, err, want)
	}
	w, err := cherry.MeasuredAt(units.Celsius(30))
	if err != nil || w.Volume >= 1 || w.Volume < 0.995 {
		t.Errorf("a litre of wine at 30 C: %v, %v", w.Volume, err)
	}
	for _, at := range []units.Temperature{units.Celsius(-30), units.Celsius(50), units.Celsius(math.NaN()), units.Celsius(-15)} {
		if _, err := (blend.Component{Volume: 1, Strength: 12}).MeasuredAt(at); err == nil {
			t.Errorf("at %v: no error", at)
		}
	}
}

func TestWoodDisplaces(t *testing.T) {
	if v, err := blend.WoodDisplaces(35, 700); err != nil || math.Abs(v.In(units.Millilitre)-50) > 1e-12 {
		t.Errorf("35 g at 700 kg/m3: %v, %v", v, err)
	}
	if _, err := blend.WoodDisplaces(35, 0); err == nil {
		t.Error("wood without density")
	}
}

func TestExplain(t *testing.T) {
	bottle := vodka
	bottle.Volume = 0.7
	ofBase, ofSpirit := blend.Uncertainty{Strength: 0.3, Extract: 3}, blend.Uncertainty{Volume: 0.02, Strength: 0.17}
	good, _ := blend.Mix(cherry, bottle)
	f, err := blend.Explain(cherry, bottle, good.Gravity+0.0003, ofBase, ofSpirit, 0.0005)
	if err != nil || !f.Agrees {
		t.Fatalf("a good reading: %+v, %v", f, err)
	}
	// Half the spirit was poured.
	less := bottle
	less.Volume = 0.5
	wrong, _ := blend.Mix(cherry, less)
	f, err = blend.Explain(cherry, bottle, wrong.Gravity, ofBase, ofSpirit, 0.0005)
	if err != nil || f.Agrees || len(f.Explanations) < 2 {
		t.Fatalf("%+v, %v", f, err)
	}
	for _, e := range f.Explanations {
		if math.Abs(float64(e.Result.Gravity-wrong.Gravity)) > 1e-9 {
			t.Errorf("%+v does not explain %v", e, wrong.Gravity)
		}
		if e.Component == "spirit 40" && e.Quantity == "volume" && math.Abs(e.To-0.5) > 1e-6 {
			t.Errorf("the spirit poured would be %v L", e.To)
		}
	}
	r, err := blend.Repair(wrong, vodka, cherry, 20)
	if err != nil || math.Abs(float64(r.Result.Strength)-20) > 1e-9 || r.Spirit <= 0 {
		t.Errorf("%+v, %v", r, err)
	}
	r, err = blend.Repair(r.Result, vodka, cherry, 15)
	if err != nil || math.Abs(float64(r.Result.Strength)-15) > 1e-9 {
		t.Errorf("%+v, %v", r, err)
	}
	for _, reading := range []float64{math.NaN(), math.Inf(1), 0.5, 2} {
		if _, err := blend.Explain(cherry, bottle, gravity.SG(reading), ofBase, ofSpirit, 0.0005); err == nil {
			t.Errorf("reading %v: no error", reading)
		}
	}
}

func TestMixWithin(t *testing.T) {
	bottle := strong
	bottle.Volume = 0.25
	uncertain := []blend.Uncertainty{{Volume: 0.01, Strength: 0.2, Extract: 3}, {Volume: 0.005, Strength: 0.17}}
	s, err := blend.MixWithin([]blend.Component{cherry, bottle}, uncertain)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.Strength.Value-float64(s.Mixture.Strength)) > 1e-12 || s.Strength.Standard < 0.3 || s.Strength.Standard > 0.5 {
		t.Errorf("strength %v", s.Strength)
	}
	// By hand: the spirit's volume moves the strength by (75-20)/1.24 a litre.
	if top := s.Strength.Ranked()[0]; top.Name != "volume of spirit 75, L" || math.Abs(top.Sensitivity-(75-20.04)/1.24) > 0.02*44.3 { // partial volumes differ by 2 % {
		t.Errorf("largest contribution %+v", top)
	}
	if s.Gravity.Standard <= 0 || s.Volume.Standard < 0.011 || s.Extract.Standard < 2 {
		t.Errorf("%v %v %v", s.Gravity, s.Volume, s.Extract)
	}
	if _, err := blend.MixWithin([]blend.Component{cherry, bottle}, uncertain[:1]); err == nil {
		t.Error("an uncertainty is missing: no error")
	}
	f, amount, err := blend.FortifyWithin(cherry, strong, 20, uncertain[0], uncertain[1])
	if err != nil || math.Abs(amount.Value-float64(f.Spirit)) > 1e-12 || amount.Standard < 0.002 || amount.Standard > 0.01 {
		t.Errorf("%v, %v", amount, err)
	}
}

func BenchmarkFortifyWithin(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := blend.FortifyWithin(cherry, strong, 20, blend.Uncertainty{Volume: 0.01, Strength: 0.2, Extract: 3}, blend.Uncertainty{Strength: 0.17}); err != nil {
			b.Fatal(err)
		}
	}
}

func TestFromMust(t *testing.T) {
	f, err := abv.MassBalance(1.092, 1.046, abv.Wort)
	if err != nil {
		t.Fatal(err)
	}
	c, err := blend.FromMust("cherry", 3, f, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	m, err := blend.Mix(c)
	if err != nil || math.Abs(float64(m.Gravity)-1.046) > 1e-9 || math.Abs(float64(m.Volume)-3*f.VolumeRatio+0.1) > 1e-9 {
		t.Errorf("3 L fermented to 1.046 are %v reading %v, %v", m.Volume, m.Gravity, err)
	}
	// What is lost of the must is carbon dioxide and yeast.
	whole, _ := blend.FromMust("cherry", 1, f, 0)
	wine, _ := blend.Mix(whole)
	if lost := 1.092*density.Water20 - float64(wine.Mass) - float64(f.CarbonDioxide+f.Yeast); math.Abs(lost) > 1e-9 {
		t.Errorf("%v g are lost", lost)
	}
	if _, err := blend.FromMust("cherry", 1, f, 2); err == nil {
		t.Error("more lees than wine")
	}
}

func TestBadComponents(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]blend.Component{
		"NaN volume":       {Volume: units.Volume(nan)},
		"infinite volume":  {Volume: units.Volume(math.Inf(1))},
		"negative volume":  {Volume: -1},
		"NaN strength":     {Volume: 1, Strength: units.Strength(nan)},
		"strength above":   {Volume: 1, Strength: 101},
		"negative extract": {Volume: 1, Extract: -1},
		"too much extract": {Volume: 1, Extract: 1200},
		"NaN acid":         {Volume: 1, Acid: units.Concentration(nan)},
		"negative sulfite": {Volume: 1, Sulfite: -1},
	} {
		c.Name = "jar 3"
		for what, run := range map[string]func() error{
			"Mix":       func() error { _, err := blend.Mix(cherry, c); return err },
			"Additive":  func() error { _, err := blend.Additive(cherry, c); return err },
			"Fortify":   func() error { _, err := blend.Fortify(cherry, c, 20); return err },
			"FortifyTo": func() error { _, err := blend.FortifyTo(1, c, strong, 20); return err },
			"Solve": func() error {
				_, err := blend.Solve(1, []blend.Component{c, strong}, blend.WantStrength(20))
				return err
			},
			"Alligation": func() error { _, err := blend.Alligation(c, strong, 20); return err },
			"Measured":   func() error { _, err := c.MeasuredAt(units.Celsius(20)); return err },
		} {
			var outside *units.RangeError
			if err := run(); !errors.As(err, &outside) {
				t.Errorf("%s, %s: %v", what, name, err)
			}
		}
	}
	if _, err := blend.Mix(); !errors.Is(err, blend.ErrNothing) {
		t.Errorf("nothing mixed: %v", err)
	}
	for _, target := range []units.Strength{units.Strength(nan), -1, 101} {
		if _, err := blend.Fortify(cherry, strong, target); err == nil {
			t.Errorf("to %v: no error", target)
		}
	}
}
