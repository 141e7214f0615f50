package sugar_test

import (
	"fmt"

	"example.org/mutage/additions"
	"example.org/mutage/additions/sugar"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Balling: 1500 lb of solution from 9 to 15 % take 105.88 lb of sugar.
func ExampleRaiseGravity() {
	from, _ := gravity.Plato(9).SG()
	to, _ := gravity.Plato(15).SG()
	density, _ := from.Density()
	a, err := sugar.RaiseGravity(from, to, units.Volume(1500*units.Pound/units.Mass(density)))
	fmt.Println(a.Sugar.Decimal(units.Pound, 2), "lb", err)
	// Output: 105.88 lb <nil>
}

// Two and a quarter cups of sugar in a gallon of cherry juice. By hand: 4013 g
// at 15.18 % hold 609 g; 1059 g in 4463 g are 23.73 %, SG 1.0999.
func ExampleAdd() {
	cups, _ := additions.Weigh(additions.GranulatedSugar, 2.25*units.USCup)
	g, v, err := sugar.Add(1.062, units.USGallon, cups)
	fmt.Println(cups, g, v.Decimal(units.Litre, 2), err)
	// Output: 450 g 1.09991 4.06 <nil>
}
