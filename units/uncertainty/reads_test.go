package uncertainty_test

import (
	"math"
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
)

// FuzzWithin: a value with limits is finite, its limits are none or more, and both
// ends can be of that quantity.
func FuzzWithin(f *testing.F) {
	for _, text := range []string{"3 L ± 2 %", "3 L +/- 50 mL", "20 C ± 1 K", "68 F ± 9", "40 % vol ± 0.3", "1e300 L ± 1e308", "± 2", "3 ± ± 1 L", "3 L ± -1 L", "0 L ± 0 %", "rectangular"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		volume, limit, err := uncertainty.Within(units.ParseVolume, "volume", text)
		handbook.Parsed(t, "volume", text, [2]float64{float64(volume), limit}, err)
		temperature, apart, err := uncertainty.Within(units.ParseTemperature, "temperature", text)
		handbook.Parsed(t, "temperature", text, [2]float64{float64(temperature), apart}, err)
		if limit < 0 || apart < 0 || math.IsInf(float64(volume)+limit, 0) {
			t.Errorf("%q: %v ± %v, %v ± %v", text, volume, limit, temperature, apart)
		}
		handbook.ReadsText(t, text, new(uncertainty.Distribution))
	})
}
