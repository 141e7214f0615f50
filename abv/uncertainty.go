package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/units/uncertainty"
)

// BalanceDoubt is the root-mean-square error in % vol of the fermentation mass
// balance on 34 measured worts and beers (USDA Bulletin 493, 1917): 0.17.
// YeastDoubt is half of the distance between Balling's yields for wort and for
// must: within so much of its Yeast lies the yield of a fruit must.
const (
	BalanceUncertainty = 0.17
	YeastUncertainty   = (0.11 - 0.0444) / 2
)

// Extract of wine that is not sugar, in g/L: the median and a standard
// uncertainty of 5320 wines, 16.3 to 23.7 from 5 to 95 % (computed from density,
// alcohol and sugar of Cortez et al. 2009). Fruit musts may hold more.
const (
	SugarFreeExtract            = 19.0
	SugarFreeExtractUncertainty = (23.7 - 16.3) / (2 * 1.645)
)

// MassBalanceWithin is the strength in % vol by MassBalance with its uncertainty
// and budget: of the two true gravities (SG), of the yield (YeastDoubt) and of
// the balance itself (BalanceDoubt). Errors as MassBalance and
// uncertainty.Propagate.
func MassBalanceWithin(og, fg uncertainty.Input, y Yield) (uncertainty.Result, error) {
	yeast := uncertainty.RectangularInput("yield of the yeast", y.Yeast, YeastUncertainty)
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		f, err := MassBalance(gravity.SG(x[0]), gravity.SG(x[1]), Yield{y.CarbonDioxide, x[2]})
		return float64(f.Strength) + x[3], err
	}, []uncertainty.Input{og, fg, yeast, {Name: "fermentation balance", Standard: BalanceUncertainty}}, nil)
}
