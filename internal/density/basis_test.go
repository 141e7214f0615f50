package density

import (
	"math"
	"testing"
)

// Either way round, and at 20 C the same as the basis of 20 C.
func TestBasis(t *testing.T) {
	for at := MinTemperature; at <= MaxTemperature; at += 5 {
		for q := 0.0; q <= 100; q += 0.5 {
			if got := ByVolumeAt(ByMassAt(q, at), at); math.Abs(got-q) > 1e-9 {
				t.Errorf("%g %% vol at %g C comes back as %.12g", q, at, got)
			}
		}
	}
	for q := 0.0; q <= 100; q++ {
		if d := ByMassAt(q, 20) - ByMass(q); math.Abs(d) > 1e-12 {
			t.Errorf("%g %% vol: %.3g between the two at 20 C", q, d)
		}
	}
}
