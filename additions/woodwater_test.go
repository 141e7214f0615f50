package additions

import (
	"math"
	"testing"
)

// Air-dry wood holds up to 12 % of water (common practice): 100 g thin a litre of
// 20 % vol by 12 mL of water in 1012 mL.
func TestWoodThinsByItsWater(t *testing.T) {
	d, err := Wooded(100, 1, 20, OakChips)
	if want := 20 * 0.012 / 1.012; err != nil || math.Abs(float64(d.ThinnedBy)-want) > 1e-9 {
		t.Errorf("%v, %v; by hand %v", float64(d.ThinnedBy), err, want)
	}
}

// A gram of wood keeps 0.5 to 1.2 mL of wine.
func TestWoodKeepsWineBack(t *testing.T) {
	d, err := Wooded(10, 5, 20, OakChips)
	if err != nil || math.Abs(float64(d.LossLow)-0.005) > 1e-12 || math.Abs(float64(d.LossHigh)-0.012) > 1e-12 {
		t.Errorf("10 g keep %v to %v, %v", d.LossLow, d.LossHigh, err)
	}
}

// 10 g of 38 cm2/g are 76 cm2 to each of 5 L; a barrel's 91 cm2/L take 91 x 5/38 g.
func TestSurfaceIsToTheLitre(t *testing.T) {
	d, err := Wooded(10, 5, 20, OakChips)
	if err != nil || math.Abs(d.Surface-76) > 1e-9 || math.Abs(d.Barrels-76./91) > 1e-9 {
		t.Errorf("%+v, %v", d, err)
	}
	if d, err = WoodDose(1, 5, 20, OakChips); err != nil || math.Abs(float64(d.Mass)-91*5/38.) > 1e-9 {
		t.Errorf("%+v, %v", d, err)
	}
}
