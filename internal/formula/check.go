package formula

import (
	"errors"
	"fmt"
	"math"
	"regexp"

	"example.org/mutage/units"
)

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

// longest leaves room for addresses in a cell, which holds 8,192 characters in
// the tightest of the spreadsheets (from memory).
const longest = 4096

// Check says what is wrong with the figures of a result, all of it: a key that
// is not snake_case or stands twice, an empty name, method or source, a formula
// that cannot be computed from the other figures or that parts from the figure
// by more than half of its last place (and a fiftieth of that, which a Fit may
// be off where the figure is rounded).
func Check(figures []units.Figure) error {
	var faults []error
	seen := map[string]bool{}
	cells := sheet{figures, map[string]float64{}}
	for _, f := range figures {
		fault := func(format string, args ...any) {
			faults = append(faults, fmt.Errorf("figure %q: "+format, append([]any{f.Key}, args...)...))
		}
		if !snake.MatchString(f.Key) {
			fault("the key is not snake_case")
		}
		if seen[f.Key] {
			fault("the key stands twice")
		}
		seen[f.Key] = true
		if f.Name == "" {
			fault("no name")
		}
		if f.Method == "" {
			fault("no method")
		}
		if f.Source == "" {
			fault("no source, and not said that there is none")
		}
		if f.Formula == "" {
			continue
		}
		if len(f.Formula) > longest {
			fault("the formula has %d characters, more than a cell holds", len(f.Formula))
		}
		x, err := cells.value(f.Key, len(figures))
		if err != nil {
			fault("%v", err)
			continue
		}
		half := 0.51 * math.Pow10(int(f.Value.Exponent()))
		if want := f.Value.InexactFloat64(); !(math.Abs(x-want) <= half+1e-9*math.Abs(want)) {
			fault("the library has %s, its formula gives %.12g", f.Fixed(), x)
		}
	}
	return errors.Join(faults...)
}
