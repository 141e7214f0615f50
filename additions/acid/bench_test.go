package acid

import (
	"testing"

	"example.org/mutage/internal/handbook"
)

func BenchmarkRaiseTA(b *testing.B) {
	handbook.Bench(b, func() error { _, err := RaiseTA(1, 4, Malic); return err })
}

func BenchmarkLowerTA(b *testing.B) {
	handbook.Bench(b, func() error { _, err := LowerTA(1, 4, CalciumCarbonate); return err })
}

func BenchmarkPH(b *testing.B) {
	m := cherry
	m.Profile = Acids{Tartaric: 2, Malic: 4, Citric: 0.3, Lactic: 0.2, Succinic: 0.5, Acetic: 0.3}
	before, err := Fit(m)
	if err != nil {
		b.Fatal(err)
	}
	after, err := before.With(Tartaric, 1.5)
	if err != nil {
		b.Fatal(err)
	}
	handbook.Bench(b, func() error { _, err := after.PH(); return err })
}

func BenchmarkFit(b *testing.B) {
	handbook.Bench(b, func() error { _, err := Fit(cherry); return err })
}

func BenchmarkPredict(b *testing.B) {
	handbook.Bench(b, func() error {
		_, err := Predict(cherry, func(b Buffer) (Buffer, error) { return b.With(Malic, 1) })
		return err
	})
}
