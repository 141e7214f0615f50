package watch_test

import (
	"testing"

	"example.org/mutage/abv/watch"
	"example.org/mutage/units"
)

// A must that fermented at 20 C and is 6 C cooler is chilled: what holds there may
// go on when it warms.
func TestSixDegreesCoolerIsChilled(t *testing.T) {
	for at, chilled := range map[float64]bool{13.95: true, 14.05: false} {
		log := tail(readings(0, 1.09, 24, 1.082, 48, 1.07, 72, 1.06, 96, 1.052, 120, 1.051, 190, 1.051), units.Celsius(at), units.Celsius(at))
		c, err := watch.Follow(log, watch.Setup{})
		if err != nil || (c.State == watch.Chilled) != chilled {
			t.Errorf("at %v C: %v, %v", at, c.State, err)
		}
	}
}
