package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// An End is where a fermentation that is left alone comes to its end. The zero value
// says nothing of either.
type End struct {
	// Limit is the strength where the yeast gives up; zero: not stated.
	Limit units.Strength
	// NotSugar is what is left when the sugar is gone; zero: the range of all grape
	// wines. That all extract is sugar, which no fruit wine is, StatedNotSugar(0, 0)
	// says.
	NotSugar NotSugar
}

// Potential is the wine that a must of gravity og becomes when it is left alone:
// fermentation ends when the sugar is gone or, with a Limit, when the yeast
// gives up. What is left then is likely the 20 g/L of the range of grape wines, or
// what NotSugar says; a must with less extract does not ferment. og 1 to
// 1.3499, limit 0 to 30 % vol. Error: *units.RangeError.
func Potential(og gravity.SG, y Yield, ends ...End) (Fermented, error) {
	_, likely, _, err := PotentialRange(og, y, ends...)
	return likely, err
}

// PotentialRange is Potential with its ends: low where much of the extract is not
// sugar (95 % point), high where little is (5 % point). The uncertainty of the
// yield comes on top. Domain and error as Potential.
func PotentialRange(og gravity.SG, y Yield, ends ...End) (low, likely, high Fermented, err error) {
	must, err := mustOf(og, y)
	if err != nil {
		return low, likely, high, err
	}
	rest, limit := grapes[0], units.Strength(0)
	for _, e := range ends {
		if err := units.Check("limit of the yeast", float64(e.Limit), 0, 30, "% vol", check.Bound); err != nil {
			return low, likely, high, err
		}
		if e.NotSugar != (NotSugar{}) {
			rest = e.NotSugar
		}
		if e.Limit > 0 {
			limit = e.Limit
		}
	}
	if err := rest.check(); err != nil {
		return low, likely, high, err
	}
	leaving := func(g units.Concentration) Fermented {
		return fermented(&must, leftAlone(&must, g, rest.PerMust, limit))
	}
	return leaving(rest.High), leaving(rest.Likely), leaving(rest.Low), nil
}

// leftAlone is the grams of alcohol that 100 g of must make before rest is all
// that is left or the strength is the limit (0: none).
func leftAlone(must *balance.Must, rest units.Concentration, perMust bool, limit units.Strength) float64 {
	a := must.Most()
	switch {
	case float64(rest) >= must.ExtractPerLitre():
		return 0
	case perMust:
		a = (must.ExtractPerLitre() - float64(rest)) * must.Litres() / must.Yield.Extract()
	case rest > 0:
		if to, err := must.ForExtract(rest); err == nil {
			a = to
		}
	}
	if limit > 0 {
		if to, err := must.ForStrength(limit); err == nil { // an error: it never gets there
			a = min(a, to)
		}
	}
	return a
}
