package gravity_test

import (
	"fmt"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// A must read warm with a hydrometer made for 20 C. A cane-sugar laboratory table
// adds 0.52 Brix at 27 C between 20 and 25 Brix; a degree there is 0.0043.
func Example() {
	h := gravity.NewHydrometer(units.Celsius(20))
	must, err := h.Correct(1.0890, units.Celsius(27))
	if err != nil {
		fmt.Println(err)
		return
	}
	sugar, err := must.Brix()
	fmt.Printf("%.3f, %.1f Bx, %v\n", float64(must), float64(sugar), err)
	// Output: 1.091, 21.8 Bx, <nil>
}

// What to expect in the fortified wine, and what sugar water of its gravity would
// show. By hand at 20 C, the classic rule: spirit of 20 % vol is 0.9755, 100 g/L of
// sugar adds 0.0385, together 1.014.
func ExampleHydrometer_Shows() {
	h := gravity.NewHydrometer(units.Celsius(20))
	at20, err := h.Shows(20, 100, units.Celsius(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	cold, _ := h.Shows(20, 100, units.Celsius(8))
	wrong, _ := h.ReadingInMust(at20, units.Celsius(8))
	fmt.Printf("%.3f; in a cold cellar %.3f, not %.3f\n", float64(at20), float64(cold), float64(wrong))
	// Output: 1.014; in a cold cellar 1.018, not 1.016
}
