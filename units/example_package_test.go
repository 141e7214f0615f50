package units_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.org/mutage/units"
)

// A bottle of 26 US fluid ounces of 29.5735 mL (NIST Handbook 44) is 769 mL. JSON
// carries quantities as text with their unit; an error says what is wrong to people
// and to programs.
func Example() {
	bottle := 26 * units.USFluidOunce
	fmt.Println(bottle.Decimal(units.Millilitre, 0), "mL")

	cellar, _ := units.ParseTemperature("68 F")
	text, _ := json.Marshal(map[string]any{"cellar": cellar, "jar": 5 * units.Litre})
	fmt.Println(string(text))

	_, err := units.ParseStrength("140 %")
	var e *units.RangeError
	fmt.Println(errors.As(err, &e), e.Key, e.Value, e.Max)
	// Output:
	// 769 mL
	// {"cellar":"20 C","jar":"5 L"}
	// true strength 140 100
}
