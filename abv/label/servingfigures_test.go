package label_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv/label"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// On 1,000 random servings the live formulas give what the library gives, to
// the places of the cell.
func TestFormulasOfServingsAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(29, 7))
	for i := range 1000 {
		serving, s := units.Volume(random.Float64()), units.Strength(60*random.Float64())
		drinks, err := []label.Drink{label.DrinkUS, label.UnitUK, {Name: "own", Alcohol: 10}}[i%3].Figures(serving, s)
		if err != nil {
			t.Fatal(err)
		}
		part := func() units.Concentration { return units.Concentration(200 * random.Float64()) }
		energy, err := label.EnergyFigures(serving, label.Nutrients{Strength: s, Sugar: part(), Polyols: part(), Acids: part()})
		if err != nil {
			t.Fatal(err)
		}
		for _, figures := range [][]units.Figure{drinks, energy} {
			if err := formula.Check(figures); err != nil {
				t.Fatal(err)
			}
		}
	}
	if _, err := label.DrinkUS.Figures(-1, 20); err == nil {
		t.Error("a serving of -1 L is taken")
	}
	if _, err := label.EnergyFigures(1, label.Nutrients{Sugar: -1}); err == nil {
		t.Error("a sugar of -1 g/L is taken")
	}
}
