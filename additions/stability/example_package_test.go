package stability_test

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/additions/stability"
	"example.org/mutage/units"
)

// From an extract to the word. By hand: 4.5 times 20 % vol and a tenth of 84 g/L are
// 98.4 Delle units; the verdict takes the low end of the sugar.
func Example() {
	units20, _ := stability.DelleUnits(20, 84)
	fmt.Println(units.Round(units20, 1))
	grapes, _ := abv.NotSugarOf("")
	sugar, _ := grapes.Sugars(100, 0.6) // of 100 g/L of extract, in a blend that is 60 % wine
	v, err := stability.Judge(stability.Wine{Strength: 20, Sugar: sugar, Extract: 100})
	fmt.Println(sugar.Low, "to", sugar.High, v.Outlook, err)
	// Output:
	// 98.4
	// 77.8 g/L to 90.4 g/L should stay still <nil>
}
