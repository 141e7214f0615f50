package blend_test

import (
	"math"
	"testing"

	"example.org/mutage/blend"
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
