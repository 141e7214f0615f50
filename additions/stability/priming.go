package stability

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// Priming is sugar for a fermentation that is meant to happen in the bottle.
type Priming struct {
	Sugar    units.Concentration // dry sucrose, g per litre of wine
	Each     units.Mass          // for one bottle
	Pressure Sealed              // at 25 C: what the bottle must bear
}

// Prime is the dry sugar that raises the CO2 of a wine from Bottle.CO2 to
// wanted, all of it counted as dissolved; the wine's own sugar, at its high
// end, ferments first and counts. Only for bottles and closures made for pressure: Rated must be
// stated and must bear the result at 25 C. Domain: wanted at least what is
// there and the wine's sugar makes, to 14 g/L; else as SealedPressure. Error:
// *units.RangeError. Source: stoichiometry; Regulation (EEC) 2676/90 ch. 37.
func Prime(w Wine, wanted units.Concentration, b Closed) (Priming, error) {
	own := b.CO2 + molar.CarbonDioxideOfHexose*w.Sugar.High
	if err := check.First(check.Level("sugar", w.Sugar.High, 400), check.Level("dissolved CO2", b.CO2, 20),
		units.Check("CO2 wanted", float64(wanted), float64(own), 14, "g/L", "at least what the wine holds and its own sugar makes")); err != nil {
		return Priming{}, err
	}
	hexose := (wanted - own) / molar.CarbonDioxideOfHexose
	w.Sugar.High += hexose
	w.Extract = 0 // that was before the sugar
	p, err := SealedPressure(w, b, units.Celsius(25))
	if err := check.First(err, units.Check("sugar left when the yeast gives up", float64(p.Sugar), 0, 0.01, "g/L", "the yeast cannot make this CO2 at this strength"),
		units.Check("overpressure at 25 C", p.Overpressure.In(units.Bar), -1, b.Rated.In(units.Bar), "bar", "the rated overpressure of the bottle; 0 is not known")); err != nil {
		return Priming{}, err
	}
	sugar := hexose / molar.Inversion
	return Priming{sugar, units.Mass(float64(sugar) * float64(b.Volume-b.Headspace)), p}, nil
}
