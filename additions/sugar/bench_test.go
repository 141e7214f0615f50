package sugar

import (
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/internal/handbook"
)

func BenchmarkRaiseGravity(b *testing.B) {
	handbook.Bench(b, func() error { _, err := RaiseGravity(1.05, 1.09, 4); return err })
}

func BenchmarkRaiseExtract(b *testing.B) {
	wine := abv.Composition{Strength: 20, Extract: 60}
	handbook.Bench(b, func() error { _, err := RaiseExtract(wine, 90, 4, Sucrose); return err })
}
