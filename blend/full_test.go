package blend_test

import (
	"errors"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// A vessel that the wine fills to the brim has no room for spirit; that is not
// reachable. Wine that it does not hold is out of range.
func TestAVesselThatIsFull(t *testing.T) {
	spirit := blend.Component{Name: "spirit", Strength: 75}
	wine := blend.Component{Name: "wine", Volume: 5, Strength: 6, Extract: 140}
	var unreachable *blend.UnreachableError
	if _, err := blend.FortifyIn(blend.Vessel{Size: 5}, wine, spirit, 20); !errors.As(err, &unreachable) {
		t.Errorf("full: %v", err)
	}
	wine.Volume = 5.001
	var out *units.RangeError
	if _, err := blend.FortifyIn(blend.Vessel{Size: 5}, wine, spirit, 20); !errors.As(err, &out) || errors.As(err, &unreachable) {
		t.Errorf("too much: %v", err)
	}
}
