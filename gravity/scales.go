package gravity

import (
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// SG is a specific gravity: density at 20 C over the density of water at 20 C.
// Gravities that rest on another temperature are a [Basis].
type SG float64

// Plato is extract in per cent by mass, as sucrose, at 20 C. The brewer's
// scale; the same numbers as Brix.
type Plato float64

// Brix is per cent by mass of sucrose at 20 C. The scale of must and sugar.
type Brix float64

// Oechsle is the excess of SG over 1 in thousandths: the scale of the German
// and Swiss must balance. It begins at water; Points go on below.
type Oechsle float64

// Points are gravity points, 1000 (SG - 1): what "the wine dropped forty
// points" counts. In the thousandths of duty tables they are "degrees".
type Points float64

// Water20 is the density of water at 20 C that SG rests on: 998.203 kg/m3
// (Bettin & Spieweck 1990, the water of ICUMSA 1990).
const Water20 units.Density = 998.2031227373548

// Domain of the scales: water to 70 % sucrose by mass. An apparent extract goes
// down to -5 %, the sucrose formula continued: a dry wine of about 16 % vol.
const (
	maxExtract  = 100 * density.MaxSucrose
	minApparent = -5.0
)

var (
	heaviest = density.HeaviestGravity
	lightest = density.Sucrose20(minApparent/100) / density.Water20 // 0.98104
)

// Plato is the extract of the sucrose solution of this gravity. Domain 1 to
// 1.3499; *units.RangeError outside. Against printed sucrose tables it holds to
// 0.02 up to 40 % and 0.08 up to 70 %, which is how far they differ among
// themselves. For a dry wine below 1 see ApparentExtract. Source: ICUMSA 1990.
func (g SG) Plato() (Plato, error) { return checked(g, Plato(g.extract())) }

// Brix is Plato under its other name: same domain, error and source.
func (g SG) Brix() (Brix, error) { return checked(g, Brix(g.extract())) }

// extract in per cent by mass; rounding does not leave the domain.
func (g SG) extract() float64 {
	return min(max(100*density.SucroseOfGravity(float64(g)), 0), maxExtract)
}

// ApparentExtract is the extract that a hydrometer shows in a liquid with alcohol:
// Plato where the liquid is heavier than water, and below zero, by the sucrose
// formula continued, where alcohol has made it lighter. Domain 0.98104 (-5 %) to
// 1.3499; *units.RangeError outside. Older tables differ below zero: Balling
// prints -1.307 at 0.9948, this function gives -1.355.
func (g SG) ApparentExtract() (Plato, error) {
	if err := units.Check("specific gravity", float64(g), lightest, heaviest, "", sourceApparent); err != nil {
		return 0, err
	}
	return Plato(min(max(100*density.SucroseOfGravity(float64(g)), minApparent), maxExtract)), nil
}

const sourceApparent = "apparent extract -5 to 70 %, " + density.SourceSucrose

// ApparentSG is the gravity of an apparent extract, which may be below zero: the
// inverse of SG.ApparentExtract. Domain -5 to 70; *units.RangeError outside.
func (p Plato) ApparentSG() (SG, error) {
	if err := units.Check("apparent extract", float64(p), minApparent, maxExtract, "% mass", sourceApparent); err != nil {
		return 0, err
	}
	return SG(density.Sucrose20(float64(p)/100) / density.Water20), nil
}

// Extract is the sucrose per litre at 20 C in the solution of this gravity; in
// g/100 mL it is Extract().In(10 * units.GramPerLitre). Domain 1 to 1.3499;
// *units.RangeError outside. Against the German wine table XIX it holds to
// 0.1 g/L. Source: ICUMSA 1990.
func (g SG) Extract() (units.Concentration, error) {
	return checked(g, units.Concentration(g.extract()/100*float64(g)*density.Water20))
}

// OfExtract is the gravity of the sucrose solution with so much per litre at
// 20 C. Domain 0 to 943 g/L (70 %); *units.RangeError outside.
func OfExtract(extract units.Concentration) (SG, error) {
	if err := units.Check("extract", float64(extract), 0, density.MostConcentration, "g/L", density.SourceSucrose); err != nil {
		return 0, err
	}
	w := density.SucroseByConcentration(float64(extract))
	return SG(min(density.Sucrose20(w)/density.Water20, heaviest)), nil
}

// Oechsle is 1000 (SG - 1). Domain 1 to 1.3499; *units.RangeError outside.
func (g SG) Oechsle() (Oechsle, error) { return checked(g, Oechsle(1000*(g-1))) }

// Points is 1000 (SG - 1). Domain 0.98104 to 1.3499, the readings of dry wine to
// syrup; *units.RangeError outside.
func (g SG) Points() (Points, error) {
	if err := units.Check("specific gravity", float64(g), lightest, heaviest, "", sourceApparent); err != nil {
		return 0, err
	}
	return Points(1000 * (g - 1)), nil
}

// Density is the density at 20 C. Domain 1 to 1.3499; *units.RangeError outside.
func (g SG) Density() (units.Density, error) {
	return checked(g, units.Density(float64(g)*density.Water20))
}

// checked gives the converted value, or zero and an error outside the domain.
func checked[T ~float64](g SG, converted T) (T, error) {
	if g >= 1 && float64(g) <= heaviest {
		return converted, nil
	}
	return 0, check.NotFermented(units.Check("specific gravity", float64(g), 1, heaviest, "", density.SourceSucrose))
}

// SG is the gravity of the sucrose solution with this extract. Domain 0 to 70;
// *units.RangeError outside. Source: ICUMSA 1990.
func (p Plato) SG() (SG, error) { return sucroseGravity("extract in Plato", float64(p)) }

// SG is the gravity of the sucrose solution with this Brix. Domain 0 to 70;
// *units.RangeError outside. Source: ICUMSA 1990.
func (b Brix) SG() (SG, error) { return sucroseGravity("extract in Brix", float64(b)) }

func sucroseGravity(quantity string, percent float64) (SG, error) {
	if percent >= 0 && percent <= maxExtract {
		return SG(density.Sucrose20(percent/100) / density.Water20), nil
	}
	return 0, units.Check(quantity, percent, 0, maxExtract, "% mass", density.SourceSucrose)
}

// SG is 1 + Oe/1000. Domain 0 to 349.9; *units.RangeError outside.
func (o Oechsle) SG() (SG, error) {
	return arithmetic("Oechsle", float64(o), 0, 1000*(heaviest-1), 1+float64(o)/1000)
}

// SG is 1 + points/1000. Domain -18.96 to 349.9; *units.RangeError outside.
func (p Points) SG() (SG, error) {
	return arithmetic("gravity points", float64(p), 1000*(lightest-1), 1000*(heaviest-1), 1+float64(p)/1000)
}

// arithmetic checks the reading; rounding does not carry sg past the last one.
func arithmetic(quantity string, reading, lo, hi, sg float64) (SG, error) {
	if err := units.Check(quantity, reading, lo, hi, "", density.SourceSucrose); err != nil {
		return 0, err
	}
	return SG(min(max(sg, lightest), heaviest)), nil
}
