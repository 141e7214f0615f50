package watch

import (
	"math"
	"testing"

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
