package abv

import (
	"fmt"
	"math"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/balance"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/liquid"
	"example.org/mutage/internal/refraction"
	"example.org/mutage/internal/solve"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Solutes says what a wine holds beside alcohol, water and cane sugar. The zero
// value takes all extract for sucrose. In a wine yeast has split the sucrose:
// Invert is 1. Glycerol of 4 to 8 g/L and the wine's own acid are common
// practice, no source.
type Solutes struct {
	Invert         float64             // share of the sugar that is glucose and fructose, half each: 0 to 1
	Glycerol, Acid units.Concentration // acid as citric; 0 to 30 and 0 to 40 g/L
}

func (x Solutes) check() error {
	if err := units.Check("inverted share of the sugar", x.Invert, 0, 1, "", ""); err != nil {
		return err
	}
	if err := units.Check("glycerol", float64(x.Glycerol), 0, 30, "g/L", ""); err != nil {
		return err
	}
	return units.Check("acid", float64(x.Acid), 0, 40, "g/L", "")
}

// Determination is the strength that two instruments tell.
type Determination struct {
	Composition                     // Extract is the sucrose that gives the gravity
	Sugar       units.Concentration // the sugar itself: less than Extract by what Solutes names
	// Standard uncertainty of the strength from the model alone, with readings
	// that are exact. TwoInstrumentsWithin adds what the readings bring.
	Model units.Strength
}

var twoInstrumentsMethod = figure.Method{Method: "density by hydrometer and index by refractometer, three components", Source: refraction.SourceEthanol + "; " + refraction.SourceSucrose + "; " + density.SourceMixture}

const sourceTwoInstruments = refraction.SourceEthanol + "; above, the refractive index of ethanol-water belongs to two liquids"

// TwoInstruments is the strength and extract of a wine that reads so on the
// hydrometer and on the refractometer, both true at 20 C and degassed. The
// original gravity need not be known, and spirit may have been added: alcohol
// lowers one reading and raises the other. All extract counts as sucrose.
//
// Domain: refractometer 0 to 70 Brix; alcohol at most 49 % of the mass of alcohol
// and water, which is 57 % vol dry and 48 % vol with 250 g/L of sugar. Above, the
// refractive index of ethanol-water belongs to two liquids. No strength fits a
// refractometer that reads less than the hydrometer's Brix. Error:
// *units.RangeError, which says what would fit.
//
// Accuracy: from 15 to 22 % vol with 40 to 142 g/L the model lies 0.1 to 0.7 %
// vol below the published relation for 35 young port wines (Rogerson &
// Symington, Am. J. Enol. Vitic. 57:486, 2006) taken at 20/20 C, and within 0.27
// of it if their Baume is at 15/15 C, which the abstract leaves open. Its standard
// uncertainty is therefore taken as 0.45 % vol. 0.1 Brix shifts the strength by
// 0.16 % vol and 0.001 SG by 0.36 % vol: common instruments give it to about 1 %
// vol either way (95 %). See TwoInstrumentsIn for a wine's own solutes and
// TwoInstrumentsWithin for the uncertainty of your readings.
//
// Source: refractive indices of the CRC Handbook, 102nd ed., and ICUMSA 1974,
// additive by the specific refraction of Lorentz and Lorenz with the excess
// over the shared water; density of the three components.
func TwoInstruments(hydrometer gravity.SG, refractometer gravity.Brix) (Composition, error) {
	d, err := twoInstruments(hydrometer, refractometer, Solutes{})
	return d.Composition, err
}

// TwoInstrumentsIn is TwoInstruments for a wine with these solutes. Inverted sugar,
// 6 g/L of glycerol and 6 g/L of acid raise the strength found by up to 0.13 %
// vol at 142 g/L. Domain and errors as TwoInstruments and Solutes.
func TwoInstrumentsIn(hydrometer gravity.SG, refractometer gravity.Brix, in Solutes) (Determination, error) {
	d, err := twoInstruments(hydrometer, refractometer, in)
	if err != nil {
		return Determination{}, err
	}
	// The spread between the two models of density, seen as a reading's error.
	spread := gravity.SG(math.Abs(density.Tabarie20(float64(d.Strength), float64(d.Extract))/density.Water20 - float64(d.Gravity)))
	shift := units.Strength(0)
	for _, moved := range []gravity.SG{hydrometer + spread, hydrometer - spread} {
		if other, err := twoInstruments(moved, refractometer, in); err == nil {
			shift = max(shift, units.Strength(math.Abs(float64(other.Strength-d.Strength))))
		}
	}
	d.Model = units.Strength(math.Hypot(modelTwoInstruments, float64(shift)))
	return d, nil
}

// modelTwoInstruments is the standard uncertainty in % vol: the root mean square
// of the distance from the relation for port, 0.42, rounded up.
const modelTwoInstruments = 0.45

// TwoInstrumentsWithin is the strength in % vol with its uncertainty and budget.
// hydrometer is in SG and refractometer in Brix, both with the standard
// uncertainty of the true reading at 20 C, as CorrectWithin of either instrument
// gives it; the model is an input of its own. Errors as TwoInstrumentsIn.
func TwoInstrumentsWithin(hydrometer, refractometer uncertainty.Input, in Solutes) (uncertainty.Result, error) {
	d, err := TwoInstrumentsIn(gravity.SG(hydrometer.Value), gravity.Brix(refractometer.Value), in)
	if err != nil {
		return uncertainty.Result{}, err
	}
	return uncertainty.Propagate(func(x []float64) (float64, error) {
		d, err := twoInstruments(gravity.SG(x[0]), gravity.Brix(x[1]), in)
		return float64(d.Strength) + x[2], err
	}, []uncertainty.Input{hydrometer, refractometer, {Name: "model", Standard: float64(d.Model)}}, nil)
}

// twoInstruments solves for the liquid of the hydrometer's density that has the
// refractometer's index.
func twoInstruments(hydrometer gravity.SG, refractometer gravity.Brix, in Solutes) (Determination, error) {
	n, err := refractometer.Index()
	if err != nil {
		return Determination{}, err
	}
	if err := in.check(); err != nil {
		return Determination{}, err
	}
	model := refraction.Others{Invert: in.Invert, Glycerol: float64(in.Glycerol), Citric: float64(in.Acid)}
	if err := units.Check("hydrometer reading", float64(hydrometer), model.Lightest()/density.Water20, density.HeaviestGravity, "", "alcohol at most 49 % of the mass of alcohol and water, "+sourceTwoInstruments); err != nil {
		return Determination{}, err
	}
	m, lo, hi, ok := model.Solve(float64(hydrometer)*density.Water20, n)
	if !ok {
		return Determination{}, outsidePair(hydrometer, refractometer, lo, hi)
	}
	c := Composition{Strength: liquid.StrengthOf(m.Ethanol, 1), Extract: units.Concentration(m.Sucrose), Gravity: hydrometer}
	if in != (Solutes{}) {
		if c, err = RealExtract(c.Strength, hydrometer); err != nil {
			return Determination{}, err
		}
	}
	c.found = &twoInstrumentsMethod
	return Determination{Composition: c, Sugar: units.Concentration(m.Sucrose + m.Glucose + m.Fructose)}, nil
}

// outsidePair says what the refractometer could have shown.
func outsidePair(hydrometer gravity.SG, refractometer gravity.Brix, lo, hi float64) error {
	least, err := gravity.OfIndex(lo)
	if err != nil { // water, but for rounding
		least = 0
	}
	most, err := gravity.OfIndex(hi)
	if err != nil {
		most = 100 * density.MaxSucrose
	}
	return units.OutOfRange(fmt.Sprintf("liquid in which the hydrometer shows %.5g", float64(hydrometer)), "refractometer reading",
		float64(refractometer), float64(least), float64(most), "% mass", "no alcohol to 49 % of the mass of alcohol and water, "+sourceTwoInstruments)
}

// FromRefractometer is the wine that a must has become whose refractometer
// showed original at the start and shows current now, both true at 20 C: the
// true gravity as well as the strength. The alcohol made is found on the line of
// fermentation with the yield y: the one amount for which the liquid has the
// index. No spirit, sugar or water may have been added since.
//
// factor is the refractometer's correction factor in this wort or must (see
// gravity.Refractometer.Extract); it acts on the extract, not on the alcohol.
// Domain: original/factor 0 to 70; factor 0.9 to 1.15; current from fermented out
// to original. A Brix more or less in either reading is 0.9 to 1.0 % vol, and 0.01
// of the factor is 0.1 % vol where 20 Brix has half fermented. Source: C. J. N. Balling for the yield; the index as
// TwoInstruments. Error: *units.RangeError.
func FromRefractometer(original, current gravity.Brix, factor float64, y Yield) (Fermented, error) {
	if err := gravity.CheckFactor(factor); err != nil {
		return Fermented{}, err
	}
	og, err := (original / gravity.Brix(factor)).SG()
	if err != nil {
		return Fermented{}, err
	}
	must, err := mustOf(og, y)
	if err != nil {
		return Fermented{}, err
	}
	shows := func(a float64) float64 {
		left := must.After(a)
		left.Sucrose = max(left.Sucrose, 0)
		m := refraction.Solution{Ethanol: left.Ethanol, Sucrose: left.Sucrose, Water: left.Water}
		b, _ := refraction.SucroseFraction(m.Index20(), 0)
		return 100 * (b + (factor-1)*left.Sucrose/m.Mass())
	}
	most := must.Most()
	const (
		h        = 1e-5 // g: the slope need not be exact
		solvedTo = 2e-5 // g: a Newton step this small leaves an error of its square
		rounding = 3e-6 // g: readings that are right to 1e-6 Brix
	)
	a, err := solve.Rising(func(a float64) (float64, float64) {
		there, step := shows(a), h
		if a > most/2 { // the formulas end at both ends
			step = -h
		}
		return float64(current) - there, (there - shows(a+step)) / step
	}, most/2, 0, most, solvedTo, rounding)
	if err != nil {
		e := units.OutOfRange(fmt.Sprintf("must that showed %.4g Bx", float64(original)), "refractometer reading",
			float64(current), shows(most), shows(0), "% mass", "fermented out to not begun, "+balance.Source)
		if current > original {
			e.Cause = fmt.Sprintf("refractometer reading %.4g Bx is above that of the must %.4g Bx: swapped?", float64(current), float64(original))
		}
		return Fermented{}, e
	}
	return fermented(&must, a), nil
}
