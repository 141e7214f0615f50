package stability_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/additions/stability"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

func TestFormulaOfDelleUnitsAgrees(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 5))
	for range 1000 {
		figures, err := stability.DelleFigures(units.Strength(100*random.Float64()), units.Concentration(400*random.Float64()))
		if err != nil {
			t.Fatal(err)
		}
		if err := formula.Check(figures); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := stability.DelleFigures(20, -1); err == nil {
		t.Error("a sugar of -1 g/L is taken")
	}
}
