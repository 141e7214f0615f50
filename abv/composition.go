package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Composition is what a liquid holds per litre at 20 C, with what it reads.
type Composition struct {
	Strength units.Strength
	Extract  units.Concentration // real extract, as sucrose
	Gravity  gravity.SG          // what a spindle shows in it at 20 C
}

// Compose is the liquid of this strength and extract: its gravity follows from
// the three-component density. Domain: 0 to 100 % vol; extract from 0 to where
// the liquid would hold 70 % sucrose in its sucrose and water. Accuracy of the
// density: 0.2 kg/m3 to 20 % vol and 100 g/L, 0.4 to 300 g/L, 1.1 at 40 % vol,
// the distance from the classic sum of the two solutions.
// Error: *units.RangeError.
func Compose(strength units.Strength, extract units.Concentration) (Composition, error) {
	e, s, w, ok := density.MassesPerLitre(float64(strength), float64(extract))
	if !ok {
		return Composition{}, outsideMixture(strength, extract)
	}
	return Composition{strength, extract, gravity.SG((e + s + w) / density.Water20)}, nil
}

// outsideMixture says which of the two is outside, and up to where extract goes.
func outsideMixture(strength units.Strength, extract units.Concentration) error {
	if err := units.Check("strength", float64(strength), 0, 100, "% vol", density.SourceEthanol); err != nil {
		return err
	}
	return &units.RangeError{Quantity: fmt.Sprintf("extract at %.4g %% vol", float64(strength)), Value: float64(extract),
		Min: 0, Max: density.MostExtract(float64(strength)), Unit: "g/L", Source: density.SourceMixture}
}
