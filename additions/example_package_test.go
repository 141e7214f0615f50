package additions_test

import (
	"fmt"

	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// For 5 L of cherry wine. By hand: 50 mg/L of SO2 in 5 L are 0.25 g, and potassium
// metabisulfite, 222.3 g/mol with two of SO2 of 64.06, is 57.6 % SO2: 0.434 g.
func Example() {
	dose, err := additions.Metabisulfite(50*units.MilligramPerLitre, 5*units.Litre)
	fmt.Println(dose.Decimal(units.Gram, 2), "g,", err)
	// Output: 0.43 g, <nil>
}

// The published weight of a cup of granulated sugar is 200 g (USDA); a dose of
// metabisulfite belongs on a scale.
func ExampleSpoons() {
	sugar, err := additions.Spoons(additions.GranulatedSugar, 200*units.Gram)
	if err != nil {
		fmt.Println(err)
		return
	}
	sulfite, err := additions.Spoons(additions.MetabisulfitePowder, units.Gram)
	fmt.Println(sugar.Volume.Decimal(units.USCup, 2), "cup, scale:", sugar.UseScale)
	fmt.Println("metabisulfite, scale:", sulfite.UseScale, err)
	// Output:
	// 1 cup, scale: false
	// metabisulfite, scale: true <nil>
}
