// Package balance is the mass balance of a fermentation: what is left of 100 g
// of must when so many grams of alcohol have been made, and how much alcohol a
// gravity, a strength or an extract stands for.
package balance

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Source of the yields.
const Source = "C. J. N. Balling, Die Gaerungschemie (1865)"

// A Yield is the grams of carbon dioxide and of new yeast that leave the liquid
// for every gram of alcohol made.
type Yield struct{ CarbonDioxide, Yeast float64 }

// Extract is the grams of extract used per gram of alcohol.
func (y Yield) Extract() float64 { return 1 + y.CarbonDioxide + y.Yeast }

// Check refuses what no yeast does. Error: *units.RangeError.
func (y Yield) Check() error {
	if err := units.Check("carbon dioxide per gram of alcohol", y.CarbonDioxide, 0.8, 1.2, "g", Source); err != nil {
		return err
	}
	return units.Check("yeast per gram of alcohol", y.Yeast, 0, 0.5, "g", Source)
}

// A Must is 100 g of must at the start.
type Must struct {
	Gravity float64 // SG 20/20
	Extract float64 // % mass
	Yield   Yield
}

// Of is the must of this gravity. Domain: gravity 1 to density.HeaviestGravity,
// the yield as Check. Error: *units.RangeError.
func Of(gravity float64, y Yield) (Must, error) {
	// Compared here as well: the checks are a tenth of a whole balance.
	if !(gravity >= 1 && gravity <= density.HeaviestGravity) {
		return Must{}, check.NotFermented(units.Check("original gravity", gravity, 1, density.HeaviestGravity, "", density.SourceSucrose))
	}
	if !(y.CarbonDioxide >= 0.8 && y.CarbonDioxide <= 1.2 && y.Yeast >= 0 && y.Yeast <= 0.5) {
		return Must{}, y.Check()
	}
	return Must{gravity, 100 * density.SucroseOfGravity(gravity), y}, nil
}

// Most is the alcohol in g when all extract has fermented.
func (m *Must) Most() float64 { return m.Extract / m.Yield.Extract() }

// After is what is left when a grams of alcohol have been made. Carbon dioxide
// and yeast have left.
func (m *Must) After(a float64) liquid.Masses {
	return liquid.Masses{Ethanol: a, Sucrose: m.Extract - m.Yield.Extract()*a, Water: 100 - m.Extract}
}

// Litres is the volume at 20 C.
func (m *Must) Litres() float64 { return 100 / (m.Gravity * density.Water20) }

// ExtractPerLitre is g/L.
func (m *Must) ExtractPerLitre() float64 { return m.Gravity * density.Water20 * m.Extract / 100 }

// A Wine is what the must has become, at 20 C. G is the caller's type of gravity,
// so that the caller's own struct of the same fields is a conversion away.
type Wine[G ~float64] struct {
	Strength                        units.Strength
	Extract                         units.Concentration // left, per litre of the wine
	SugarUsed, CarbonDioxide, Yeast units.Concentration // per litre of the must
	VolumeRatio                     float64             // litres of wine per litre of must
	Gravity                         G                   // SG 20/20
}

// Ferment is the wine when a grams of alcohol have been made.
func Ferment[G ~float64](m *Must, a float64) Wine[G] {
	left, used := m.After(a), m.Yield.Extract()*a
	left.Sucrose = max(left.Sucrose, 0) // rounding at the dry end
	v, must := left.Volume(), m.Litres()
	return Wine[G]{
		Strength:      liquid.StrengthOf(left.Ethanol, v),
		Extract:       units.Concentration(left.Sucrose / v),
		SugarUsed:     units.Concentration(used / must),
		CarbonDioxide: units.Concentration(m.Yield.CarbonDioxide * a / must),
		Yeast:         units.Concentration(m.Yield.Yeast * a / must),
		VolumeRatio:   v / must,
		Gravity:       G(min(m.Gravity, left.Mass()/v/density.Water20)), // rounding may pass it
	}
}

// Dry is the gravity when all extract has fermented.
func (m *Must) Dry() float64 { return Ferment[float64](m, m.Most()).Gravity }

const (
	// solvedTo is in grams of alcohol. A Newton step this small leaves an error of
	// its square.
	solvedTo = 2e-5
	// rounding in grams of alcohol: of a strength that is right to 1e-9 % vol, and
	// of a gravity that is right to 1e-9.
	rounding          = 1e-9
	roundingOfGravity = 1e-7
)

// ForGravity is the alcohol made when the wine has this gravity: the one amount
// for which the mass that is left has that density. Error: solve.ErrNoRoot
// outside Dry to the must's own.
func (m *Must) ForGravity(gravity float64) (float64, error) {
	if !(gravity > 0 && gravity <= m.Gravity) {
		return 0, solve.ErrNoRoot
	}
	if m.Gravity-gravity < 1e-15 { // the must itself, to the last bits of a float64
		return 0, nil
	}
	p, k := m.Extract, m.Yield.Extract()
	rho, lost, most := gravity*density.Water20, k-1, p/k
	// First guess: our own least-squares fit, within 0.014 g to 30 % extract,
	// from which two Newton steps reach rounding.
	drop := 1 - gravity/m.Gravity
	guess := 100 * drop / (lost - (0.61085*k - 1.19136 + 0.001254*p + drop*(0.2427-1.0876*drop)))
	return solve.Rising(func(a float64) (float64, float64) {
		v := density.VolumePartials20(a, p-k*a, 100-p) // After
		return rho*v.V - 100 + lost*a, rho*(v.E-k*v.S) + lost
	}, min(guess, most), 0, most, solvedTo, roundingOfGravity)
}

// ForStrength is the alcohol made when the wine has this strength. Error:
// solve.ErrNoRoot where the must does not reach it.
func (m *Must) ForStrength(strength units.Strength) (float64, error) {
	if !(strength >= 0 && strength <= 100) {
		return 0, solve.ErrNoRoot
	}
	p, k := m.Extract, m.Yield.Extract()
	perLitre, most := float64(strength)/100*density.PureEthanol, p/k
	guess := perLitre * m.Litres() // a litre of must stays nearly a litre
	return solve.Rising(func(a float64) (float64, float64) {
		v := density.VolumePartials20(a, p-k*a, 100-p) // After
		return a - perLitre*v.V, 1 - perLitre*(v.E-k*v.S)
	}, min(guess, most), 0, most, solvedTo, rounding)
}

// ForExtract is the alcohol made when so much extract is left in a litre of the
// wine. Error: solve.ErrNoRoot where the must has not so much.
func (m *Must) ForExtract(extract units.Concentration) (float64, error) {
	x, k, most := float64(extract), m.Yield.Extract(), m.Most()
	if !(x >= 0) {
		return 0, solve.ErrNoRoot
	}
	return solve.Rising(func(a float64) (float64, float64) {
		left := m.After(a)
		v := left.Partials()
		return x*v.V - left.Sucrose, x*(v.E-k*v.S) + k
	}, most*(1-x/max(m.ExtractPerLitre(), 1e-9)), 0, most, solvedTo, rounding)
}
