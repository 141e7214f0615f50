package density

import (
	"math"
	"testing"
)

// The extract comes back from the density that it gave, dry and full too.
func TestExtractOf(t *testing.T) {
	for _, strength := range []float64{0, 0.5, 6, 20, 48, 75, 96} {
		most := MostExtract(strength)
		for _, temperature := range []float64{0, 8, 20, 33, 40} {
			for _, part := range []float64{0, 1e-6, 0.01, 0.3, 0.7, 1} {
				e, s := strength/100*PureEthanol, part*most
				w := WaterIn(e, s)
				if math.IsNaN(w) {
					t.Fatalf("%v %% vol, %v g/L", strength, part*most)
				}
				rho := (e + s + w) / VolumeAt(e, s, w, temperature)
				got, _, ok := ExtractOf(rho, strength, temperature)
				if !ok && part == 1 {
					got, _, ok = ExtractOf(rho*(1-1e-12), strength, temperature) // rounding at the full end
				}
				if !ok || math.Abs(got-s) > 1e-5 {
					t.Errorf("%v %% vol, %v g/L at %v C: %v, %v", strength, s, temperature, got, ok)
				}
			}
			if _, _, ok := ExtractOf((Ethanol(ByMass(strength), temperature) - 0.01), strength, temperature); ok {
				t.Errorf("%v %% vol at %v C: lighter than dry", strength, temperature)
			}
		}
	}
	if _, _, ok := ExtractOf(math.NaN(), 20, 20); ok {
		t.Error("NaN")
	}
}
