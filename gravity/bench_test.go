package gravity_test

import (
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

var (
	sinkSG    gravity.SG
	sinkPlato gravity.Plato
	sinkBrix  gravity.Brix
	sinkFloat float64
)

// BenchmarkUnit is the unit of the others: one evaluation of the 12-coefficient
// polynomial of ethanol-water at 20 C.
func BenchmarkUnit(b *testing.B) {
	b.ReportAllocs()
	p := 0.0
	for b.Loop() {
		p += 1e-9
		sinkFloat = density.Ethanol20(p)
	}
}

func BenchmarkPlatoSG(b *testing.B) {
	b.ReportAllocs()
	p := gravity.Plato(17)
	for b.Loop() {
		p += 1e-9
		sinkSG, _ = p.SG()
	}
}

func BenchmarkSGPlato(b *testing.B) {
	b.ReportAllocs()
	g := gravity.SG(1.07)
	for b.Loop() {
		g += 1e-12
		sinkPlato, _ = g.Plato()
	}
}

func BenchmarkHydrometerCorrect(b *testing.B) {
	b.ReportAllocs()
	h, g := gravity.NewHydrometer(units.Celsius(15)), gravity.SG(1.07)
	for b.Loop() {
		g += 1e-12
		sinkSG, _ = h.Correct(g, units.Celsius(27))
	}
}

func BenchmarkHydrometerCorrectIn(b *testing.B) {
	b.ReportAllocs()
	h, g := gravity.NewHydrometer(units.Celsius(15)), gravity.SG(1.02)
	for b.Loop() {
		g += 1e-12
		sinkSG, _ = h.CorrectIn(19, g, units.Celsius(27))
	}
}

func BenchmarkHydrometerShows(b *testing.B) {
	b.ReportAllocs()
	h, s := gravity.NewHydrometer(units.Celsius(15)), units.Strength(19)
	for b.Loop() {
		s += 1e-12
		sinkSG, _ = h.Shows(s, 100, units.Celsius(27))
	}
}

func BenchmarkRefractometerCorrect(b *testing.B) {
	b.ReportAllocs()
	r, x := gravity.NewRefractometer(), gravity.Brix(17)
	for b.Loop() {
		x += 1e-12
		sinkBrix, _ = r.Correct(x, units.Celsius(27))
	}
}

func BenchmarkOfIndex(b *testing.B) {
	b.ReportAllocs()
	n := 1.36
	for b.Loop() {
		n += 1e-14
		sinkBrix, _ = gravity.OfIndex(n)
	}
}
