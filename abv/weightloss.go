package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// FromWeightLoss is the wine in a vessel that has become lighter by lost: what
// leaves through the airlock is carbon dioxide, and Balling's yield says how
// much alcohol came with it. Weigh the vessel before and after, with nothing
// added or drawn: a check on the hydrometer that needs no sample. Carbon dioxide
// still dissolved (up to about 1.5 g/L in a young wine, common practice, no
// source) is not lost yet, and 1.5 g/L are 0.2 % vol; moist gas carries some
// water and alcohol away, which counts the other way.
//
// must is the volume at the start, at 20 C, above 0; lost from 0 to what the
// must can give off. og 1 to 1.3499. Error: *units.RangeError.
func FromWeightLoss(og gravity.SG, must units.Volume, lost units.Mass, y Yield) (Fermented, error) {
	m, err := mustOf(og, y)
	if err != nil {
		return Fermented{}, err
	}
	if err := check.Must(must); err != nil {
		return Fermented{}, err
	}
	mass, most := float64(og)*density.Water20*float64(must), m.Most()
	if all := y.CarbonDioxide * most / 100 * mass * (1 + 1e-12); !(lost >= 0 && float64(lost) <= all) {
		return Fermented{}, units.OutOfRange(fmt.Sprintf("%.4g L of must of %.5g", float64(must), float64(og)), "weight lost",
			float64(lost), 0, all, "g", "all extract fermented, "+balance.Source)
	}
	a := 100 * float64(lost) / (y.CarbonDioxide * mass)
	return fermented(&m, min(a, most)), nil
}

// gasDensity0C is carbon dioxide at 0 C and one atmosphere in g/L: the ratio of
// the two factors in Regulation (EEC) 2676/90, chapter 37.
const gasDensity0C = 1.951e-5 / 0.987e-5

// GasVolume is the volume of a mass of carbon dioxide at one atmosphere and
// this temperature: 1 kg is about 540 L at 20 C. It is heavier than air and
// collects in a cellar: air the room before you go down. Domain: m zero or
// more, 0 to 40 C; within 0.3 %. Source: Regulation (EEC) 2676/90, chapter 37,
// and the gas law. Error: *units.RangeError.
func GasVolume(m units.Mass, at units.Temperature) (units.Volume, error) {
	if err := check.Mass("mass of carbon dioxide", m); err != nil {
		return 0, err
	}
	if err := units.Check("temperature", at.Celsius(), 0, 40, "C", "cellar range"); err != nil {
		return 0, err
	}
	return units.Volume(float64(m) / gasDensity0C * (273.15 + at.Celsius()) / 273.15), nil
}
