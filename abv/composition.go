package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// Composition is what a liquid holds per litre at 20 C, with what it reads.
type Composition struct {
	Strength units.Strength
	Extract  units.Concentration // real extract, as sucrose
	Gravity  gravity.SG          // what a hydrometer shows in it at 20 C

	found *figure.Method // nil: composed
}

var composed = figure.Method{Method: "density of the three components at 20 C", Source: density.SourceMixture}

// Compose is the liquid of this strength and extract: its gravity follows from
// the three-component density. Domain: 0 to 100 % vol; extract from 0 to where
// the liquid would hold 70 % sucrose in its sucrose and water. Accuracy of the
// density: 0.2 kg/m3 to 20 % vol and 100 g/L, 0.4 to 300 g/L, 1.1 at 40 % vol,
// the distance from the classic sum of the two solutions.
// Error: *units.RangeError.
func Compose(strength units.Strength, extract units.Concentration) (Composition, error) {
	litre, err := liquid.PerLitre(strength, extract)
	if err != nil {
		return Composition{}, err
	}
	return Composition{Strength: strength, Extract: extract, Gravity: gravity.SG(litre.Mass() / density.Water20)}, nil
}
