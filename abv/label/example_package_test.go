package label_test

import (
	"fmt"

	"example.org/mutage/abv/label"
)

// A US standard drink is 14 g of alcohol (NIAAA). By hand: a litre of 20 % vol holds
// 200 mL of 0.789 g/mL, 158 g or 11.3 of them.
func Example() {
	n, err := label.DrinkUS.In(1, 20)
	fmt.Printf("%.1f drinks, %v\n", n, err)
	// Output: 11.3 drinks, <nil>
}
