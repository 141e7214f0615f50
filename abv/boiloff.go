package abv

import (
	"fmt"
	"math"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// BoilOff is the strength and real extract of a wine from two true gravities at
// 20 C: of the degassed wine, and of its residue, the same measured volume
// boiled down until the alcohol is gone (a third to a half of a wine, common
// practice, no source) and made up with water to what it was, at the
// temperature it was measured at. The residue is a sugar solution and tells the
// extract; the strength follows from the density of the three components.
//
// Spirit vapour burns: boil it off over no open flame, in moving air, and never
// collect it where distilling is not allowed.
//
// Domain: residue 1 to 1.3499, wine not above residue, strength up to 60 % vol
// and together what Compose takes.
// 0.0005 in either gravity shifts the strength by 0.4 to 0.5 % vol. Source: as Compose;
// the procedure is that of OIV-MA-AS2-03B turned round. Error: *units.RangeError.
func BoilOff(wine, residue gravity.SG) (Composition, error) {
	extract, err := residue.Extract()
	if err != nil {
		return Composition{}, err
	}
	s, rho := float64(extract), float64(wine)*density.Water20
	strongest := strongestBoiled / 100 * density.PureEthanol
	if s > fullestBoiled {
		strongest = density.MostEthanol(s)
	}
	// Ethanol in place of as much water fills the litre.
	const rounding = 1e-5 // g of ethanol in a litre: gravities that are right to 1e-9
	e, err := solve.Rising(func(e float64) (float64, float64) {
		v := density.VolumePartials20(e, s, rho-e-s)
		return v.V - 1, v.E - v.W
	}, float64(residue-wine)*density.Water20/0.16, 0, strongest, 1e-6, rounding)
	if err != nil || rho < e+s { // no water is less than none
		lightest := (strongest + s + density.WaterIn(strongest, s)) / density.Water20
		return Composition{}, units.OutOfRange(fmt.Sprintf("wine with a residue of %.5g", float64(residue)), "gravity of the wine",
			float64(wine), lightest, float64(residue), "", fmt.Sprintf("no alcohol to %.3g %% vol, %s", float64(liquid.StrengthOf(strongest, 1)), density.SourceMixture))
	}
	return Composition{Strength: liquid.StrengthOf(e, 1), Extract: extract, Gravity: wine, found: &boiledOff}, nil
}

var (
	boiledOff  = figure.Method{Method: "density of the wine and of its residue without alcohol, three components", Source: "procedure of OIV-MA-AS2-03B; " + density.SourceMixture}
	byTabarie  = figure.Method{Method: "Tabarie's rule: density of the wine less that of the residue, and water", Source: "OIV-MA-AS2-03B; " + density.SourceEthanol}
	turnedBack = figure.Method{Method: "extract left and extract that made the alcohol, by Balling's yield", Source: balance.Source}
)

// strongestBoiled in % vol: past it nobody boils for analysis.
const strongestBoiled = 60.0

// fullestBoiled in g/L: with more extract such a strength cannot be.
var fullestBoiled = density.MostExtract(strongestBoiled)

// Evaporation is a boil-off in full.
type Evaporation struct {
	Composition
	// Tabarie is the strength by the classic rule: the density of the spirit in
	// the wine is that of the wine less the residue plus water.
	Tabarie units.Strength
	// Model is the standard uncertainty of the strength from the density model:
	// how far the two rules part.
	Model units.Strength
	// Original is the extract of the must before it fermented, OriginalGravity its
	// gravity; both mean nothing once spirit has been added.
	Original        gravity.Plato
	OriginalGravity gravity.SG
}

// BoilOffInFull is BoilOff beside Tabarie's rule, with the original extract by
// the yield y. Domain as BoilOff, and an original extract of at most 70 %.
// Error: *units.RangeError.
func BoilOffInFull(wine, residue gravity.SG, y Yield) (Evaporation, error) {
	c, err := BoilOff(wine, residue)
	if err != nil {
		return Evaporation{}, err
	}
	b := Evaporation{Composition: c}
	if b.Original, err = OriginalExtract(c, y); err != nil {
		return Evaporation{}, err
	}
	if b.OriginalGravity, err = b.Original.SG(); err != nil {
		return Evaporation{}, err
	}
	if b.Tabarie, err = tabarie(wine, residue); err != nil {
		return Evaporation{}, err
	}
	b.Model = units.Strength(math.Abs(float64(b.Tabarie - c.Strength)))
	return b, nil
}

// tabarie is the strength of the spirit as heavy as wine less residue plus water.
// Heavier than water, by the rounding of two formulas, is water.
func tabarie(wine, residue gravity.SG) (units.Strength, error) {
	rho := float64(1+wine-residue) * density.Water20
	if rho >= density.Ethanol(0, 20) {
		return 0, nil
	}
	p, ok := density.EthanolFraction(rho, 20)
	if !ok {
		return 0, units.OutOfRange("", "density of the spirit in the wine", rho, density.PureEthanol, density.Ethanol(0, 20), "kg/m3", "Tabarie's rule, "+density.SourceEthanol)
	}
	return units.Strength(density.ByVolume(p)), nil
}

// BoilOffWithin is the strength in % vol by BoilOff with its uncertainty and
// budget: of the two true gravities (SG) and of the model, as in Evaporation.
// Domain as BoilOff. Errors as BoilOff and uncertainty.Propagate.
func BoilOffWithin(wine, residue uncertainty.Input) (uncertainty.Result, error) {
	c, err := BoilOff(gravity.SG(wine.Value), gravity.SG(residue.Value))
	if err != nil {
		return uncertainty.Result{}, err
	}
	classic, err := tabarie(gravity.SG(wine.Value), gravity.SG(residue.Value))
	if err != nil {
		return uncertainty.Result{}, err
	}
	model := math.Abs(float64(classic - c.Strength))
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		c, err := BoilOff(gravity.SG(x[0]), gravity.SG(x[1]))
		return float64(c.Strength) + x[2], err
	}, []uncertainty.Input{wine, residue, {Name: "model", Standard: model}}, nil)
}

