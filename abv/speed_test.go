package abv_test

import (
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// The speed targets are multiples of the first: one evaluation of the
// polynomial of 12 coefficients, in the same run.
func BenchmarkStrength(b *testing.B) {
	sum := 0.0
	run := func(name string, f func()) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f()
			}
		})
	}
	p := 0.33
	run("Ethanol20", func() { sum += density.Ethanol20(p) })
	run("ByMass", func() { m, _ := abv.ByMass(40); sum += float64(m) })
	run("Density20C", func() { d, _ := abv.Density(40, units.Celsius(20)); sum += float64(d) })
	run("Density8C", func() { d, _ := abv.Density(40, units.Celsius(8)); sum += float64(d) })
	run("MassBalance", func() { f, _ := abv.MassBalance(1.092, 1.046, abv.Must); sum += float64(f.Strength) })
	run("MassBalanceDry", func() { f, _ := abv.MassBalance(1.092, 0.995, abv.Wort); sum += float64(f.Strength) })
	run("StopAt", func() { f, _ := abv.StopAt(1.092, 6, abv.Must); sum += float64(f.Gravity) })
	run("TrueStrength", func() { s, _ := spirit.TrueStrength(40, units.Celsius(27)); sum += float64(s) })
	run("USProof", func() { s, _ := spirit.USProof(40); sum += s })
	if sum == 0 {
		b.Error("nothing was computed")
	}
}
