package additions_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/handbook"
)

// The chip that is taken is the middle one of the five of the study: each was
// measured at 2 g/L.
func TestOakChipsAreTheMiddleOfFive(t *testing.T) {
	var surfaces []float64
	for _, r := range handbook.Load(t, "testdata/practice_numbers.csv").Rows {
		if strings.HasPrefix(r.Text("quantity"), "contact surface of 2 g/L chips") {
			surfaces = append(surfaces, r.Number("value")/2)
		}
	}
	slices.Sort(surfaces)
	if len(surfaces) != 5 || additions.OakChips.Surface != surfaces[2] {
		t.Errorf("%v cm2/g of %v", additions.OakChips.Surface, surfaces)
	}
}
