package density

import (
	"math"
	"testing"
)

func TestSucroseOfDensity(t *testing.T) {
	for at := 0.0; at <= 100; at += 2.5 {
		for w := -0.05; w <= MaxSucrose; w += 0.00517 {
			got, ok := SucroseOfDensity(Sucrose(w, at), at, -0.05)
			if !ok || math.Abs(got-w) > 1e-11 {
				t.Errorf("w %g at %g C comes back as %.12g, %v", w, at, got, ok)
			}
		}
		for _, rho := range []float64{Sucrose(-0.0501, at), Sucrose(MaxSucrose+0.0001, at), 0, -1, 2000, math.NaN(), math.Inf(1)} {
			if w, ok := SucroseOfDensity(rho, at, -0.05); ok {
				t.Errorf("density %g at %g C gives %g", rho, at, w)
			}
		}
	}
}

func TestMostExtract(t *testing.T) {
	for strength := 0.0; strength < 100; strength += 2.5 {
		most := MostExtract(strength)
		if w := WaterIn(strength/100*PureEthanol, most-1e-6); math.IsNaN(w) {
			t.Errorf("%g %% vol: %g g/L is refused", strength, most-1e-6)
		}
		if w := WaterIn(strength/100*PureEthanol, most+1e-3); !math.IsNaN(w) {
			t.Errorf("%g %% vol: %g g/L is taken", strength, most+1e-3)
		}
	}
	for _, strength := range []float64{100, -1, 101, math.NaN(), math.Inf(1)} {
		if got := MostExtract(strength); got != 0 {
			t.Errorf("%g %% vol: %g", strength, got)
		}
	}
}
