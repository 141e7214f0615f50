package spirit

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Obscured is what an alcoholometer falsely shows at 20 C in a liquid that holds
// extract: sugar makes it denser, so it seems weaker. In a fortified wine the
// instrument shows next to nothing. Domain: a composition as Compose takes it,
// not denser than water. Accuracy: that of Compose over the slope of the
// scale, 0.2 % vol at 40 % vol with 10 g/L. Error: *units.RangeError.
func Obscured(s units.Strength, extract units.Concentration) (units.Strength, error) {
	c, err := abv.Compose(s, extract)
	if err != nil {
		return 0, err
	}
	apparent, ok := shownIn(float64(c.Gravity) * density.Water20)
	if !ok {
		e := units.OutOfRange(fmt.Sprintf("spirit of %.4g %% vol with %.4g g/L", float64(s), float64(extract)), "gravity of the spirit",
			float64(c.Gravity), density.PureEthanol/density.Water20, density.Ethanol20(0)/density.Water20, "", "the scale of the alcoholometer")
		if e.Value > e.Max {
			e.Cause = "so much sugar makes it heavier than water, where an alcoholometer shows nothing"
		}
		return 0, e
	}
	return apparent, nil
}

// shownIn is the alcoholometer's reading in a liquid of density rho at 20 C.
func shownIn(rho float64) (units.Strength, bool) {
	// Water by either of two formulas, 2e-6 apart, is water.
	if over := rho/density.Ethanol20(0) - 1; over > 0 && over < 2.5e-6 {
		return 0, true
	}
	p, ok := density.EthanolFraction(rho, 20)
	return units.Strength(density.ByVolume(p)), ok
}

// Unobscured is the true strength of a sweet spirit from what an alcoholometer
// shows in it at 20 C (elsewhere, TrueStrength first) and its extract: from a
// recipe, or the residue weighed. Domain: apparent 0 to 100 % vol, extract 0
// to 900 g/L, as far as such a liquid exists. Accuracy as Obscured.
// Error: *units.RangeError.
func Unobscured(apparent units.Strength, extract units.Concentration) (units.Strength, error) {
	if err := check.Strength("apparent strength", apparent); err != nil {
		return 0, err
	}
	if err := units.Check("extract", float64(extract), 0, 900, "g/L", density.SourceMixture); err != nil {
		return 0, err
	}
	if extract == 0 {
		return apparent, nil
	}
	// A litre weighs what the reading says; ethanol takes the place of water
	// until it fills the litre.
	rho, s := density.Ethanol20(density.ByMass(float64(apparent))), float64(extract)
	most := rho - s/density.MaxSucrose
	e, err := solve.Rising(func(e float64) (float64, float64) {
		v := density.VolumePartials20(e, s, rho-s-e)
		return v.V - 1, v.E - v.W
	}, rho*density.ByMass(float64(apparent)), 0, max(most, 0), 1e-6, 0)
	if err != nil || most < 0 {
		return 0, units.OutOfRange(fmt.Sprintf("spirit with %.4g g/L of extract", s), "apparent strength", float64(apparent), 0, float64(strongestShown(extract)), "% vol", density.SourceMixture)
	}
	return liquid.StrengthOf(e, 1), nil
}

// strongestShown is the reading in the strongest liquid that holds so much
// extract.
func strongestShown(extract units.Concentration) units.Strength {
	e, s := density.MostEthanol(float64(extract)), float64(extract)
	shown, ok := shownIn(e + s/density.MaxSucrose)
	if !ok {
		return 0 // denser than water: the scale does not go there
	}
	return shown
}

// USObscuration is the proof that a US gauger adds for dissolved solids: 0.4
// for every 0.1 g per 100 mL, where they are from 0.4 to 0.6 g per 100 mL.
// Outside, distil or use Unobscured. Source: 27 CFR 30.31, 30.32.
// Error: *units.RangeError.
func USObscuration(solids units.Concentration) (proof float64, err error) {
	if err := units.Check("dissolved solids", float64(solids), 4, 6, "g/L", "27 CFR 30.32"); err != nil {
		return 0, err
	}
	return 0.4 * float64(solids), nil
}
