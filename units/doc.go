// Package units holds the quantities of the cellar: what a jug, a scale, a
// spoon, a thermometer and a label state.
//
// Each quantity is a float64 type in one base unit, used in the manner of
// time.Duration: multiply by a unit to make one, divide by a unit to read one.
//
//	bottle := 26 * units.USFluidOunce
//	fmt.Println(bottle.In(units.Millilitre)) // 768.9...
//	jar, err := units.ParseVolume("1 1/2 gal")
//
// Parsing takes what people write ("¾ gal", "1,5 L", "100 proof", "68 F"), is
// exact in decimal until the last step, and refuses what has two readings.
// Gallon, quart, pint, cup, fluid ounce, tablespoon and teaspoon are US
// customary unless "imperial" or "label" stands before them.
//
// Every error of the library is a *RangeError, a *ParseError, or a sentinel
// documented where it is returned.
package units
