package gravity

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Temperatures at which the density of the three components is known.
const (
	coldestMixture = density.MinSucroseTemperature
	hottestMixture = density.MaxTemperature
)

// Shows is what the spindle shows, on its own scale, in a degassed liquid of
// this strength and extract at this temperature. It may stand far below 1.
// Domain: 0 to 40 C, 0 to 100 % vol, extract from 0 to where the liquid would
// hold 70 % sucrose in its sucrose and water. Accuracy: that of abv.Compose,
// 0.0002 up to 20 % vol and 100 g/L. Source: OIML R 22 and ICUMSA 1990, excess
// volumes added over the shared water. Error: *units.RangeError.
func (h Hydrometer) Shows(strength units.Strength, extract units.Concentration, at units.Temperature) (SG, error) {
	if err := h.checkMixture(strength, at); err != nil {
		return 0, err
	}
	e, s, w, ok := density.MassesPerLitre(float64(strength), float64(extract))
	if !ok {
		return 0, units.Check(fmt.Sprintf("extract at %.4g %% vol", float64(strength)), float64(extract),
			0, density.MostExtract(float64(strength)), "g/L", density.SourceMixture)
	}
	return h.shows(e, s, w, float64(at)), nil
}

func (h Hydrometer) shows(e, s, w, t float64) SG {
	return h.show((e+s+w)/density.VolumeAt(e, s, w, t), t)
}

// CorrectIn is the gravity at 20 C of a liquid of known strength in which the
// spindle shows reading at this temperature: the extract solves Shows. For a
// wine in ferment the strength need only be near: 1 % vol changes the result by
// 0.0001 to 0.0002 at 30 C. Domain: 0 to 40 C, 0 to 100 % vol, readings from that of the
// dry spirit up; a reading below it says that the strength is higher than
// given. Source: as Shows. Error: *units.RangeError.
func (h Hydrometer) CorrectIn(strength units.Strength, reading SG, at units.Temperature) (SG, error) {
	if err := h.checkMixture(strength, at); err != nil {
		return 0, err
	}
	t := float64(at)
	e := float64(strength) / 100 * density.PureEthanol
	s, ok := density.ExtractOf(h.indicated(reading)/h.expansion(t), float64(strength), t)
	if !ok {
		most := density.MostExtract(float64(strength))
		lo, hi := h.shows(e, 0, density.WaterIn(e, 0), t), h.shows(e, most, density.WaterIn(e, most), t)
		return 0, h.outside(reading, at, lo, hi, fmt.Sprintf("from no extract up; a lower reading at this temperature means more than %.4g %% vol; %s", float64(strength), density.SourceMixture))
	}
	return SG((e + s + density.WaterIn(e, s)) / density.Water20), nil
}

func (h Hydrometer) checkMixture(strength units.Strength, at units.Temperature) error {
	if h.err != nil {
		return h.err
	}
	if err := units.Check("temperature of the sample", float64(at), coldestMixture, hottestMixture, "C", density.SourceMixture); err != nil {
		return err
	}
	return units.Check("strength", float64(strength), 0, 100, "% vol", density.SourceEthanol)
}
