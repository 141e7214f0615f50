package blend_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

var (
	figureWine   = blend.Component{Name: "morello wine", Volume: 3.05, Strength: 6.1, Extract: 142, Acid: 6.5}
	figureSpirit = blend.Component{Name: "spirit", Strength: 55}
	figureJuice  = blend.Component{Name: "morello juice", Volume: 0.4, Extract: 180, Unknown: blend.Set(blend.Acid)}
)

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
	poured := figureSpirit
	poured.Volume = 1.2
	arrest := blend.Arrest{OG: 1.092, Stop: 1.046, Yield: abv.Must, Must: 3, Spirit: poured}
	bottles, _, err := blend.Bottles(3, 0.75)
	if err != nil {
		t.Fatal(err)
	}
	finding := done[blend.Finding](t)(blend.Explain(figureWine, poured, 1.03, blend.Uncertainty{Volume: 0.1, Strength: 0.2}, blend.Uncertainty{Volume: 0.1}, 0.001))
	if len(finding.Explanations) == 0 {
		t.Error("nothing explains the reading")
	}
	for name, result := range map[string]interface{ Figures() []units.Figure }{
		"Mix":       done[blend.Mixture](t)(blend.Mix(figureWine, poured)),
		"Fortify":   done[blend.Fortification](t)(blend.Fortify(figureWine, figureSpirit, 20)),
		"Solve":     done[blend.Recipe](t)(blend.Solve(2, []blend.Component{figureWine, figureSpirit, figureJuice}, blend.WantStrength(18))),
		"MixWithin": done[blend.Uncertain](t)(blend.MixWithin([]blend.Component{figureWine, poured}, []blend.Uncertainty{{Volume: 0.1}, {}})),
		"Within":    done[blend.ArrestUncertain](t)(arrest.Within(blend.ArrestUncertainty{OG: 0.001, Stop: 0.001, Balance: abv.BalanceUncertainty})),
		"Explain":   finding,
		"Component": done[blend.Component](t)(figureWine.MeasuredAt(units.Celsius(15))),
		"Bottles":   bottles[0],
	} {
		figures := result.Figures()
		if len(figures) < 2 {
			t.Errorf("%s gives %d figures", name, len(figures))
		}
		if err := formula.Check(figures); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, e := range finding.Explanations {
		if err := formula.Check(e.Figures()); err != nil {
			t.Error(err)
		}
	}
}

// What a component does not know is not shown as nothing.
func TestUnknownSolutesAreNotFigures(t *testing.T) {
	m := done[blend.Mixture](t)(blend.Mix(figureWine, figureJuice))
	for _, f := range append(m.Figures(), figureJuice.Figures()...) {
		if f.Key == "acid" {
			t.Errorf("the acidity of a juice that was not measured is shown as %s g/L", f.Fixed())
		}
	}
}

// On 1,000 random blends of two to four liquids (100 where the tests are to be
// short) the live formulas give the hand check, to the places of the cell.
func TestFormulasOfTheHandCheckAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 20))
	blends := 1000
	if testing.Short() {
		blends = 100
	}
	for range blends {
		cs := make([]blend.Component, 2+random.IntN(3))
		for i := range cs {
			cs[i] = blend.Component{Name: fmt.Sprint("liquid ", i), Volume: units.Volume(0.1 + 10*random.Float64()), Strength: units.Strength(60 * random.Float64()),
				Extract: units.Concentration(200 * random.Float64()), Acid: units.Concentration(10 * random.Float64())}
		}
		h := done[blend.HandCheck](t)(blend.Additive(cs...))
		if err := formula.Check(h.Figures()); err != nil {
			t.Fatal(err)
		}
		base, spirit := cs[0], blend.Component{Name: "spirit", Strength: units.Strength(65 + 30*random.Float64())}
		target := base.Strength + (spirit.Strength-base.Strength)*units.Strength(0.1+0.7*random.Float64())
		q, err := blend.Alligation(base, spirit, target)
		if err != nil {
			t.Fatal(err)
		}
		if err := formula.Check(q.Figures()); err != nil {
			t.Fatal(err)
		}
	}
}
