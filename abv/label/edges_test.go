package label_test

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"

	"example.org/mutage/abv/label"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// The ends of what is taken, and a little beyond each. Sucrose that is inverted
// weighs 5.3 % more: 100 g/L of extract may be 106 g/L of sugar.
func TestEndsOfInputs(t *testing.T) {
	classes := func(l label.Liquid) (float64, error) {
		c, err := label.Classes(l)
		return float64(c.Density), err
	}
	state := func(change func(r *label.Rule)) (float64, error) {
		r := label.Rule{Step: units.Round(0.1, 1)}
		change(&r)
		l, err := r.State(12)
		return l.Stated.InexactFloat64(), err
	}
	of := func(x float64) decimal.Decimal { return units.Round(x, 6) }
	handbook.Domains(t, []handbook.Domain{
		{Name: "sugar", Of: func(x float64) (float64, error) {
			return classes(label.Liquid{Strength: 12, Extract: 100, SugarHigh: units.Concentration(x)})
		}, Good: []float64{0, 106}, Bad: []float64{-0.1, 106.1}},
		{Name: "sugar, low end", Of: func(x float64) (float64, error) {
			return classes(label.Liquid{Strength: 12, Extract: 100, SugarLow: units.Concentration(x), SugarHigh: 106})
		}, Good: []float64{0, 106}, Bad: []float64{-0.1, 106.1}},
		{Name: "uncertainty of the strength", Of: func(x float64) (float64, error) {
			return classes(label.Liquid{Strength: 12, StrengthUncertainty: units.Strength(x)})
		}, Good: []float64{0, 50}, Bad: []float64{-0.1, 50.1}},
		{Name: "alcohol in one drink", Of: func(x float64) (float64, error) {
			return label.Drink{Name: "own", Alcohol: units.Mass(x)}.In(1, 20)
		}, Good: []float64{1, 100}, Bad: []float64{0.99, 100.1}},
		{Name: "sugar in food", Of: func(x float64) (float64, error) {
			e, err := label.EnergyIn(1, label.Nutrients{Sugar: units.Concentration(x)})
			return e.Total.Kilojoules, err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
	})
	for _, x := range []struct {
		name   string
		change func(r *label.Rule)
		taken  bool
	}{
		{"a step of 0.001", func(r *label.Rule) { r.Step = of(0.001) }, true},
		{"a step of 0.00099", func(r *label.Rule) { r.Step = of(0.00099) }, false},
		{"a step of 10", func(r *label.Rule) { r.Step = of(10) }, true},
		{"a step of 10.1", func(r *label.Rule) { r.Step = of(10.1) }, false},
		{"a tolerance of 10", func(r *label.Rule) { r.Tolerance = of(10) }, true},
		{"a tolerance of 10.1", func(r *label.Rule) { r.Tolerance = of(10.1) }, false},
		{"a tolerance below nothing", func(r *label.Rule) { r.WideTolerance = of(-0.1) }, false},
	} {
		if _, err := state(x.change); (err == nil) != x.taken {
			t.Errorf("%s: %v", x.name, err)
		}
	}
}

// 10 % mass of sucrose has 1038.1 kg/m3 at 20 C (ICUMSA) and so 103.81 g/L. 20 %
// vol with 84.15 g/L of sugar has 84.15/16.83 = 5 % vol more in all.
func TestWhatIsComparedByHand(t *testing.T) {
	c, err := label.Classes(label.Liquid{Extract: 103.81})
	if err != nil || math.Abs(float64(c.Solids)-10) > 0.001 || math.Abs(float64(c.Density)-1038.1) > 0.1 {
		t.Errorf("10 %% of sucrose: %v solids, %v, %v", c.Solids, c.Density, err)
	}
	c, err = label.Classes(label.Liquid{Strength: 20, Extract: 100, SugarLow: 33.66, SugarHigh: 84.15})
	if err != nil || math.Abs(float64(c.TotalLow)-22) > 1e-9 || math.Abs(float64(c.TotalHigh)-25) > 1e-9 {
		t.Errorf("total %v to %v, %v", c.TotalLow, c.TotalHigh, err)
	}
}

// A spirit is not told from wines: none of the classes of wine bounds its label.
func TestASpiritIsBoundBySpirits(t *testing.T) {
	for _, rule := range []label.Rule{label.EUSpirit(), label.USSpirit()} {
		for _, s := range []units.Strength{14, 15, 20, 22, 24} { // where classes of wine end
			l, err := rule.State(s)
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range l.Straddles {
				if b.MadeFrom != "spirit" {
					t.Errorf("%s, %v: %s ends at %v", rule.Jurisdiction, s, b.Product, b.Value)
				}
			}
		}
	}
}
