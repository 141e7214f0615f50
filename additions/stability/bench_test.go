package stability

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func BenchmarkDelleUnits(b *testing.B) {
	handbook.Bench(b, func() error { _, err := DelleUnits(20, 84); return err })
}

func BenchmarkSealedPressure(b *testing.B) {
	handbook.Bench(b, func() error {
		_, err := SealedPressure(Wine{Strength: 6, Sugar: exactly(142)}, Closed{Volume: 0.77, Headspace: 0.02}, units.Celsius(20))
		return err
	})
}
