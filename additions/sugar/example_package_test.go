package sugar_test

import (
	"fmt"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/units"
)

// Sugar for 3 L of cherry juice. By hand: 1.057 is 14.0 % of 1055 g, 148 g/L, and
// 1.092 is 21.96 % of 1090 g: with m g in a litre of juice, (148 + m)/(1055 + m) = 0.2196,
// m = 107 g, 321 g in all.
func Example() {
	a, err := sugar.RaiseGravity(1.057, 1.092, 3*units.Litre)
	fmt.Printf("%.0f g, %v\n", float64(a.Sugar), err)
	// Output: 321 g, <nil>
}
