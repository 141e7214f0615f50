package density

import (
	"math"
	"testing"
)

// One Newton step from the fit must land where the density came from.
func TestSucroseOfGravity(t *testing.T) {
	for w := -0.09; w <= MaxSucrose; w += 0.001 {
		tolerance := 1e-12
		if w < -0.05 {
			tolerance = 1e-11
		}
		if got := SucroseOfGravity(Sucrose20(w) / Water20); math.Abs(got-w) > tolerance {
			t.Errorf("%.3f comes back off by %.2g", w, got-w)
		}
	}
}

func BenchmarkSucroseOfGravity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		SucroseOfGravity(1.092)
	}
}
