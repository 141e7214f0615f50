package stability

import (
	"example.org/mutage/abv"
	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// HoldOf is how far strength and sugar alone hold a wine, taken as exact, of whose
// yeast no limit is known: the best of the barriers "no_sugar", "alcohol" and
// "alcohol_and_sugar" of Judge, without its words. Domain and error as DelleUnits.
func HoldOf(s units.Strength, sugar units.Concentration) (Hold, error) {
	if err := check.First(check.Strength("strength", s), check.Level("sugar", sugar, 1000)); err != nil {
		return NotKnown, err
	}
	j := judged{Wine: Wine{Strength: s, Sugar: abv.Sugars{Low: sugar, Likely: sugar, High: sugar}}, strength: float64(s), delle: delle(float64(s), float64(sugar))}
	return max(j.noSugar().Hold, j.alcohol().Hold, j.alcoholAndSugar().Hold), nil
}
