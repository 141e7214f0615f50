package say

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/mutage/units"
)

// A cellar reads the bounds of an error in its own units.
func TestErrorsAreInTheUnitsOfTheCellar(t *testing.T) {
	lees := fmt.Errorf("lees: %w", units.Check("lees", 1.892706, 0, 0.946353, "L", "the wine there is"))
	warm := units.Check("must temperature", 60, 0, 50, "C", "")
	for _, c := range []struct {
		system System
		err    error
		want   string
	}{
		{US, lees, "lees: lees 64 fl oz is out of range: 0 to 32 fl oz (the wine there is)"},
		{Metric, lees, lees.Error()},
		{Imperial, errors.Join(lees, warm), "lees: lees 66.61 imp fl oz is out of range: 0 to 33.31 imp fl oz (the wine there is)\nmust temperature 140 F is out of range: 32 to 122 F"},
		{US, units.Check("spirit", 0.001, 1, math.Inf(1), "g", ""), "spirit 0.001 g is out of range: at least 1 g"},
		{US, errors.New("something else"), "something else"},
	} {
		got := c.system.Error(c.err)
		if got.Error() != c.want || !errors.Is(got, c.err) {
			t.Errorf("%v: %q, want %q", c.system, got, c.want)
		}
	}
	if US.Error(nil) != nil {
		t.Error("no error became one")
	}
}
