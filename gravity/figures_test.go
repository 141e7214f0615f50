package gravity_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

type figures interface{ Figures() []units.Figure }

// On 1,000 random readings of each scale the live formulas give what the
// library gives, to the places of the cell.
func TestFormulasOfTheScalesAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 20))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*random.Float64() }
	bases := []gravity.Basis{gravity.Basis20C, gravity.Basis20C4C, gravity.Basis60F, gravity.Basis15C, gravity.Basis17C5}
	for range 1000 {
		g := gravity.SG(between(0.98104, 1.3499))
		for _, reading := range []figures{g, gravity.Plato(between(-5, 70)), gravity.Brix(between(0, 70)), gravity.Oechsle(between(0, 349)),
			gravity.Points(between(-18.9, 349)), gravity.Baume(between(0, 37.5)), gravity.Baume1443(between(0, 37.3))} {
			if err := formula.Check(reading.Figures()); err != nil {
				t.Fatalf("%T %v: %v", reading, reading, err)
			}
		}
		basis := bases[random.IntN(len(bases))]
		forth, err := basis.FiguresOf(gravity.SG(between(0.982, 1.349)))
		if err != nil {
			t.Fatal(err)
		}
		reading, _ := forth[2].Value.Float64()
		back, err := basis.Figures(reading)
		if err != nil {
			t.Fatal(err)
		}
		for _, figures := range [][]units.Figure{forth, back} {
			if err := formula.Check(figures); err != nil {
				t.Fatalf("%v: %v", basis, err)
			}
		}
	}
}

func TestScalesThatEndAreLeftOut(t *testing.T) {
	for reading, want := range map[figures]int{gravity.SG(1.09): 8, gravity.SG(0.99): 4, gravity.SG(0.9): 3,
		gravity.Plato(71): 1, gravity.Baume(-1): 1, gravity.Oechsle(-1): 1, gravity.Points(400): 1, gravity.Baume1443(38): 1, gravity.Brix(12): 2} {
		if got := len(reading.Figures()); got != want {
			t.Errorf("%T %v has %d figures, expected %d", reading, reading, got, want)
		}
	}
	if _, err := gravity.Basis60F.Figures(2); err == nil {
		t.Error("a reading of 2 is taken")
	}
	if _, err := gravity.Basis60F.FiguresOf(2); err == nil {
		t.Error("a gravity of 2 is taken")
	}
}
