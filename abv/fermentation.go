package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
)

// Yield says what becomes of the extract for every gram of alcohol made: this
// many grams of carbon dioxide and of new yeast leave the liquid. The extract
// used is their sum and the gram of alcohol, so mass is conserved.
// Domain: CarbonDioxide 0.8 to 1.2, Yeast 0 to 0.5.
type Yield struct{ CarbonDioxide, Yeast float64 }

// Balling's yields: 2.0665 g of extract of wort (Die Gaerungschemie, 3rd ed.
// 1865) and 2.0009 g of extract of grape must (the wine volume) make 1 g of
// alcohol. Sugared fruit juice stands nearer to the must.
var (
	Wort = Yield{CarbonDioxide: 0.9565, Yeast: 0.11}
	Must = Yield{CarbonDioxide: 0.9565, Yeast: 0.0444}
)

// ParseYield reads "must" or "wort". Error: *units.ParseError.
func ParseYield(text string) (Yield, error) {
	switch text {
	case "must":
		return Must, nil
	case "wort":
		return Wort, nil
	}
	return Yield{}, &units.ParseError{Text: text, Quantity: "yield", Expected: []string{"must (fruit juice)", "wort"}}
}

const sourceBalling = "C. J. N. Balling, Die Gaerungschemie (1865)"

// extract is the grams of extract used per gram of alcohol.
func (y Yield) extract() float64 { return 1 + y.CarbonDioxide + y.Yeast }

// PerPercent is the grams of extract per litre of wine that one % vol of alcohol
// is made of: 16.3 for wort, 15.8 for must.
func (y Yield) PerPercent() float64 { return y.extract() * density.PureEthanol / 100 }

func (y Yield) check() error {
	if err := units.Check("carbon dioxide per gram of alcohol", y.CarbonDioxide, 0.8, 1.2, "g", sourceBalling); err != nil {
		return err
	}
	return units.Check("yeast per gram of alcohol", y.Yeast, 0, 0.5, "g", sourceBalling)
}

// after gives the grams of ethanol, extract and water that are left of 100 g of
// must of p % extract when a grams of alcohol have been made. Carbon dioxide
// and yeast have left.
func (y Yield) after(p, a float64) (e, s, w float64) { return a, p - y.extract()*a, 100 - p }

// Fermented is what fermentation has made of a must, at 20 C.
type Fermented struct {
	Strength      units.Strength
	Extract       units.Concentration // real extract left, per litre of the wine
	SugarUsed     units.Concentration // extract used, per litre of the must as it was at the start
	CarbonDioxide units.Concentration // given off, per litre of the must as it was at the start
	Yeast         units.Concentration // grown, dry, per litre of the must as it was at the start
	VolumeRatio   float64             // litres of wine per litre of must
	Gravity       gravity.SG          // what a spindle shows in the wine, degassed, at 20 C
}

// solvedTo is in grams of alcohol per 100 g of must. A Newton step this small
// leaves an error of its square.
const solvedTo = 2e-5

// mustExtract is the extract in % mass of the must at the start.
func mustExtract(og gravity.SG, y Yield) (float64, error) {
	if err := units.Check("original gravity", float64(og), 1, density.HeaviestGravity, "", density.SourceSucrose); err != nil {
		return 0, err
	}
	if err := y.check(); err != nil {
		return 0, err
	}
	return 100 * density.SucroseOfGravity(float64(og)), nil
}

// MassBalance is the wine that must of gravity og has become when the spindle
// shows fg: the one amount of alcohol for which the mass that is left has that
// density (carbon dioxide and yeast gone; density of the three components
// together). og 1 to 1.3499; fg from dry to og.
//
// Against 17 measured American beers (USDA Bulletin 493) its root-mean-square
// error is 0.16 % vol with the wort yield. Errors: *units.RangeError for either
// gravity or a yield outside its domain; fg above og names both.
func MassBalance(og, fg gravity.SG, y Yield) (Fermented, error) {
	p, err := mustExtract(og, y)
	if err != nil {
		return Fermented{}, err
	}
	if !(fg > 0 && fg <= og) {
		return Fermented{}, outsideFermentation(og, fg, p, y)
	}
	rho, lost, most := float64(fg)*density.Water20, y.extract()-1, p/y.extract()
	// First guess: our own least-squares fit, within 0.014 g to 30 % extract,
	// from which two Newton steps reach rounding.
	drop := 1 - float64(fg/og)
	guess := 100 * drop / (lost - (0.61085*y.extract() - 1.19136 + 0.001254*p + drop*(0.2427-1.0876*drop)))
	a, err := solve.Rising(func(a float64) (float64, float64) {
		v := density.VolumePartials20(y.after(p, a))
		return rho*v.V - 100 + lost*a, rho*(v.E-y.extract()*v.S) + lost
	}, min(guess, most), 0, most, solvedTo, 0)
	if err != nil {
		// Rounding alone may put the root of an unfermented or a dry wine outside.
		const rounding = 1e-9
		switch {
		case og-fg < rounding:
			a = 0
		case fg-dryGravity(p, y) > -rounding:
			a = most
		default:
			return Fermented{}, outsideFermentation(og, fg, p, y)
		}
	}
	return y.fermented(og, p, a), nil
}

