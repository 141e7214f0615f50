package abv_test

import (
	"errors"
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/units"
)

// A sugared cherry must of 1.092 stopped at 1.046. By hand with Balling's yield of
// must: 21.96 % of extract were there, and 1 g of alcohol takes 2.0009 g of it; with
// 4.74 % of alcohol made from the must 12.5 % are left, which shows 1.046. In a litre
// of the wine that is 62 mL of alcohol.
func Example() {
	wine, err := abv.MassBalance(1.092, 1.046, abv.Must)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% vol\n", float64(wine.Strength))
	_, err = abv.MassBalance(1.046, 1.092, abv.Must)
	var e *units.RangeError
	if errors.As(err, &e) {
		fmt.Println(e.Key, "-", e.Cause)
	}
	// Output:
	// 6.2 % vol
	// final_gravity - final gravity 1.092 is above the original gravity 1.046: swapped?
}
