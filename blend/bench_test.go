package blend_test

import (
	"errors"
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// Limits of the solver, each with inputs that vary from call to call, as
// multiples of internal/density's BenchmarkPolynomial.

// varied is a value that wanders over a range.
func varied(i int, lo, hi float64) float64 { return lo + (hi-lo)*float64(i*37%256)/256 }

func BenchmarkSolveThree(b *testing.B) {
	b.ReportAllocs()
	jars := []blend.Component{{Strength: 13, Extract: 22}, {Strength: 6, Extract: 150}, {Strength: 60}}
	for i := 0; b.Loop(); i++ {
		if _, err := blend.Solve(5, jars, blend.WantStrength(units.Strength(varied(i, 18, 22))), blend.WantExtract(units.Concentration(varied(i, 70, 90)))); err != nil {
			b.Fatal(err)
		}
	}
}

// ten liquids, each with a stock and a price.
func ten() []blend.Component {
	cs := make([]blend.Component, 10)
	for i := range cs {
		cs[i] = blend.Component{Volume: 1.5, Strength: units.Strength(6 + i), Extract: units.Concentration(150 - 12*i), Acid: units.Concentration(8 - 0.3*float64(i)), Cost: float64(1 + i*7%5)}
	}
	cs[8], cs[9] = blend.Component{Volume: 1.5, Strength: 75, Cost: 9}, blend.Component{Volume: 1.5, Strength: 40, Cost: 6}
	return cs
}

func BenchmarkSolveTen(b *testing.B) {
	b.ReportAllocs()
	cs := ten()
	for i := 0; b.Loop(); i++ {
		if _, err := blend.Solve(5, cs, blend.WantStrength(units.Strength(varied(i, 18, 22))), blend.WantExtract(units.Concentration(varied(i, 70, 90)))); err != nil {
			b.Fatal(err)
		}
	}
}

// One want leaves the composition open: the volumes are not linear.
func BenchmarkSolveTenOpen(b *testing.B) {
	b.ReportAllocs()
	cs := ten()
	for i := 0; b.Loop(); i++ {
		if _, err := blend.Solve(5, cs, blend.WantStrength(units.Strength(varied(i, 18, 22)))); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolveUnreachable(b *testing.B) {
	b.ReportAllocs()
	jars := []blend.Component{{Name: "wine", Strength: 6, Extract: 142}, {Name: "spirit", Strength: 75}, {Name: "juice", Extract: 200}}
	for i := 0; b.Loop(); i++ {
		_, err := blend.Solve(5, jars, blend.WantStrength(units.Strength(varied(i, 68, 72))), blend.WantExtract(units.Concentration(varied(i, 100, 120))))
		if !errors.Is(err, blend.ErrUnreachable) {
			b.Fatal(err)
		}
	}
}

// As above, with stocks: more of each may do.
func BenchmarkSolveUnreachableStocks(b *testing.B) {
	b.ReportAllocs()
	cs := ten()
	for i := 0; b.Loop(); i++ {
		_, err := blend.Solve(14, cs, blend.WantStrength(units.Strength(varied(i, 25, 28))), blend.WantExtract(units.Concentration(varied(i, 80, 90))))
		if !errors.Is(err, blend.ErrUnreachable) {
			b.Fatal(err)
		}
	}
}

func BenchmarkFortifyUnreachable(b *testing.B) {
	for _, c := range []struct {
		name   string
		spirit blend.Component
	}{
		{"Weak", blend.Component{Name: "liqueur", Strength: 16}},
		{"Short", blend.Component{Name: "spirit", Strength: 75, Volume: 0.1}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				if _, err := blend.Fortify(cherry, c.spirit, units.Strength(varied(i, 18, 22))); !errors.Is(err, blend.ErrUnreachable) {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkMixTwo(b *testing.B) {
	b.ReportAllocs()
	s := strong
	s.Volume = 0.25
	for b.Loop() {
		if _, err := blend.Mix(cherry, s); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFortify(b *testing.B) {
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := blend.Fortify(cherry, strong, units.Strength(varied(i, 18, 22))); err != nil {
			b.Fatal(err)
		}
	}
}

func TestAllocationsOfTheSolver(t *testing.T) {
	jars := []blend.Component{{Strength: 13, Extract: 22}, {Strength: 6, Extract: 150}, {Strength: 60}}
	weak := blend.Component{Name: "liqueur", Strength: 16}
	for name, c := range map[string]struct {
		most float64
		run  func()
	}{
		"three liquids": {10, func() { _, _ = blend.Solve(5, jars, blend.WantStrength(20), blend.WantExtract(80)) }},
		"not reachable": {200, func() { _, _ = blend.Solve(5, jars, blend.WantStrength(70), blend.WantExtract(80)) }},
		"Fortify":       {0, func() { _, _ = blend.Fortify(cherry, strong, 20) }},
		"weak spirit":   {10, func() { _, _ = blend.Fortify(cherry, weak, 20) }},
	} {
		if got := testing.AllocsPerRun(20, c.run); got > c.most {
			t.Errorf("%s: %v allocations, limit %v", name, got, c.most)
		}
	}
}
