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
// JSON and text carry any finite number there and back, the zero value too; what
// people write goes through Parse, Set and ParseIn, which check ranges.
//
// # Errors
//
// Errors of the whole library, for errors.As and errors.Is. Each marshals to JSON
// with its sentence as "message".
//
//   - *RangeError: a quantity outside its domain, with a stable Key
//   - *ParseError: text that cannot be read, with the place
//   - *blend.UnreachableError, which is blend.ErrUnreachable: a blend that cannot be
//     made, what can, and what would make it possible
//   - *abv.NoWindowError, which is abv.ErrNoWindow: a must that never meets a goal
//   - *watch.LogError, which is watch.ErrLog: all faults of a log of readings, each
//     a *watch.LineError
//   - *batch.FileError: a fault of a batch file, with line, column and field;
//     *batch.ConflictError: fields that contradict each other, or are needed
//   - sentinels: watch.ErrDateOrder, watch.ErrTemperatureUnit, blend.ErrNothing, blend.ErrUnknown, uncertainty.ErrCorrelation,
//     uncertainty.ErrNoLine, uncertainty.ErrNoModel
package units
