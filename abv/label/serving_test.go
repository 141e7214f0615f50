package label_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// E4: 50 mL at 20 %, 25 mL at 40 % and 125 mL at 8 % are one unit each.
func ExampleDrink_In() {
	for _, serving := range []struct {
		v units.Volume
		s units.Strength
	}{{50, 20}, {25, 40}, {125, 8}} {
		n, _ := label.UnitUK.In(serving.v*units.Millilitre, serving.s)
		fmt.Println(units.Round(n, 6))
	}
	// Output:
	// 1
	// 1
	// 1
}

// E5: 14 g are 0.6 fl oz; 3 to 4 fl oz of 17 % and 2 to 3 fl oz of 24 % are one
// drink.
func TestServingUSDrink(t *testing.T) {
	c := handbook.NewCheck(t, "US standard drink of 14 g", "fl oz")
	pure, err := label.DrinkUS.In(units.USFluidOunce, 100)
	if err != nil {
		t.Fatal(err)
	}
	c.Printed(1/pure, "0.6", "pure alcohol")
	for _, row := range []struct {
		s      units.Strength
		lo, hi float64
	}{{17, 3, 4}, {24, 2, 3}} {
		n, err := label.DrinkUS.In(units.USFluidOunce, row.s)
		if err != nil {
			t.Fatal(err)
		}
		c.Differs(1/n, (row.lo+row.hi)/2, (row.hi-row.lo)/2, "the print is a range", fmt.Sprintf("%v: %g to %g", row.s, row.lo, row.hi))
	}
}

// Annex XIV, one row after the other: a gram of each.
func TestServingEnergyFactors(t *testing.T) {
	kJ := handbook.NewCheck(t, "Regulation (EU) 1169/2011, Annex XIV, kJ per g", "kJ")
	kcal := handbook.NewCheck(t, "Regulation (EU) 1169/2011, Annex XIV, kcal per g", "kcal")
	gramOfAlcohol, err := abv.AlcoholPerLitre(1) // g/L and % vol
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range handbook.Load(t, "testdata/energy_conversion_factors.csv").Rows {
		var n label.Nutrients
		var part func(e label.Energies) label.Energy
		switch r.Text("component") {
		case "carbohydrate except polyols":
			n.Sugar, part = 1, func(e label.Energies) label.Energy { return e.Sugar }
		case "polyols":
			n.Polyols, part = 1, func(e label.Energies) label.Energy { return e.Polyols }
		case "alcohol (ethanol)":
			n.Strength, part = units.Strength(1/gramOfAlcohol), func(e label.Energies) label.Energy { return e.Alcohol }
		case "organic acids":
			n.Acids, part = 1, func(e label.Energies) label.Energy { return e.Acids }
		default:
			continue // not in wine
		}
		e, err := label.EnergyIn(units.Litre, n)
		if err != nil {
			t.Fatal(err)
		}
		if d := part(e).Kilojoules - e.Total.Kilojoules; math.Abs(d) > 1e-12 {
			t.Errorf("%s: %+v", r.Text("component"), e)
		}
		kJ.Printed(part(e).Kilojoules, r.Text("kJ_per_g"), r.Text("component"))
		kcal.Printed(part(e).Kilocalories, r.Text("kcal_per_g"), r.Text("component"))
	}
}

// A glass of fortified wine, by hand: 10 g/100 mL of sugar and 20 % vol are
// 100 mL x (15.78 g x 29 + 10 g x 17).
func ExampleEnergyIn() {
	e, _ := label.EnergyIn(100*units.Millilitre, label.Nutrients{Strength: 20, Sugar: 100})
	fmt.Printf("%.0f kJ, %.0f kcal: alcohol %.0f kJ, sugar %.0f kJ\n", e.Total.Kilojoules, e.Total.Kilocalories, e.Alcohol.Kilojoules, e.Sugar.Kilojoules)
	// Output: 628 kJ, 150 kcal: alcohol 458 kJ, sugar 170 kJ
}

// A hundred grams of each, in a litre: Annex XIV's factors to their last digit.
func TestEnergyOfAHundredGrams(t *testing.T) {
	for name, c := range map[string]struct {
		n        label.Nutrients
		part     func(e label.Energies) label.Energy
		kJ, kcal float64
	}{
		"sugar":   {label.Nutrients{Sugar: 100}, func(e label.Energies) label.Energy { return e.Sugar }, 1700, 400},
		"polyols": {label.Nutrients{Polyols: 100}, func(e label.Energies) label.Energy { return e.Polyols }, 1000, 240},
		"acids":   {label.Nutrients{Acids: 100}, func(e label.Energies) label.Energy { return e.Acids }, 1300, 300},
	} {
		e, err := label.EnergyIn(units.Litre, c.n)
		if err != nil {
			t.Fatal(err)
		}
		if got := c.part(e); math.Abs(got.Kilojoules-c.kJ) > 1e-6 || math.Abs(got.Kilocalories-c.kcal) > 1e-6 {
			t.Errorf("%s: %+v, expected %v kJ and %v kcal", name, got, c.kJ, c.kcal)
		}
	}
}
