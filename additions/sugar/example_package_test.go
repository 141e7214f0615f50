package sugar_test

import (
	"fmt"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/units"
)

// Sugar for 3 L of cherry juice. By hand, between the densities of the CRC Handbook
// (sucrose of 14 % 1.0549, 16 % 1.0635, 20 % 1.0810 and 24 % 1.0990 g/mL): 1.057 is
// 14.05 % of 1055.1 g and 1.092 is 22.0 %. With m g in a litre of juice, (148.2 + m)/(1055.1
// + m) = 0.220: m = 107.6 g, 0.32 kg in all.
func Example() {
	a, err := sugar.RaiseGravity(1.057, 1.092, 3*units.Litre)
	fmt.Println(a.Sugar.Decimal(units.Kilogram, 2), "kg,", err)
	// Output: 0.32 kg, <nil>
}
