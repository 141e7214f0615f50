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
