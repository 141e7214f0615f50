package figure

import (
	"math"
	"testing"

	"example.org/mutage/units/uncertainty"
)

// The factor of a figure is that of its result to three places, and none where it is
// 1.96 to two: of a normal input, and of a rectangle of a tenth of the variance.
func TestCoverageOfAFigure(t *testing.T) {
	sum := func(x []float64) (float64, error) { return x[0] + x[1], nil }
	for part, want := range map[float64]float64{1: 1.645, 0.5: 1.917, 0.8: 1.810, 0.22: 1.954, 0.2: 0, 0.1: 0, 0: 0} { // of the variance; by integration
		r, err := uncertainty.Propagate(sum, []uncertainty.Input{uncertainty.RectangularInput("", 5, math.Sqrt(3*part)), {Standard: math.Sqrt(1 - part)}}, nil)
		if err != nil {
			t.Fatal(err)
		}
		f := Stated.Result("volume", "volume", r, 2, "L")
		if f.Coverage != want || f.Fixed() != "5.00" || f.FixedUncertainty() != "1.0000" {
			t.Errorf("a rectangle of %v of the variance: factor %v of %s, expected %v of 1.0000", part, f.Coverage, f.FixedUncertainty(), want)
		}
	}
	few, err := uncertainty.Propagate(sum, []uncertainty.Input{{Value: 5, Standard: 1, DegreesOfFreedom: 100}, {}}, nil)
	if f := Stated.Result("volume", "volume", few, 2, "L"); err != nil || f.Coverage != 1.984 { // JCGM 100, table G.2
		t.Errorf("100 degrees of freedom: %v, %v, expected 1.984", f.Coverage, err)
	}
}
