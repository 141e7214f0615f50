// Package liquid is a liquid as three masses, ethanol, sucrose and water, and
// what follows from them. PerLitre is the one place of the library that turns
// strength and extract into masses; it refuses a liquid that cannot exist.
package liquid

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Masses are grams; of a litre at 20 C where a comment says so.
type Masses struct{ Ethanol, Sucrose, Water float64 }

// PerLitre are the masses of a litre at 20 C of this strength and extract.
// Domain: 0 to 100 % vol, extract from 0 to density.MostExtract of the strength.
// Error: *units.RangeError.
func PerLitre(strength units.Strength, extract units.Concentration) (Masses, error) {
	if strength >= 0 && strength <= 100 && extract >= 0 && extract <= 1000 {
		m := Masses{Ethanol: float64(strength) / 100 * density.PureEthanol, Sucrose: float64(extract)}
		if m.Water = density.WaterIn(m.Ethanol, m.Sucrose); m.Water >= 0 {
			return m, nil
		}
	}
	return Masses{}, impossible(strength, extract)
}

// impossible says which of the two is outside, and up to where the extract goes.
func impossible(strength units.Strength, extract units.Concentration) error {
	if err := units.Check("strength", float64(strength), 0, 100, "% vol", density.SourceEthanol); err != nil {
		return err
	}
	return units.OutOfRange(fmt.Sprintf("liquid of %.4g %% vol", float64(strength)), "extract", float64(extract),
		0, density.MostExtract(float64(strength)), "g/L", density.SourceMixture)
}

// OfSucrose are the masses of a sucrose solution of this gravity at 20 C and this
// share of sucrose by mass.
func OfSucrose(gravity, share, litres float64) Masses {
	total := gravity * density.Water20 * litres
	return Masses{Sucrose: share * total, Water: (1 - share) * total}
}

// Plus adds so many times n.
func (m Masses) Plus(n Masses, times float64) Masses {
	return Masses{m.Ethanol + times*n.Ethanol, m.Sucrose + times*n.Sucrose, m.Water + times*n.Water}
}

// Mass is that of all three.
func (m Masses) Mass() float64 { return m.Ethanol + m.Sucrose + m.Water }

// Volume is the volume in L at 20 C.
func (m Masses) Volume() float64 { return density.Volume20(m.Ethanol, m.Sucrose, m.Water) }

// VolumeAt is the volume in L at t, 0 to 40 C.
func (m Masses) VolumeAt(t float64) float64 {
	return density.VolumeAt(m.Ethanol, m.Sucrose, m.Water, t)
}

// Partials are the volume in L at 20 C and its derivatives in the three masses.
func (m Masses) Partials() density.Partials {
	return density.VolumePartials20(m.Ethanol, m.Sucrose, m.Water)
}

// In is the part of a liquid's volume that these masses take up in it, by its
// partial volumes.
func (m Masses) In(v density.Partials) float64 {
	return v.E*m.Ethanol + v.S*m.Sucrose + v.W*m.Water
}

// Properties are the figures of a liquid at 20 C.
type Properties struct {
	Volume   float64 // L
	Strength units.Strength
	Extract  units.Concentration
	Gravity  float64 // SG 20/20
}

// Properties gives them all from one volume.
func (m Masses) Properties() Properties {
	v := m.Volume()
	return Properties{v, StrengthOf(m.Ethanol, v), units.Concentration(m.Sucrose / v), m.Mass() / v / density.Water20}
}

// StrengthOf is the strength of so many g of ethanol in so many L at 20 C;
// rounding does not pass pure ethanol.
func StrengthOf(ethanol, litres float64) units.Strength {
	return units.Strength(min(100, 100*ethanol/(density.PureEthanol*litres)))
}

// Strength at 20 C.
func (m Masses) Strength() units.Strength { return StrengthOf(m.Ethanol, m.Volume()) }

// Extract in g/L at 20 C.
func (m Masses) Extract() units.Concentration { return units.Concentration(m.Sucrose / m.Volume()) }

// Density in kg/m3 at 20 C.
func (m Masses) Density() float64 { return m.Mass() / m.Volume() }

// Gravity is SG 20/20.
func (m Masses) Gravity() float64 { return m.Density() / density.Water20 }

// Check refuses a liquid with more than density.MaxSucrose of sucrose in its
// sucrose and water. Error: *units.RangeError.
func (m Masses) Check() error {
	return units.Check("sucrose in sucrose and water", 100*m.Sucrose/(m.Sucrose+m.Water), 0, 100*density.MaxSucrose*(1+1e-12),
		"% mass", density.SourceSucrose)
}
