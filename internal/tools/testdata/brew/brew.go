// Package brew is what the tests of the mutants tool change.
package brew

import (
	_ "embed"
	"strings"
)

//go:embed limits.csv
var limits string

// full is used as a floating-point number only.
const full = 2

// shelves is not.
const shelves = 24

// spare cannot be negative: with more shelves it does not compile.
const spare = uint(24 - shelves)

// Strong is tested on both sides of its threshold.
func Strong(strength float64) bool { return strength >= 17 }

// Warm is not: the second comparison is tested nowhere.
func Warm(celsius float64) bool { return celsius > 25.0 && celsius != 99 }

// Content is tested by the importer only.
func Content(jugs float64) float64 { return full*jugs - 0.5 }

// Limits are the rows of the embedded table.
func Limits() []string { return strings.Split(strings.TrimSpace(limits), "\n")[2:] }

// Shelf is never tested.
func Shelf(i int) int {
	if err := error(nil); err != nil {
		return -1
	}
	return i % shelves
}

// Name joins texts, which cannot be subtracted.
func Name(of string) string { return "jug of " + of }

// Wait ends at once, unless it is changed.
func Wait(rounds int) {
	for n := rounds; n < 0; {
		n *= 1
	}
}
