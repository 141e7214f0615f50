package watch

import (
	"math"
	"testing"
	"time"

	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// Three standard uncertainties of the fermentation balance, 0.17 % vol, are half a
// per cent: nearer than that to its limit the yeast may have come to it.
func TestNearTheLimitIsWhatTheBalanceCannotTell(t *testing.T) {
	if math.Abs(shy-0.5) > 1e-9 {
		t.Errorf("the limit counts as reached within %v %% vol", shy)
	}
}

// Ough & Amerine, Bulletin 827 (1966): below 50 F yeast ferments extremely slowly.
func TestColdIs50Fahrenheit(t *testing.T) {
	if math.Abs(units.Fahrenheit(50).Celsius()-coldest) > 1e-9 {
		t.Errorf("cold begins at %v C", coldest)
	}
}

// A log at 10.1 C is not a cold one, one at 9.9 C is.
func TestColdOnBothSides(t *testing.T) {
	begun := time.Date(2026, 6, 1, 8, 0, 0, 0, time.UTC)
	for at, cold := range map[float64]bool{10.1: false, 9.9: true} {
		var log []Reading
		for day, g := range []gravity.SG{1.09, 1.085, 1.079, 1.073, 1.066} {
			log = append(log, Reading{Time: begun.AddDate(0, 0, day), Reading: g, Temperature: units.Celsius(at)})
		}
		c, err := Follow(log, Setup{Original: 1.09})
		if err != nil || c.Cold != cold {
			t.Errorf("at %v C: cold %v, %v", at, c.Cold, err)
		}
	}
}
