package spirit

import (
	"fmt"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

// Reduction is a spirit brought down with water.
type Reduction struct {
	Water       units.Volume // to add
	WaterMass   units.Mass   // the same, weighed in vacuo (in air 0.1 % less)
	Result      units.Volume
	Contraction units.Volume // spirit and water less the result; below zero where weak spirit swells
}

var byReduction = figure.Method{Method: "mass of alcohol conserved, true volumes", Source: density.SourceEthanol}

// Reduce is the water that brings a volume of spirit without sugar from one
// strength down to another, all at 20 C, by the mass balance: the volumes do
// not add up. Domain: from above 0 to 100 % vol, to above 0 and not above from,
// v zero or more. Error: *units.RangeError. Source: OIML R 22.
func Reduce(v units.Volume, from, to units.Strength) (Reduction, error) {
	if err := checkReduction(from, to); err != nil {
		return Reduction{}, err
	}
	return reduceAt(v, density.ByMass(float64(from)), density.ByMass(float64(to)), 20)
}

// ReduceByMass is the mass of water that brings a mass of spirit without sugar
// from one strength down to another. Domain as Reduce. Error:
// *units.RangeError.
func ReduceByMass(spirit units.Mass, from, to units.Strength) (water units.Mass, err error) {
	if err := check.Mass("mass of spirit", spirit); err != nil {
		return 0, err
	}
	if err := checkReduction(from, to); err != nil {
		return 0, err
	}
	return spirit * units.Mass(density.ByMass(float64(from))/density.ByMass(float64(to))-1), nil
}

// ReduceUSProof is Reduce with proofs, and volumes at 60 F (27 CFR 30.66).
// Domain: proofs above 0 to 200, to not above from, v zero or more. Error:
// *units.RangeError.
func ReduceUSProof(v units.Volume, from, to float64) (Reduction, error) {
	strong, err := FromUSProof(from)
	if err != nil {
		return Reduction{}, err
	}
	weak, err := FromUSProof(to)
	if err != nil {
		return Reduction{}, err
	}
	if err := checkReduction(strong, weak); err != nil {
		return Reduction{}, err
	}
	return reduceAt(v, density.ByMass(float64(strong)), density.ByMass(float64(weak)), density.SixtyF)
}

const weakestReduced = 0.01 // % vol: below, the water grows without bound

func checkReduction(from, to units.Strength) error {
	if err := units.Check("strength of the spirit", float64(from), weakestReduced, 100, "% vol", density.SourceEthanol); err != nil {
		return err
	}
	if to >= weakestReduced && to <= from {
		return nil
	}
	e := units.OutOfRange(fmt.Sprintf("spirit of %.4g %% vol", float64(from)), "strength after reduction", float64(to), weakestReduced, float64(from), "% vol", density.SourceEthanol)
	if to > from {
		e.Cause = fmt.Sprintf("strength after reduction %.4g %% vol is above that of the spirit %.4g %% vol: swapped?", float64(to), float64(from))
	}
	return e
}

// reduceAt reduces mass fraction from to mass fraction to, volumes at t.
func reduceAt(v units.Volume, from, to, t float64) (Reduction, error) {
	if err := check.Volume("volume of spirit", v); err != nil {
		return Reduction{}, err
	}
	mass := float64(v) * density.Ethanol(from, t)
	water := mass * (from/to - 1)
	r := Reduction{
		Water:     units.Volume(water / density.Ethanol(0, t)),
		WaterMass: units.Mass(water),
		Result:    units.Volume((mass + water) / density.Ethanol(to, t)),
	}
	r.Contraction = v + r.Water - r.Result
	return r, nil
}
