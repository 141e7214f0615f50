package abv_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
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

// By trials: musts whose yeast lies within YeastLikely and its limits, read as
// stated. What the must and the wort yield state is the root mean square of how far
// they are off, the distance of their yield included.
func TestAYieldThatIsNotTheLikelyOneStatesItsDistance(t *testing.T) {
	r := rand.New(rand.NewPCG(1865, 1917))
	for _, x := range [][2]float64{{1.092, 1.046}, {1.100, 1.000}, {1.090, 0.995}, {1.120, 1.020}} {
		for _, y := range []abv.Yield{abv.Must, abv.Fruit, abv.Wort} {
			stated, err := abv.MassBalanceWithin(uncertainty.RectangularInput("og", x[0], 0.001), uncertainty.RectangularInput("fg", x[1], 0.001), y)
			if err != nil {
				t.Fatal(err)
			}
			const draws = 20_000
			squares, inside := 0.0, 0
			for range draws {
				yeast := abv.YeastLikely + abv.YeastUncertainty/1.96*r.NormFloat64()
				f, err := abv.MassBalance(gravity.SG(x[0]+0.001*(2*r.Float64()-1)), gravity.SG(x[1]+0.001*(2*r.Float64()-1)), abv.Yield{CarbonDioxide: y.CarbonDioxide, Yeast: max(0, yeast)})
				if err != nil {
					t.Fatal(err)
				}
				is := float64(f.Strength) + abv.BalanceUncertainty*r.NormFloat64()
				squares += (is - stated.Value) * (is - stated.Value)
				if is >= stated.Low && is <= stated.High {
					inside++
				}
			}
			rms, share := math.Sqrt(squares/draws), float64(inside)/draws
			if math.Abs(stated.Standard/rms-1) > 0.05 || share < 0.94 || share > 0.97 {
				t.Errorf("%v, yeast %v: states %.3f, is off by %.3f; %.1f %% of the trials lie within", x, y.Yeast, stated.Standard, rms, 100*share)
			}
		}
	}
}

// The strength of the figures is as sure as by exact gravities. From 1.100 to 1.000
// the yields of must and wort, 0.0656 apart, are 13.75 and 13.43 % vol: 4.8 for 1 of
// yield, and so 0.25 of must's 0.0523 beside the 0.17 of the balance.
func TestFiguresOfAFermentationCarryTheYield(t *testing.T) {
	for _, x := range []struct {
		og, fg gravity.SG
		y      abv.Yield
	}{{1.092, 1.046, abv.Must}, {1.100, 1.000, abv.Must}, {1.100, 1.000, abv.Fruit}, {1.100, 1.000, abv.Wort}, {1.060, 1.010, abv.Fruit}} {
		f, err := abv.MassBalance(x.og, x.fg, x.y)
		if err != nil {
			t.Fatal(err)
		}
		r, err := abv.MassBalanceWithin(uncertainty.Input{Name: "og", Value: float64(x.og)}, uncertainty.Input{Name: "fg", Value: float64(x.fg)}, x.y)
		if err != nil {
			t.Fatal(err)
		}
		if u := f.Figures()[0].Uncertainty.Decimal.InexactFloat64(); math.Abs(u-r.Standard) > 0.02*r.Standard || !(u > 1.05*abv.BalanceUncertainty) {
			t.Errorf("%v to %v, %v: the figure has %v, by its budget %v", x.og, x.fg, x.y, u, r.Standard)
		}
	}
	none, err := abv.MassBalance(1.092, 1.092, abv.Must)
	if u := none.Figures()[0].Uncertainty.Decimal.InexactFloat64(); err != nil || math.Abs(u-abv.BalanceUncertainty) > 0.005 {
		t.Errorf("nothing fermented: %v, %v", u, err)
	}
	driest, err := abv.StopAtExtract(1.092, 0, abv.Must)
	if u := driest.Figures()[0].Uncertainty.Decimal.InexactFloat64(); err != nil || !(u > math.Hypot(0.24, 0.17)) {
		t.Errorf("the driest: %v, %v", u, err)
	}
	if u := (abv.Fermented{}).Figures()[0].Uncertainty.Decimal.InexactFloat64(); math.Abs(u-abv.BalanceUncertainty) > 0.005 {
		t.Errorf("the zero value: %v", u)
	}
}
