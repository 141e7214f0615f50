package abv_test

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units/uncertainty"
)

func TestMassBalanceWithin(t *testing.T) {
	og, fg := uncertainty.RectangularInput("og", 1.092, 0.001), uncertainty.RectangularInput("fg", 1.046, 0.001)
	r, err := abv.MassBalanceWithin(og, fg, abv.Must)
	if err != nil {
		t.Fatal(err)
	}
	f, _ := abv.MassBalance(1.092, 1.046, abv.Must)
	// By hand: 0.17 of the balance; 0.080 twice of the readings, 0.00058 x 138 % vol;
	// of the yield 0.0523 (0.0255 and the 0.0456 from 0.0444 to 0.09) x 2.2 = 0.115.
	if math.Abs(r.Value-float64(f.Strength)) > 1e-12 || math.Abs(r.Standard-0.234) > 0.002 || r.Ranked()[0].Name != "fermentation balance" {
		t.Errorf("%v, %+v", r, r.Ranked())
	}
	og.Value = 0.9
	if _, err := abv.MassBalanceWithin(og, fg, abv.Must); err == nil {
		t.Error("an original gravity of 0.9: no error")
	}
}

// The limits cover Balling's must and wort and the gas of measured fermentations.
func TestYeastCoversMustWortAndGas(t *testing.T) {
	if u := abv.Fruit.YeastStandard(); math.Abs(u-0.05/1.96) > 1e-12 {
		t.Errorf("in the middle: %v", u)
	}
	for _, y := range []float64{abv.Must.Yeast, abv.Wort.Yeast, 0.07, 0.105} {
		if math.Abs(y-abv.YeastLikely) > abv.YeastUncertainty {
			t.Errorf("%v lies outside %v ± %v", y, abv.YeastLikely, abv.YeastUncertainty)
		}
	}
	// Must's own number stands 0.0456 off the middle.
	if u := abv.Must.YeastStandard(); math.Abs(u-math.Sqrt(0.0255*0.0255+0.0456*0.0456)) > 1e-4 {
		t.Errorf("must: %v", u)
	}
}