// BallingBoilOff is Balling's full test of a beer: from the apparent extract m
// of the beer and the real extract n of the beer boiled off, the original
// extract p and the alcohol in % mass. D = n - m, p = n + D/(q - 1) with the
// attenuation quotient q = 1.220 + 0.001 p, and A = (p - n) b. Made for beer;
// BoilOff asks for no quotient. Domain: apparent -5 to real, real 0 to 70, and an
// original extract of at most 70. Source: C. J. N. Balling, Die Gaerungschemie
// (1865). Error: *units.RangeError.
func BallingBoilOff(apparent, real gravity.Plato) (original gravity.Plato, alcohol units.MassPercent, err error) {
	if err := units.Check("real extract", float64(real), 0, 100*density.MaxSucrose, "% mass", density.SourceSucrose); err != nil {
		return 0, 0, err
	}
	if !(apparent >= -5 && apparent <= real) {
		return 0, 0, units.OutOfRange(fmt.Sprintf("beer of %.4g %% real extract", float64(real)), "apparent extract", float64(apparent), -5, float64(real), "% mass", balance.Source)
	}
	// (p - n) (q0 + 0.001 p) = D is a quadratic in p.
	n, d, q0 := float64(real), float64(real-apparent), ballingWort.q-1
	b := q0 - 0.001*n
	p := (math.Sqrt(b*b+0.004*(q0*n+d)) - b) / 0.002
	if err := units.Check("original extract of this beer", p, 0, 100*density.MaxSucrose, "% mass", balance.Source); err != nil {
		return 0, 0, err
	}
	return gravity.Plato(p), units.MassPercent(ballingWort.alcohol(p, n)), nil
}
