package uncertainty_test

import (
	"fmt"

	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// Two litres and one, each with its limits. By hand: 0.03 and 0.04 L together are
// 0.05 L, the root of the sum of their squares.
func Example() {
	a, u, _ := uncertainty.Within(units.ParseVolume, "wine", "2 L ± 30 mL")
	b, v, _ := uncertainty.Within(units.ParseVolume, "spirit", "1 L ± 40 mL")
	r, err := uncertainty.Propagate(func(x []float64) (float64, error) { return x[0] + x[1], nil },
		[]uncertainty.Input{uncertainty.LimitInput("wine", float64(a), u), uncertainty.LimitInput("spirit", float64(b), v)}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	limit, err := r.Expanded(0.95)
	fmt.Printf("%.2f L ± %.2f L, %v\n", r.Value, limit, err)
	// Output: 3.00 L ± 0.05 L, <nil>
}
