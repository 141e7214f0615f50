package spirit

import (
	"fmt"
	"math"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// An alcoholometer is right at its basis temperature. Elsewhere it floats where
// rho(p,t) (1 + g (t - basis)) is the density that its scale was drawn for.
type alcoholometer struct {
	basis          float64 // in C
	degree         float64 // scale divisions per % vol
	quantity, unit string
}

var (
	glassAt20C = alcoholometer{20, 1, "apparent strength", "% vol"}
	glassAt60F = alcoholometer{density.SixtyF, 2, "proof hydrometer reading", "proof"}
)

// contents is the mass fraction of ethanol in a liquid at temperature at in
// which the instrument shows reading.
func (a alcoholometer) contents(reading float64, at units.Temperature) (float64, error) {
	lo, err := check.Weakest(at)
	if err != nil {
		return 0, err
	}
	if err := units.Check(a.quantity, reading, 0, 100*a.degree, a.unit, density.SourceEthanol); err != nil {
		return 0, err
	}
	t := at.Celsius()
	if t == a.basis {
		return density.ByMassAt(reading/a.degree, t), nil
	}
	drawn := density.Ethanol(density.ByMassAt(reading/a.degree, a.basis), a.basis)
	p, ok := density.EthanolFraction(drawn/(1+density.Glass*(t-a.basis)), t)
	if !ok {
		return 0, units.OutOfRange(fmt.Sprintf("spirit at %.4g C", t), a.quantity, reading,
			max(0, a.shown(lo, t)), min(100*a.degree, a.shown(1, t)), a.unit, "water to pure alcohol, "+density.SourceEthanol)
	}
	return p, nil
}

// shown is the reading in a liquid of mass fraction p at t; infinite where the
// instrument sinks or floats beyond its scale.
func (a alcoholometer) shown(p, t float64) float64 {
	if t == a.basis {
		return a.degree * density.ByVolumeAt(p, t)
	}
	rho := density.Ethanol(p, t) * (1 + density.Glass*(t-a.basis))
	at, ok := density.EthanolFraction(rho, a.basis)
	switch {
	case ok:
		return a.degree * density.ByVolumeAt(at, a.basis)
	case rho > density.Ethanol(0, a.basis):
		return math.Inf(-1)
	}
	return math.Inf(1)
}

func (a alcoholometer) reading(s units.Strength, at units.Temperature) (float64, error) {
	if err := check.Strength("strength", s); err != nil {
		return 0, err
	}
	p := density.ByMass(float64(s))
	if err := check.Unfrozen(p, at); err != nil {
		return 0, err
	}
	shown := a.shown(p, at.Celsius())
	if math.IsInf(shown, 0) {
		weak, strong := 0.0, 1.0
		if p, err := a.contents(0, at); err == nil {
			weak = p
		}
		if p, err := a.contents(100*a.degree, at); err == nil {
			strong = p
		}
		return 0, units.OutOfRange(fmt.Sprintf("spirit at %.4g C", at.Celsius()), "strength", float64(s),
			density.ByVolume(weak), density.ByVolume(strong), "% vol", "the scale of the alcoholometer")
	}
	return shown, nil
}

// TrueStrength is the strength at 20 C of a spirit without sugar in which a
// glass alcoholometer graduated at 20 C shows apparent at this temperature.
// Domain 0 to 100 % vol, -20 to 40 C, between water and pure alcohol. The
// instrument's own error and sugar (see Obscured) come on top. Source:
// OIML R 22, glass of 25e-6 per C. Error: *units.RangeError.
func TrueStrength(apparent units.Strength, at units.Temperature) (units.Strength, error) {
	p, err := glassAt20C.contents(float64(apparent), at)
	if err != nil {
		return 0, err
	}
	return units.Strength(density.ByVolume(p)), nil
}

// ApparentStrength is what a glass alcoholometer graduated at 20 C shows at
// this temperature in a spirit without sugar. Domain as TrueStrength; a reading
// off the scale is a *units.RangeError.
func ApparentStrength(s units.Strength, at units.Temperature) (units.Strength, error) {
	shown, err := glassAt20C.reading(s, at)
	return units.Strength(shown), err
}

// TrueUSProof is US Gauging Table 1: the true proof from the reading of a glass
// proof hydrometer, graduated at 60 F. Domain 0 to 200 proof, -20 to 40 C,
// between water and pure alcohol; within 0.05 proof of the printed tenths.
// Error: *units.RangeError.
func TrueUSProof(reading float64, at units.Temperature) (float64, error) {
	p, err := glassAt60F.contents(reading, at)
	if err != nil {
		return 0, err
	}
	return 2 * density.ByVolumeAt(p, density.SixtyF), nil
}
