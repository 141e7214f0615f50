package acid_test

import (
	"fmt"

	"example.org/mutage/additions/acid"
	"example.org/mutage/units"
)

// Two litres of must are one gram a litre short of acid: 2 g of tartaric acid, or
// of citric acid, of which 64.04 g do the work of 75.04 (half and third of 150.09
// and 192.12), 1.71 g.
func Example() {
	for _, a := range []acid.Acid{acid.Tartaric, acid.Citric} {
		m, err := acid.RaiseTA(1*units.GramPerLitre, 2*units.Litre, a)
		fmt.Println(a.Name, m.Decimal(units.Gram, 2), "g", err)
	}
	// Output:
	// tartaric acid 2 g <nil>
	// citric acid 1.71 g <nil>
}