// Potential is the wine when all extract has fermented. og 1 to 1.3499; above
// about 1.14 no common yeast gets there. Error: *units.RangeError.
func Potential(og gravity.SG, y Yield) (Fermented, error) {
	p, err := mustExtract(og, y)
	if err != nil {
		return Fermented{}, err
	}
	return y.fermented(og, p, p/y.extract()), nil
}

// fermented gives the wine when a grams of alcohol have been made from 100 g
// of must of gravity og with p % extract.
func (y Yield) fermented(og gravity.SG, p, a float64) Fermented {
	e, s, w := y.after(p, a)
	s = max(s, 0) // rounding at the dry end
	v := density.Volume20(e, s, w)
	must := 100 / (float64(og) * density.Water20) // litres
	return Fermented{
		Strength:      units.Strength(100 * e / (density.PureEthanol * v)),
		Extract:       units.Concentration(s / v),
		SugarUsed:     units.Concentration(y.extract() * a / must),
		CarbonDioxide: units.Concentration(y.CarbonDioxide * a / must),
		Yeast:         units.Concentration(y.Yeast * a / must),
		VolumeRatio:   v / must,
		Gravity:       min(og, gravity.SG((e+s+w)/v/density.Water20)), // rounding may pass it
	}
}

func dryGravity(p float64, y Yield) gravity.SG {
	e, _, w := y.after(p, p/y.extract())
	return gravity.SG((e + w) / density.Volume20(e, 0, w) / density.Water20)
}

// outsideFermentation names both gravities and what the second could be.
func outsideFermentation(og, fg gravity.SG, p float64, y Yield) error {
	return &units.RangeError{
		Quantity: fmt.Sprintf("final gravity of a must of original gravity %.5g:", float64(og)),
		Value:    float64(fg), Min: float64(dryGravity(p, y)), Max: float64(og),
		Source: "fermented out to not begun, " + sourceBalling,
	}
}

// StopAt is the reading to wait for: what a spindle shows in the degassed wine
// at 20 C when must of gravity og has reached target. Fermentation runs on
// while it is being stopped: act before the reading is reached. og 1 to
// 1.3499; target from 0 to the strength fermented out (Potential).
// Error: *units.RangeError, which states the strength that is reachable.
func StopAt(og gravity.SG, target units.Strength, y Yield) (gravity.SG, error) {
	p, err := mustExtract(og, y)
	if err != nil {
		return 0, err
	}
	a, err := alcoholFor(og, target, p, y)
	if err != nil {
		return 0, err
	}
	return y.fermented(og, p, a).Gravity, nil
}

// alcoholFor is the grams of alcohol made from 100 g of must at this strength.
func alcoholFor(og gravity.SG, target units.Strength, p float64, y Yield) (float64, error) {
	perLitre, most := float64(target)/100*density.PureEthanol, p/y.extract()
	if !(target >= 0 && target <= 100) {
		return 0, strengthNotReached(og, target, p, y)
	}
	guess := perLitre * 100 / (float64(og) * density.Water20) // a litre of must stays nearly a litre
	a, err := solve.Rising(func(a float64) (float64, float64) {
		v := density.VolumePartials20(y.after(p, a))
		return a - perLitre*v.V, 1 - perLitre*(v.E-y.extract()*v.S)
	}, min(guess, most), 0, most, solvedTo, 0)
	if err != nil {
		if float64(y.fermented(og, p, most).Strength-target) < -1e-9 {
			return 0, strengthNotReached(og, target, p, y)
		}
		a = most
	}
	return a, nil
}

func strengthNotReached(og gravity.SG, target units.Strength, p float64, y Yield) error {
	return units.Check(fmt.Sprintf("strength from a must of original gravity %.5g:", float64(og)), float64(target),
		0, float64(y.fermented(og, p, p/y.extract()).Strength), "% vol", "fermented out, "+sourceBalling)
}
