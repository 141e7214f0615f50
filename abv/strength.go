package abv

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// ByMass is the strength by mass of an ethanol-water of this strength by
// volume at 20 C. Domain 0 to 100 % vol; it reproduces OIML R 22 Table IVb to
// 0.005 % mass. Error: *units.RangeError.
func ByMass(s units.Strength) (units.MassPercent, error) {
	if err := checkStrength("strength", s); err != nil {
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
	if err := checkStrength("strength", s); err != nil {
		return 0, err
	}
	return units.Concentration(float64(s) / 100 * density.PureEthanol), nil
}

// Density is the density at this temperature of a spirit without sugar, whose
// strength is stated at 20 C as always. Domain 0 to 100 % vol, -20 to 40 C,
// not frozen; it reproduces OIML R 22 Tables I and II to 0.005 kg/m3.
// Error: *units.RangeError.
func Density(s units.Strength, at units.Temperature) (units.Density, error) {
	if err := checkStrength("strength", s); err != nil {
		return 0, err
	}
	p := density.ByMass(float64(s))
	if at == 20 {
		return units.Density(density.Ethanol20(p)), nil
	}
	if err := checkLiquid(p, at); err != nil {
		return 0, err
	}
	return units.Density(density.Ethanol(p, float64(at))), nil
}

// FromDensity is the strength of a spirit without sugar, or of a distillate,
// from its density at this temperature. Domain -20 to 40 C, not frozen; from
// pure ethanol to water. Source: OIML R 22. Error: *units.RangeError.
func FromDensity(d units.Density, at units.Temperature) (units.Strength, error) {
	lo, err := weakest(at)
	if err != nil {
		return 0, err
	}
	p, ok := density.EthanolFraction(float64(d), float64(at))
	if !ok {
		return 0, &units.RangeError{Quantity: fmt.Sprintf("density at %.4g C", float64(at)), Value: float64(d), Min: density.Ethanol(1, float64(at)),
			Max: density.Ethanol(lo, float64(at)), Unit: "kg/m3", Source: density.SourceEthanol}
	}
	return units.Strength(density.ByVolume(p)), nil
}

// VolumeAt is the volume at temperature to of a spirit without sugar that had
// volume v at temperature from: its mass does not change, its strength is
// stated at 20 C throughout. Domain and accuracy as Density; v zero or more.
// Error: *units.RangeError.
func VolumeAt(v units.Volume, s units.Strength, from, to units.Temperature) (units.Volume, error) {
	if err := checkVolume("volume", v); err != nil {
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
	if err := checkVolume("volume", v); err != nil {
		return 0, err
	}
	if err := checkStrength("strength", s); err != nil {
		return 0, err
	}
	return v * units.Volume(s/100), nil
}

func checkStrength(quantity string, s units.Strength) error {
	return units.Check(quantity, float64(s), 0, 100, "% vol", density.SourceEthanol)
}

// largestVolume in litres keeps sums and products finite.
const largestVolume = 1e12

func checkVolume(quantity string, v units.Volume) error {
	return units.Check(quantity, float64(v), 0, largestVolume, "L", "")
}

// weakest is the mass fraction below which ethanol-water freezes at this
// temperature, after a check of the temperature.
func weakest(at units.Temperature) (float64, error) {
	if err := units.Check("temperature", float64(at), density.MinTemperature, density.MaxTemperature, "C", density.SourceEthanol); err != nil {
		return 0, err
	}
	return density.FreezingFraction(float64(at)), nil
}

// checkLiquid refuses a temperature outside the formula and a spirit that is
// partly frozen there.
func checkLiquid(p float64, at units.Temperature) error {
	lo, err := weakest(at)
	if err != nil || p >= lo {
		return err
	}
	return &units.RangeError{Quantity: fmt.Sprintf("strength at %.4g C, where weaker spirit freezes,", float64(at)),
		Value: density.ByVolume(p), Min: density.ByVolume(lo), Max: 100, Unit: "% vol", Source: "freezing points from memory"}
}
