package gravity

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// Temperatures at which the density of the three components is known.
const (
	coldestMixture = density.MinSucroseTemperature
	hottestMixture = density.MaxTemperature
)

// Shows is what the hydrometer shows, on its own scale, in a degassed liquid of
// this strength and extract at this temperature: the reading to expect in every
// liquid with alcohol (in must, ReadingInMust). It may stand far below 1.
// Domain: 0 to 40 C, 0 to 100 % vol, extract from 0 to where the liquid would
// hold 70 % sucrose in its sucrose and water. Accuracy: that of abv.Compose,
// 0.0002 up to 20 % vol and 100 g/L. Source: OIML R 22 and ICUMSA 1990, excess
// volumes added over the shared water. Error: *units.RangeError.
func (h Hydrometer) Shows(strength units.Strength, extract units.Concentration, at units.Temperature) (SG, error) {
	if err := h.checkMixture(strength, at); err != nil {
		return 0, err
	}
	litre, err := liquid.PerLitre(strength, extract)
	if err != nil {
		return 0, err
	}
	return h.shows(litre, at.Celsius()), nil
}

func (h Hydrometer) shows(m liquid.Masses, t float64) SG { return h.show(m.Mass()/m.VolumeAt(t), t) }

// CorrectIn is the gravity at 20 C of a liquid of known strength in which the
// hydrometer shows reading at this temperature: the extract solves Shows. For a
// wine in ferment the strength need only be near: 1 % vol changes the result by
// 0.0001 to 0.0002 at 30 C. Domain: 0 to 40 C, 0 to 100 % vol, readings from that of the
// dry spirit up; a reading below it says that the strength is higher than
// given. Source: as Shows. Error: *units.RangeError.
func (h Hydrometer) CorrectIn(strength units.Strength, reading SG, at units.Temperature) (SG, error) {
	if err := h.checkMixture(strength, at); err != nil {
		return 0, err
	}
	t := at.Celsius()
	extract, water, ok := density.ExtractOf(h.indicated(reading)/h.expansion(t), float64(strength), t)
	if !ok {
		dry, err := liquid.PerLitre(strength, 0)
		if err != nil {
			return 0, err
		}
		full, err := liquid.PerLitre(strength, units.Concentration(density.MostExtract(float64(strength))))
		if err != nil {
			return 0, err
		}
		e := h.outside(reading, at, h.shows(dry, t), h.shows(full, t), "from no extract up, "+density.SourceMixture)
		if e.Value < e.Min && e.Value > lightestRead {
			e.Cause = fmt.Sprintf("a reading of %.6g means more alcohol than %.4g %% vol", float64(reading), float64(strength))
		}
		return 0, e
	}
	return SG((float64(strength)/100*density.PureEthanol + extract + water) / density.Water20), nil
}

func (h Hydrometer) checkMixture(strength units.Strength, at units.Temperature) error {
	if h.err != nil {
		return h.err
	}
	if err := units.Check("temperature of the sample", at.Celsius(), coldestMixture, hottestMixture, "C", density.SourceMixture); err != nil {
		return err
	}
	return units.Check("strength", float64(strength), 0, 100, "% vol", density.SourceEthanol)
}
