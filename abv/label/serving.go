package label

import (
	"example.org/mutage/abv"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// A Drink is a national definition of a standard drink or unit.
type Drink struct {
	Name    string
	Alcohol units.Mass // pure ethanol in one
	Source  string
}

// Standard drinks. They differ by a factor of 1.8, and none of them is a safe
// amount.
var (
	DrinkUS = Drink{"US standard drink", 14, "US National Institute on Alcohol Abuse and Alcoholism (NIAAA), What Is a Standard Drink?: about 14 g or 0.6 fl oz of pure alcohol"}
	// Printed as 8 g; the definition is 10 mL at 20 C, millilitres times % vol
	// over 1000.
	UnitUK = Drink{"UK unit", units.Mass(density.PureEthanol / 100), "UK Chief Medical Officers' Low Risk Drinking Guidelines, 2016: 10 mL or 8 g of pure alcohol (from memory)"}
)

// AlcoholMass is the pure alcohol in a serving. Domain: v zero or more, 0 to 100
// % vol. Error: *units.RangeError.
func AlcoholMass(serving units.Volume, s units.Strength) (units.Mass, error) {
	pure, err := abv.PureAlcohol(serving, s)
	return units.Mass(float64(pure) * density.PureEthanol), err
}

// In is how many of this drink a serving holds. Domain as AlcoholMass, and a
// drink of 1 to 100 g. Error: *units.RangeError.
func (d Drink) In(serving units.Volume, s units.Strength) (float64, error) {
	if err := units.CheckOf(d.Name, "alcohol in one drink", float64(d.Alcohol), 1, 100, "g", d.Source); err != nil {
		return 0, err
	}
	m, err := AlcoholMass(serving, s)
	return float64(m / d.Alcohol), err
}

// Energy is food energy in both units: each has its own rounded factors, so one
// is not the other times 4.184.
type Energy struct{ Kilojoules, Kilocalories float64 }

// Energies are the parts that a serving's energy comes from, and their sum.
type Energies struct{ Alcohol, Sugar, Polyols, Acids, Total Energy }

// Nutrients is what of a liquid gives energy. Sugar is what a laboratory calls
// sugar; real extract taken for it gives an upper figure. Polyols are sorbitol
// and the like; glycerol, too, is one.
type Nutrients struct {
	Strength              units.Strength
	Sugar, Polyols, Acids units.Concentration // Acids: organic
}

// Regulation (EU) 1169/2011, Annex XIV: kJ and kcal per gram.
var (
	energyAlcohol = Energy{29, 7}
	energySugar   = Energy{17, 4}
	energyPolyols = Energy{10, 2.4}
	energyAcids   = Energy{13, 3}
)

// EnergyIn is the energy in a serving with the factors of Regulation (EU)
// 1169/2011, Annex XIV. Labels there state it for 100 mL. Domain: serving zero
// or more, 0 to 100 % vol, 0 to 1000 g/L each. Error: *units.RangeError.
func EnergyIn(serving units.Volume, n Nutrients) (Energies, error) {
	alcohol, err := AlcoholMass(serving, n.Strength)
	if err != nil {
		return Energies{}, err
	}
	for _, part := range []struct {
		quantity string
		value    units.Concentration
	}{{"sugar", n.Sugar}, {"polyols", n.Polyols}, {"organic acids", n.Acids}} {
		if err := units.Check(part.quantity, float64(part.value), 0, 1000, "g/L", ""); err != nil {
			return Energies{}, err
		}
	}
	litres := float64(serving)
	e := Energies{
		Alcohol: energyAlcohol.times(float64(alcohol)),
		Sugar:   energySugar.times(float64(n.Sugar) * litres),
		Polyols: energyPolyols.times(float64(n.Polyols) * litres),
		Acids:   energyAcids.times(float64(n.Acids) * litres),
	}
	for _, part := range []Energy{e.Alcohol, e.Sugar, e.Polyols, e.Acids} {
		e.Total.Kilojoules += part.Kilojoules
		e.Total.Kilocalories += part.Kilocalories
	}
	return e, nil
}

func (e Energy) times(grams float64) Energy {
	return Energy{e.Kilojoules * grams, e.Kilocalories * grams}
}
