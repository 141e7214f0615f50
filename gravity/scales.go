package gravity

import (
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// SG is a specific gravity: density at 20 C over the density of water at 20 C.
type SG float64

// Plato is apparent extract in per cent by mass, as sucrose, at 20 C. The
// brewer's scale; the same numbers as Brix.
type Plato float64

// Brix is per cent by mass of sucrose at 20 C. The scale of must and sugar.
type Brix float64

// Oechsle is the excess of SG over 1 in thousandths: the scale of the German
// and Swiss must balance.
type Oechsle float64

// Baume is the Baume scale for liquids heavier than water, modulus 145:
// Be = 145 - 145/SG (Junk & Pancoast, Handbook of Sugars, 1973). SG.BaumeOf
// serves the other modulus in use, 144.3.
type Baume float64

// Water20 is the density of water at 20 C that SG rests on: 998.203 kg/m3
// (Bettin & Spieweck 1990, the water of ICUMSA 1990).
var Water20 = units.Density(density.Water20)

// Domain of the scales: water to 70 % sucrose by mass.
const (
	minExtract = 0
	maxExtract = 100 * density.MaxSucrose
)

var maxSG = density.Sucrose20(density.MaxSucrose) / density.Water20

// Plato is the extract of the sucrose solution of this gravity. Domain 1 to
// 1.3499; *units.RangeError outside. Against printed sucrose tables it holds to
// 0.02 up to 40 % and 0.08 up to 70 %, which is how far they differ among
// themselves. For a dry wine below 1 see ApparentExtract. Source: ICUMSA 1990.
func (g SG) Plato() (Plato, error) {
	w, err := g.extract(minExtract)
	return Plato(w), err
}

// Brix is Plato under its other name.
func (g SG) Brix() (Brix, error) {
	w, err := g.extract(minExtract)
	return Brix(w), err
}

// extract in per cent by mass, down to lo.
func (g SG) extract(lo float64) (float64, error) {
	w, ok := density.SucroseFraction(float64(g)*density.Water20, 20, lo/100)
	if !ok {
		return 0, &units.RangeError{Quantity: "specific gravity", Value: float64(g),
			Min: density.Sucrose20(lo/100) / density.Water20, Max: maxSG, Source: density.SourceSucrose}
	}
	return 100 * w, nil
}

// Oechsle is 1000 (SG - 1). Domain as Plato.
func (g SG) Oechsle() (Oechsle, error) { return checked(g, Oechsle(1000*(g-1))) }

// Baume is 145 - 145/SG. Domain as Plato.
func (g SG) Baume() (Baume, error) { return checked(g, Baume(145-145/g)) }

// Density is the density at 20 C. Domain as Plato.
func (g SG) Density() (units.Density, error) {
	return checked(g, units.Density(float64(g)*density.Water20))
}

// checked gives the converted value, or zero and an error outside the domain.
func checked[T ~float64](g SG, converted T) (T, error) {
	if err := units.Check("specific gravity", float64(g), 1, maxSG, "", density.SourceSucrose); err != nil {
		return 0, err
	}
	return converted, nil
}

// SG is the gravity of the sucrose solution with this extract. Domain 0 to 70;
// *units.RangeError outside. Source: ICUMSA 1990.
func (p Plato) SG() (SG, error) { return sucroseGravity("extract in Plato", float64(p)) }

// SG is the gravity of the sucrose solution with this Brix. Domain 0 to 70.
func (b Brix) SG() (SG, error) { return sucroseGravity("extract in Brix", float64(b)) }

func sucroseGravity(quantity string, percent float64) (SG, error) {
	if err := units.Check(quantity, percent, minExtract, maxExtract, "% mass", density.SourceSucrose); err != nil {
		return 0, err
	}
	return SG(density.Sucrose20(percent/100) / density.Water20), nil
}

// SG is 1 + Oe/1000. Domain 0 to 349.9.
func (o Oechsle) SG() (SG, error) {
	return arithmetic("Oechsle", float64(o), 1000*(maxSG-1), 1+float64(o)/1000)
}

// SG is 145/(145 - Be). Domain 0 to 37.58.
func (b Baume) SG() (SG, error) {
	return arithmetic("Baume", float64(b), 145-145/maxSG, 145/(145-float64(b)))
}

func arithmetic(quantity string, reading, hi, sg float64) (SG, error) {
	if err := units.Check(quantity, reading, 0, hi, "", density.SourceSucrose); err != nil {
		return 0, err
	}
	return SG(sg), nil
}
