package sugar

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// A Sweetener is what goes in: its extract, its fermentable sugar, and water
// for the rest.
type Sweetener struct {
	Name    string
	Extract float64 // g of extract in 1 g, counted as sucrose (density differs by up to 2 % of it)
	Hexose  float64 // g of glucose and fructose that 1 g gives to the yeast
	Source  string
}

// Sweeteners of fixed composition. Honey has at most 20 % water and at least
// 60 % glucose and fructose by law; both limits stand here, a label is better.
var (
	Sucrose            = Sweetener{"sucrose", 1, molar.Inversion, "molar masses, CRC Handbook 102nd ed."}
	Dextrose           = Sweetener{"dextrose, anhydrous", 1, 1, "molar mass, from memory"}
	DextroseHydrate    = Sweetener{"dextrose monohydrate", molar.HexoseInHydrate, molar.HexoseInHydrate, "one water per dextrose: Sugar products regulations (Wales) 2003/3047"}
	BrownSugar         = Sweetener{"brown sugar", 1, molar.Inversion, "counted as sucrose: common practice, no source"}
	HoneyAtLegalLimits = Sweetener{"honey", 0.80, 0.60, "Directive 2001/110/EC, Annex II"}
)

// sucrose is what the package adds; changing the exported one does not change it.
var sucrose = Sucrose

// Syrup is a syrup of the given Brix, sucrose in water. Domain 1 to 85 Brix
// (sold syrups; the legal least for sugar solution is 62: Directive
// 2001/111/EC). Error: *units.RangeError.
func Syrup(brix gravity.Brix) (Sweetener, error) {
	if err := units.Check("Brix of the syrup", float64(brix), 1, 85, "Bx", check.Bound); err != nil {
		return Sweetener{}, err
	}
	return Sweetener{fmt.Sprintf("sucrose syrup of %.4g Bx", float64(brix)), float64(brix) / 100, float64(brix) / 100 * molar.Inversion, "as stated"}, nil
}

// InvertSyrup is a syrup of glucose and fructose, or concentrated juice, of the
// given Brix. Domain and error as Syrup.
func InvertSyrup(brix gravity.Brix) (Sweetener, error) {
	s, err := Syrup(brix)
	if err != nil {
		return Sweetener{}, err
	}
	s.Name, s.Hexose = fmt.Sprintf("invert syrup or concentrate of %.4g Bx", float64(brix)), s.Extract
	return s, nil
}

func (s Sweetener) check() error {
	return check.First(units.Check("extract share of a sweetener", s.Extract, 0.01, 1, "", ""),
		units.Check("hexose share of a sweetener", s.Hexose, 0, s.Extract*molar.Inversion*(1+1e-9), "", "all extract as sucrose, inverted"))
}

// LegalIncrease is the volume that dry sugar adds in US accounting: one gallon
// for 13.5 lb, 0.618 L/kg (27 CFR 24.181). The density model gives 0.616 to
// 0.623 L/kg. Domain: mass 0 to 1e10 g. Error: *units.RangeError.
func LegalIncrease(sugar units.Mass) (units.Volume, error) {
	if err := check.Weighed(sugar); err != nil {
		return 0, err
	}
	return units.Volume(sugar.In(13.5*units.Pound)) * units.USGallon, nil
}
