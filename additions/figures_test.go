package additions_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/additions"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

type giver interface{ Figures() []units.Figure }

func done[T any](t *testing.T) func(T, error) T {
	return func(x T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// Every result says of every figure how it was found and who says so.
func TestResultsGiveFiguresWithProvenance(t *testing.T) {
	chips := additions.OakChips
	results := []giver{
		done[additions.Pitching](t)(additions.Pitch(1.11, 0, 20)),
		done[additions.Spooned](t)(additions.Spoons(additions.MetabisulfitePowder, 2)),
		done[additions.Wood](t)(additions.Block("stave", 120, 20, 4, 1)),
		done[additions.WoodDosed](t)(additions.WoodDose(1, 10, 20, chips)),
	}
	for _, m := range done[[]additions.Measure](t)(additions.GranulatedSugar.Measures()) {
		results = append(results, m)
	}
	for _, s := range done[[]additions.Stage](t)(additions.Staged(5, 3)) {
		results = append(results, s)
	}
	keys := map[string]bool{}
	for _, topic := range []string{"clearing", "wood", "nutrient", "yeast"} {
		for _, p := range done[[]additions.Practice](t)(additions.Practices(topic)) {
			results = append(results, p)
			if key := p.Figures()[0].Key; keys[key] {
				t.Errorf("two rows of practice have the key %s", key)
			} else {
				keys[key] = true
			}
		}
	}
	for _, result := range results {
		if err := formula.Check(result.Figures()); err != nil {
			t.Errorf("%T %+v: %v", result, result, err)
		}
	}
}

// On 1,000 random doses the live formulas give what the library gives, to the
// places of the cell.
func TestFormulasOfDosesAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(57, 6))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*random.Float64() }
	salts := []additions.Sulfite{additions.PotassiumMetabisulfite, additions.SodiumMetabisulfite, additions.PotassiumBisulfite, {Name: "own", SO2: 0.5}}
	nutrients := []additions.Nutrient{additions.DiammoniumPhosphate, additions.AmmoniumSulfate}
	figures := done[[]units.Figure](t)
	for range 1000 {
		v := units.Volume(between(0.1, 500))
		so2, pH, pK := units.Concentration(between(0, 0.3)), between(2.6, 4.4), between(1.7, 2.6)
		for _, of := range [][]units.Figure{
			figures(salts[random.IntN(len(salts))].DoseFigures(so2, v, between(0.5, 1))),
			figures(additions.SulfiteSolutionFigures(so2, v, units.Concentration(between(20, 100)))),
			figures(additions.MolecularSO2Figures(so2, pH, pK)),
			figures(additions.FreeSO2ForFigures(units.Concentration(between(0, 0.001)), pH, pK)),
			figures(additions.SorbateFigures(units.Concentration(between(0, 0.3)), v)),
			figures(nutrients[random.IntN(2)].DoseFigures(units.Concentration(between(0, 0.4)), v)),
		} {
			if err := formula.Check(of); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func TestDosesOutsideTheirDomainGiveNoFigures(t *testing.T) {
	refused := func(name string, figures []units.Figure, err error) {
		if err == nil || figures != nil {
			t.Errorf("%s: %d figures, %v", name, len(figures), err)
		}
	}
	try := func(name string) func([]units.Figure, error) {
		return func(figures []units.Figure, err error) { refused(name, figures, err) }
	}
	try("salt")(additions.PotassiumMetabisulfite.DoseFigures(-1, 1, 1))
	try("solution")(additions.SulfiteSolutionFigures(0.05, 1, 0))
	try("molecular")(additions.MolecularSO2Figures(0.05, 7, 1.8))
	try("free")(additions.FreeSO2ForFigures(0.05, 7, 1.8))
	try("sorbate")(additions.SorbateFigures(9, 1))
	try("nutrient")(additions.Nutrient{}.DoseFigures(0.1, 1))
}
