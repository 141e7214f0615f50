package abv

import (
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// An Estimate is the strength by one method from two gravities.
type Estimate struct {
	Key      string // of its figure
	Method   string
	Assumes  string
	Strength units.Strength
	// RMS is the method's root-mean-square error in % vol against the 17 worts
	// and beers of USDA Bulletin 493 at hand, where alcohol was measured by
	// distillation; zero where it was not compared. Sweet wines may be worse.
	RMS units.Strength
	Err error // outside this method's domain: Strength is then zero
}

// A Comparison holds every method's answer and the one to believe.
type Comparison struct {
	Original, Final gravity.SG
	Estimates       []Estimate     // the recommended one first
	Spread          units.Strength // highest less lowest of those in their domain
	Recommended     Fermented      // the mass balance with the caller's yield
	Reason          string
}

const balanceReason = "only the mass balance follows the density of a liquid that still holds sugar; " +
	"the other formulas were fitted to beers and dry wines"

var methods = []struct {
	key, method, assumes string
	strength             func(og, fg gravity.SG) (units.Strength, error)
	rms                  units.Strength
}{
	{"strength_balance_wort", "mass balance, wort yield", "mass conserved, 2.0665 g extract per g alcohol, extract counts as sucrose, density of the three components", balanced(wortYield), 0.16},
	{"strength_balance_must", "mass balance, must yield", "the same with 2.0009 g extract per g alcohol, for fruit and sugar", balanced(mustYield), 0.25},
	{"strength_official_factor", "official factor", "British beer; the factor grows with the gravity lost, whatever sugar is left", OfficialFactor, 0.15},
	{"strength_simple", "simple", "gravity lost is in one proportion to alcohol", Simple, 0.16},
	{"strength_balling_wort", "Balling, wort", "Balling's attenuation quotient, worts of 9 to 16 % fermented far", Balling, 0.18},
	{"strength_balling_must", "Balling, must", "the same for grape musts near 20 %", BallingMust, 0.38},
	{"strength_alternative", "alternative", "coefficients from memory; runs high where much sugar is left", Alternative, 0.33},
}

func balanced(y Yield) func(og, fg gravity.SG) (units.Strength, error) {
	return func(og, fg gravity.SG) (units.Strength, error) {
		f, err := MassBalance(og, fg, y)
		return f.Strength, err
	}
}

// Compare gives the strength by every method side by side, with the spread, what
// each assumes and how well it did against measured beers, and the one to
// believe: the mass balance with the yield y. Domain as MassBalance; a method
// outside its own domain says so in its Err. Error: *units.RangeError.
func Compare(og, fg gravity.SG, y Yield) (Comparison, error) {
	f, err := MassBalance(og, fg, y)
	if err != nil {
		return Comparison{}, err
	}
	c := Comparison{Original: og, Final: fg, Recommended: f, Reason: balanceReason}
	if y != wortYield && y != mustYield {
		c.Estimates = append(c.Estimates, Estimate{Key: "strength_balance_own", Method: "mass balance, own yield", Assumes: methods[0].assumes, Strength: f.Strength})
	}
	for _, r := range methods {
		e := Estimate{Key: r.key, Method: r.method, Assumes: r.assumes, RMS: r.rms}
		e.Strength, e.Err = r.strength(og, fg)
		c.Estimates = append(c.Estimates, e)
	}
	if y == mustYield {
		c.Estimates[0], c.Estimates[1] = c.Estimates[1], c.Estimates[0]
	}
	lo, hi := f.Strength, f.Strength
	for _, e := range c.Estimates {
		if e.Err == nil {
			lo, hi = min(lo, e.Strength), max(hi, e.Strength)
		}
	}
	c.Spread = hi - lo
	return c, nil
}
