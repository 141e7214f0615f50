package abv

import (
	"fmt"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// ByMass is the strength by mass of an ethanol-water of this strength by
// volume at 20 C. Domain 0 to 100 % vol; it reproduces OIML R 22 Table IVb to
// 0.005 % mass. Error: *units.RangeError.
func ByMass(s units.Strength) (units.MassPercent, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	return units.MassPercent(100 * density.ByMass(float64(s))), nil
}

// ByVolume is the strength by volume at 20 C of an ethanol-water of this
// strength by mass. Domain 0 to 100 % mass. Source: OIML R 22.
// Error: *units.RangeError.
func ByVolume(m units.MassPercent) (units.Strength, error) {
	if err := units.Check("strength by mass", float64(m), 0, 100, "% mass", density.SourceEthanol); err != nil {
		return 0, err
	}
	return units.Strength(density.ByVolume(float64(m) / 100)), nil
}

// AlcoholPerLitre is the mass of ethanol in a litre at 20 C: 7.8924 g for every
// % vol, in a spirit or a wine. Domain 0 to 100 % vol. Error: *units.RangeError.
func AlcoholPerLitre(s units.Strength) (units.Concentration, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	return units.Concentration(float64(s) / 100 * density.PureEthanol), nil
}

// Density is the density at this temperature of a spirit without sugar, whose
// strength is stated at 20 C as always. Domain 0 to 100 % vol, -20 to 40 C,
// not frozen; it reproduces OIML R 22 Tables I and II to 0.005 kg/m3.
// Error: *units.RangeError.
func Density(s units.Strength, at units.Temperature) (units.Density, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	p := density.ByMass(float64(s))
	if at == units.Celsius(20) {
		return units.Density(density.Ethanol20(p)), nil
	}
	if err := check.Unfrozen(p, at); err != nil {
		return 0, err
	}
	return units.Density(density.Ethanol(p, at.Celsius())), nil
}

// FromDensity is the strength of a spirit without sugar, or of a distillate,
// from its density at this temperature. Domain -20 to 40 C, not frozen; from
// pure ethanol to water. Source: OIML R 22. Error: *units.RangeError.
func FromDensity(d units.Density, at units.Temperature) (units.Strength, error) {
	lo, err := check.Weakest(at)
	if err != nil {
		return 0, err
	}
	p, ok := density.EthanolFraction(float64(d), at.Celsius())
	if !ok {
		return 0, units.OutOfRange(fmt.Sprintf("spirit at %.4g C", at.Celsius()), "density", float64(d), density.Ethanol(1, at.Celsius()),
			density.Ethanol(lo, at.Celsius()), "kg/m3", density.SourceEthanol)
	}
	return units.Strength(density.ByVolume(p)), nil
}

// VolumeAt is the volume at temperature to of a spirit without sugar that had
// volume v at temperature from: its mass does not change, its strength is
// stated at 20 C throughout. Domain and accuracy as Density; v zero or more.
// Error: *units.RangeError.
func VolumeAt(v units.Volume, s units.Strength, from, to units.Temperature) (units.Volume, error) {
	if err := check.Volume("volume", v); err != nil {
		return 0, err
	}
	before, err := Density(s, from)
	if err != nil {
		return 0, err
	}
	after, err := Density(s, to)
	if err != nil {
		return 0, err
	}
	return v * units.Volume(before/after), nil
}

// PureAlcohol is the litres of pure alcohol at 20 C in a volume at 20 C: the
// unit of excise (divide by units.Hectolitre for hL). Domain 0 to 100 % vol, v
// zero or more. Error: *units.RangeError.
func PureAlcohol(v units.Volume, s units.Strength) (units.Volume, error) {
	if err := check.Volume("volume", v); err != nil {
		return 0, err
	}
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	return v * units.Volume(s/100), nil
}
