package abv

import (
	"math"

	"example.org/mutage/gravity"
	"example.org/mutage/units/uncertainty"
)

// What the balance of a fermentation is uncertain by, and where its answer is no
// longer one of yeast.
const (
	// MostByYeast in % vol: a stronger wine without spirit is taken for a slip of the
	// digits. Common practice, no source; S. bayanus goes to 17 to 20, from memory.
	MostByYeast = 22.0
	// BalanceUncertainty is the root-mean-square error in % vol of the mass balance
	// on 34 measured worts and beers (USDA Bulletin 493, 1917).
	BalanceUncertainty = 0.17
	// The dry yeast that grows with a gram of alcohol lies within YeastLikely and
	// YeastUncertainty 19 times in 20. That covers Balling's must (0.0444) and wort
	// (0.11) and the gas of measured fermentations (0.07 to 0.105: 93 to 94 g/L of
	// CO2 from 200 g/L of hexose).
	YeastLikely      = 0.09
	YeastUncertainty = 0.05
)

// YeastStandard is the standard uncertainty of y.Yeast for a fruit must: that of
// YeastLikely and, for a yield that is not it, the distance between the two.
func (y Yield) YeastStandard() float64 {
	return math.Hypot(YeastUncertainty/1.96, y.Yeast-YeastLikely)
}

// MassBalanceWithin is the strength in % vol by MassBalance with its uncertainty
// and budget: of the two true gravities (SG), of the yield (YeastStandard) and of
// the balance itself (BalanceUncertainty). Errors as MassBalance and
// uncertainty.Propagate.
func MassBalanceWithin(og, fg uncertainty.Input, y Yield) (uncertainty.Result, error) {
	yeast := uncertainty.Input{Name: "yield of the yeast", Value: y.Yeast, Standard: y.YeastStandard()}
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		f, err := MassBalance(gravity.SG(x[0]), gravity.SG(x[1]), Yield{y.CarbonDioxide, x[2]})
		return float64(f.Strength) + x[3], err
	}, []uncertainty.Input{og, fg, yeast, {Name: "fermentation balance", Standard: BalanceUncertainty}}, nil)
}

// strengthStandard is the standard uncertainty of the strength where both gravities
// are exact: of the yield and of the balance.
func (f Fermented) strengthStandard() float64 {
	alcohol := f.SugarUsed - f.CarbonDioxide - f.Yeast
	if !(alcohol > 0) {
		return BalanceUncertainty
	}
	y := Yield{CarbonDioxide: float64(f.CarbonDioxide / alcohol), Yeast: float64(f.Yeast / alcohol)}
	p, err := OriginalExtract(Composition{Strength: f.Strength, Extract: f.Extract}, y)
	if err != nil {
		return BalanceUncertainty
	}
	og, err := p.SG()
	for _, step := range []float64{0.01, -0.01} { // at the driest only one side has a balance
		other, err2 := MassBalance(og, f.Gravity, Yield{y.CarbonDioxide, y.Yeast + step})
		if err == nil && err2 == nil {
			return math.Hypot(BalanceUncertainty, float64(other.Strength-f.Strength)/step*y.YeastStandard())
		}
	}
	return BalanceUncertainty
}
