package blend_test

import (
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/gravity"
)

// A reading agrees within two standard uncertainties of the difference, and no
// further: 19 times in 20.
func TestAReadingAgreesWithinTwoStandardUncertainties(t *testing.T) {
	bottle := vodka
	bottle.Volume = 0.7
	ofBase, ofSpirit := blend.Uncertainty{Strength: 0.3, Extract: 3}, blend.Uncertainty{Volume: 0.02, Strength: 0.17}
	good, err := blend.Mix(cherry, bottle)
	if err != nil {
		t.Fatal(err)
	}
	u := func(off float64) (gravity.SG, bool) {
		f, err := blend.Explain(cherry, bottle, good.Gravity+gravity.SG(off), ofBase, ofSpirit, 0.0005)
		if err != nil {
			t.Fatal(err)
		}
		return f.Standard, f.Agrees
	}
	standard, _ := u(0)
	for times, want := range map[float64]bool{-2.02: false, -1.98: true, 1.98: true, 2.02: false, 2.5: false} {
		if _, agrees := u(times * float64(standard)); agrees != want {
			t.Errorf("%g standard uncertainties off: agrees is %v", times, agrees)
		}
	}
}
