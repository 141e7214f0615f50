package additions

import (
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/internal/handbook"
)

func bench(b *testing.B, f func() error) {
	b.ReportAllocs()
	for b.Loop() {
		if err := f(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMolecularSO2(b *testing.B) {
	bench(b, func() error { _, err := MolecularSO2(0.03, 3.4, 1.81); return err })
}

func BenchmarkFreeSO2For(b *testing.B) {
	bench(b, func() error { _, err := FreeSO2For(0.0008, 3.4, 1.81); return err })
}
func BenchmarkSO2PK(b *testing.B) { bench(b, func() error { _, err := SO2PK(6, 22); return err }) }
func BenchmarkMetabisulfite(b *testing.B) {
	bench(b, func() error { _, err := Metabisulfite(0.05, 4); return err })
}
func BenchmarkSorbate(b *testing.B) { bench(b, func() error { _, err := Sorbate(0.2, 4); return err }) }
func BenchmarkSorbicAcidNeeded(b *testing.B) {
	bench(b, func() error { _, err := SorbicAcidNeeded(12.3, 3.33); return err })
}
func BenchmarkRaiseTA(b *testing.B) {
	bench(b, func() error { _, err := RaiseTA(1, 4, Malic); return err })
}
func BenchmarkLowerTA(b *testing.B) {
	bench(b, func() error { _, err := LowerTA(1, 4, CalciumCarbonate); return err })
}
func BenchmarkDelleUnits(b *testing.B) {
	bench(b, func() error { _, err := DelleUnits(20, 84); return err })
}
func BenchmarkWeigh(b *testing.B) {
	bench(b, func() error { _, err := Weigh(GranulatedSugar, 0.5); return err })
}

func BenchmarkPH(b *testing.B) {
	m := cherry
	m.Profile = Acids{Tartaric: 2, Malic: 4, Citric: 0.3, Lactic: 0.2, Succinic: 0.5, Acetic: 0.3}
	after := handbook.Must(handbook.Must(Fit(m)).With(Tartaric, 1.5))
	bench(b, func() error { _, err := after.PH(); return err })
}
func BenchmarkFit(b *testing.B) { bench(b, func() error { _, err := Fit(cherry); return err }) }
func BenchmarkPredict(b *testing.B) {
	bench(b, func() error {
		_, err := Predict(cherry, func(b Buffer) (Buffer, error) { return b.With(Malic, 1) })
		return err
	})
}
func BenchmarkRaiseGravity(b *testing.B) {
	bench(b, func() error { _, err := RaiseGravity(1.05, 1.09, 4); return err })
}
func BenchmarkRaiseExtract(b *testing.B) {
	wine := abv.Composition{Strength: 20, Extract: 60}
	bench(b, func() error { _, err := RaiseExtract(wine, 90, 4, Sucrose); return err })
}
func BenchmarkSealedPressure(b *testing.B) {
	bench(b, func() error {
		_, err := SealedPressure(Wine{Strength: 6, Sugar: 142}, Bottle{Volume: 0.77, Headspace: 0.02}, 20)
		return err
	})
}
