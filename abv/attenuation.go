package abv

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/units"
)

// ApparentAttenuation is how much of the extract the hydrometer no longer shows,
// (p - m)/p, as a fraction. It passes 1 in a wine that is lighter than water.
// Domain: original above 0 to 70, apparent -5 to original (see
// gravity.SG.ApparentExtract). Source: C. J. N. Balling. Error: *units.RangeError.
func ApparentAttenuation(original, apparent gravity.Plato) (float64, error) {
	return attenuation(original, apparent, -5, "apparent extract")
}

// RealAttenuation is how much of the extract is gone, (p - n)/p, as a fraction,
// from the real extract n. Domain: original above 0 to 70, real 0 to original.
// Source: C. J. N. Balling. Error: *units.RangeError.
func RealAttenuation(original, real gravity.Plato) (float64, error) {
	return attenuation(original, real, 0, "real extract")
}

func attenuation(original, now gravity.Plato, lo float64, quantity string) (float64, error) {
	if err := checkOriginal(original); err != nil {
		return 0, err
	}
	if !(float64(now) >= lo && now <= original) {
		return 0, units.OutOfRange(fmt.Sprintf("must of %.4g %% extract", float64(original)), quantity, float64(now), lo, float64(original), "% mass", balance.Source)
	}
	return float64((original - now) / original), nil
}

// thinnest is the least original extract that is divided by.
const thinnest = 0.1

func checkOriginal(original gravity.Plato) error {
	return units.Check("original extract", float64(original), thinnest, 100*density.MaxSucrose, "% mass", density.SourceSucrose)
}

// RealExtract is the wine of known strength that shows this gravity: its extract
// follows from the density of the three components. Domain: strength 0 to 100;
// gravity from that of the dry liquid up to 70 % sucrose in sucrose and water.
// Accuracy as Compose: 0.5 g/L up to 20 % vol and 100 g/L. Error:
// *units.RangeError.
func RealExtract(strength units.Strength, wine gravity.SG) (Composition, error) {
	dry, err := Compose(strength, 0)
	if err != nil {
		return Composition{}, err
	}
	s, _, ok := density.ExtractOf(float64(wine)*density.Water20, float64(strength), 20)
	if !ok {
		full, err := Compose(strength, units.Concentration(density.MostExtract(float64(strength))))
		if err != nil {
			return Composition{}, err
		}
		e := units.OutOfRange(fmt.Sprintf("wine of %.4g %% vol", float64(strength)), "gravity of the wine", float64(wine),
			float64(dry.Gravity), float64(full.Gravity), "", "from no extract up, "+density.SourceMixture)
		if wine < dry.Gravity {
			e.Cause = fmt.Sprintf("gravity %.6g means more alcohol than %.4g %% vol", float64(wine), float64(strength))
		}
		return Composition{}, e
	}
	return Composition{Strength: strength, Extract: units.Concentration(s), Gravity: wine, found: &fromStrength}, nil
}

var fromStrength = figure.Method{Method: "extract that gives the gravity at the stated strength, three components", Source: density.SourceMixture}

// OriginalExtract is the extract of the must that this wine was before it
// fermented with the yield y, in % mass:
//
//	p = 100 (n + k A) / (100 + (k - 1) A)
//
// with A % mass alcohol, n % mass real extract and k g of extract per gram of
// alcohol. Spirit or sugar added later counts as if it had been fermented.
// Domain: compositions that Compose takes whose original extract is at most 70.
// Source: C. J. N. Balling. Error: *units.RangeError.
func OriginalExtract(wine Composition, y Yield) (gravity.Plato, error) {
	if err := balance.Yield(y).Check(); err != nil {
		return 0, err
	}
	litre, err := liquid.PerLitre(wine.Strength, wine.Extract)
	if err != nil {
		return 0, err
	}
	before := litre.Sucrose + balance.Yield(y).Extract()*litre.Ethanol
	p := 100 * before / (before + litre.Water)
	if err := units.Check("original extract of this wine", p, 0, 100*density.MaxSucrose, "% mass", density.SourceSucrose); err != nil {
		return 0, err
	}
	return gravity.Plato(p), nil
}

// DegreeOfFermentation is the fraction of the original extract that has
// fermented, k A / (k A + E), in a wine of A alcohol and E real extract per
// litre. With k = 2 it is the degree of USDA Bulletin 493 (1917). Domain:
// compositions that Compose takes, with alcohol or extract in them. Error:
// *units.RangeError.
func DegreeOfFermentation(wine Composition, y Yield) (float64, error) {
	if err := balance.Yield(y).Check(); err != nil {
		return 0, err
	}
	litre, err := liquid.PerLitre(wine.Strength, wine.Extract)
	if err != nil {
		return 0, err
	}
	fermented := balance.Yield(y).Extract() * litre.Ethanol
	original := fermented + litre.Sucrose
	if err := units.Check("extract before fermentation", original, thinnest, 10000, "g/L", "there is nothing to ferment in water"); err != nil {
		return 0, err
	}
	return fermented / original, nil
}

// BallingRealExtract is the real extract that must of this original extract has
// left when the hydrometer shows this apparent one, from Balling's attenuation
// quotient q = 1.220 + 0.001 p of beer wort: n = p - (p - m)/q. He found it on
// worts of 9 to 16 %. RealExtract, which needs the strength, does not rest on it.
// Domain as ApparentAttenuation; the result may be below zero where the pair is
// drier than beer gets, and is then refused. Error: *units.RangeError.
func BallingRealExtract(original, apparent gravity.Plato) (gravity.Plato, error) {
	if _, err := ApparentAttenuation(original, apparent); err != nil {
		return 0, err
	}
	n := ballingWort.realExtract(float64(original), float64(apparent))
	if !(n >= 0 && n <= float64(original)) {
		return 0, units.OutOfRange(fmt.Sprintf("must of %.4g %% extract that shows %.4g %%", float64(original), float64(apparent)), "real extract", n, 0, float64(original), "% mass", balance.Source)
	}
	return gravity.Plato(n), nil
}
