package additions

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

func BenchmarkMolecularSO2(b *testing.B) {
	handbook.Bench(b, func() error { _, err := MolecularSO2(0.03, 3.4, 1.81); return err })
}

func BenchmarkFreeSO2For(b *testing.B) {
	handbook.Bench(b, func() error { _, err := FreeSO2For(0.0008, 3.4, 1.81); return err })
}

func BenchmarkSO2PK(b *testing.B) {
	handbook.Bench(b, func() error { _, err := SO2PK(6, units.Celsius(22)); return err })
}

func BenchmarkMetabisulfite(b *testing.B) {
	handbook.Bench(b, func() error { _, err := Metabisulfite(0.05, 4); return err })
}

func BenchmarkSorbate(b *testing.B) {
	handbook.Bench(b, func() error { _, err := Sorbate(0.2, 4); return err })
}

func BenchmarkSorbicAcidNeeded(b *testing.B) {
	handbook.Bench(b, func() error { _, err := SorbicAcidNeeded(12.3, 3.33); return err })
}

func BenchmarkWeigh(b *testing.B) {
	handbook.Bench(b, func() error { _, err := Weigh(GranulatedSugar, 0.5); return err })
}
