// Package check refuses what lies outside a domain that several packages share.
// Every error is a *units.RangeError.
package check

import (
	"errors"
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Bound is the source of a limit that only keeps nonsense out.
const Bound = "a bound against mistyping, no law or chemistry"

const (
	// MostVolume in L and MostMass in g keep sums and products finite.
	MostVolume = 1e12
	MostMass   = 1000 * MostVolume

	mostVessel = 1e7 // L
	// MostSO2 and MostSorbicAcid are in g/L, far above every limit.
	MostSO2        units.Concentration = 10
	MostSorbicAcid units.Concentration = 3
	// MostDose in g is the most of an addition.
	MostDose = 1e10
)

// First is the first error there is.
func First(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// Volume takes zero to MostVolume.
func Volume(quantity string, v units.Volume) error {
	return units.Check(quantity, float64(v), 0, MostVolume, "L", "")
}

// Must is Volume for one that divides: zero is refused.
func Must(v units.Volume) error {
	return units.Check("volume of must", float64(v), 1e-6, MostVolume, "L", "")
}

// Mass takes zero to MostMass.
func Mass(quantity string, m units.Mass) error {
	return units.Check(quantity, float64(m), 0, MostMass, "g", "")
}

// Treated takes a volume to which something is added, up to 1e7 L.
func Treated(v units.Volume) error {
	return units.Check("volume", float64(v), 0, mostVessel, "L", Bound)
}

// Vessel is Treated for a volume that divides: zero is refused.
func Vessel(v units.Volume) error {
	return units.Check("volume", float64(v), 1e-6, mostVessel, "L", Bound)
}

// Weighed takes the mass of an addition, up to 1e10 g.
func Weighed(m units.Mass) error {
	return units.Check("mass", float64(m), 0, MostDose, "g", Bound)
}

// Level takes a concentration up to most.
func Level(quantity string, c, most units.Concentration) error {
	return units.Check(quantity, float64(c), 0, float64(most), "g/L", Bound)
}

// Strength takes 0 to 100 % vol.
func Strength(quantity string, s units.Strength) error {
	return units.Check(quantity, float64(s), 0, 100, "% vol", density.SourceEthanol)
}

// NotFermented says that a gravity below water's cannot be that of a must or of
// sugar in water, if e is for that reason.
func NotFermented(e error) error {
	var outside *units.RangeError
	if errors.As(e, &outside) && outside.Value > 0.9 && outside.Value < 1 && outside.Min == 1 {
		outside.Cause = fmt.Sprintf("%s %.6g is below water: already fermented?", outside.Quantity, outside.Value)
	}
	return e
}

// Equivalent takes the mass in g of an acid that neutralises a mole of alkali.
func Equivalent(g float64) error {
	return units.Check("equivalent weight of the acid", g, 1, 1000, "g/mol", Bound)
}

// Weakest is the mass fraction below which ethanol-water freezes at this
// temperature, after a check of the temperature: -20 to 40 C.
func Weakest(at units.Temperature) (float64, error) {
	if err := units.Check("temperature", at.Celsius(), density.MinTemperature, density.MaxTemperature, "C", density.SourceEthanol); err != nil {
		return 0, err
	}
	return density.FreezingFraction(at.Celsius()), nil
}

// Unfrozen refuses a temperature outside the formula and a spirit of mass
// fraction p that is partly frozen there.
func Unfrozen(p float64, at units.Temperature) error {
	lo, err := Weakest(at)
	if err != nil || p >= lo {
		return err
	}
	s := density.ByVolume(p)
	e := units.OutOfRange(fmt.Sprintf("spirit at %.4g C", at.Celsius()), "strength", s, density.ByVolume(lo), 100, "% vol", "freezing points from memory")
	e.Cause = fmt.Sprintf("a spirit of %.6g %% vol is partly frozen at %.4g C", s, at.Celsius())
	return e
}
