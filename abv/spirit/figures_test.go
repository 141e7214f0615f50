package spirit_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Every result says of every figure how it was found and who says so.
func TestResultsGiveFiguresWithProvenance(t *testing.T) {
	gauged, err := spirit.Gauge(151)
	if err != nil {
		t.Fatal(err)
	}
	reduced, err := spirit.Reduce(1, 96, 40)
	if err != nil {
		t.Fatal(err)
	}
	for _, result := range []interface{ Figures() []units.Figure }{gauged, reduced} {
		if err := formula.Check(result.Figures()); err != nil {
			t.Errorf("%T: %v", result, err)
		}
	}
}

func TestFormulasOfSpiritAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(60, 20))
	for range 1000 {
		proof, err := spirit.ProofFigures(units.Strength(100 * random.Float64()))
		byVolume, err2 := spirit.Figures(units.Strength(100 * random.Float64()))
		byMass, err3 := spirit.FiguresByMass(units.MassPercent(100 * random.Float64()))
		if err != nil || err2 != nil || err3 != nil {
			t.Fatal(err, err2, err3)
		}
		for _, figures := range [][]units.Figure{proof, byVolume, byMass} {
			if err := formula.Check(figures); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, x := range []float64{-1, 101} {
		if _, err := spirit.Figures(units.Strength(x)); err == nil {
			t.Errorf("%v %% vol is taken", x)
		}
		if _, err := spirit.FiguresByMass(units.MassPercent(x)); err == nil {
			t.Errorf("%v %% mass is taken", x)
		}
	}
	if _, err := spirit.ProofFigures(101); err == nil {
		t.Error("101 % vol is taken")
	}
}
