package gravity

import (
	"fmt"

	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// Basis is the pair of temperatures behind a specific gravity: the density of
// the liquid at the first over the density of water at the second. SG itself is
// Basis20C. Older books, tables and hydrometers use the others.
type Basis struct{ Liquid, Water units.Temperature }

// The bases of the trade.
var (
	Basis20C   = Basis{units.Celsius(20), units.Celsius(20)}
	Basis20C4C = Basis{units.Celsius(20), units.Celsius(4)} // the liquid's density in g/mL but for 0.00003
	Basis60F   = Basis{units.Fahrenheit(60), units.Fahrenheit(60)}
	Basis15C   = Basis{units.Celsius(15), units.Celsius(15)}
	Basis17C5  = Basis{units.Celsius(17.5), units.Celsius(17.5)}
)

// Highest temperature of a basis: no hydrometer is divided for warmer liquid.
const warmestBasis = 40

// SG is the gravity at 20 C of must or sugar solution whose gravity on this
// basis is reading. Domain: both temperatures 0 to 40 C; readings whose
// extract is -5 to 70 % mass. A liquid with much alcohol expands more than
// sugar solution: see Hydrometer.CorrectIn, and Hydrometer of this basis.
// Source: ICUMSA 1990. Error: *units.RangeError.
func (b Basis) SG(reading float64) (SG, error) {
	w, err := b.fraction(reading, minApparent/100)
	if err != nil {
		return 0, err
	}
	return SG(density.Sucrose20(w) / density.Water20), nil
}

// Extract is the sucrose per litre, at the liquid's temperature, of the solution
// whose gravity on this basis is reading: what extract tables of that basis
// print. Domain: readings whose extract is 0 to 70 % mass, both temperatures 0
// to 40 C. Error: *units.RangeError.
func (b Basis) Extract(reading float64) (units.Concentration, error) {
	w, err := b.fraction(reading, 0)
	if err != nil {
		return 0, err
	}
	return units.Concentration(w * reading * density.Water(b.Water.Celsius())), nil
}

// fraction is the mass fraction of sucrose, from lo.
func (b Basis) fraction(reading, lo float64) (float64, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	water, liquid := density.Water(b.Water.Celsius()), b.Liquid.Celsius()
	w, ok := density.SucroseOfDensity(reading*water, liquid, lo)
	if !ok {
		return 0, units.OutOfRange("basis "+b.String(), "specific gravity", reading,
			density.Sucrose(lo, liquid)/water, density.Sucrose(density.MaxSucrose, liquid)/water, "", density.SourceSucrose)
	}
	return w, nil
}

// Of is the gravity on this basis of must or sugar solution of gravity g: the
// inverse of SG. Domain: both temperatures 0 to 40 C, g 0.98104 to 1.3499.
// Error: *units.RangeError.
func (b Basis) Of(g SG) (float64, error) {
	if err := b.check(); err != nil {
		return 0, err
	}
	w, err := g.ApparentExtract()
	if err != nil {
		return 0, err
	}
	return density.Sucrose(float64(w)/100, b.Liquid.Celsius()) / density.Water(b.Water.Celsius()), nil
}

// Hydrometer is the hydrometer divided on this basis.
func (b Basis) Hydrometer() Hydrometer { return NewHydrometer(b.Liquid).WithWater(b.Water) }

// String gives the basis as it is printed: "17.5/17.5 C".
func (b Basis) String() string {
	return fmt.Sprintf("%.4g/%.4g C", b.Liquid.Celsius(), b.Water.Celsius())
}

func (b Basis) check() error {
	if err := units.Check("temperature of the liquid in a basis", b.Liquid.Celsius(), 0, warmestBasis, "C", ""); err != nil {
		return err
	}
	return units.Check("temperature of the water in a basis", b.Water.Celsius(), 0, warmestBasis, "C", "")
}
