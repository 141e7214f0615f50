package abv_test

import (
	"math/rand/v2"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// must gives the result of a call that has no reason to fail.
func must[T any](t *testing.T) func(T, error) T {
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
	composition, fermented := must[abv.Composition](t), must[abv.Fermented](t)
	goal := abv.Goal{MinStrength: 5, MaxStrength: 8, MinExtract: 100, MaxExtract: 160}
	for name, result := range map[string]interface{ Figures() []units.Figure }{
		"Compose":             composition(abv.Compose(20, 84)),
		"BoilOff":             composition(abv.BoilOff(1.0301, 1.0600)),
		"RealExtract":         composition(abv.RealExtract(6.2, 1.05)),
		"TwoInstruments":      composition(abv.TwoInstruments(1.0301, 17)),
		"TwoInstrumentsIn":    must[abv.Determination](t)(abv.TwoInstrumentsIn(1.0301, 17, abv.Solutes{Invert: 1, Glycerol: 6, Acid: 6})),
		"BoilOffInFull":       must[abv.Evaporation](t)(abv.BoilOffInFull(1.0301, 1.0600, abv.Must)),
		"MassBalance":         fermented(abv.MassBalance(1.092, 1.046, abv.Must)),
		"MassBalancePortions": must[abv.Portioned](t)(abv.MassBalancePortions(1.07, 3, 1.046, abv.Must, abv.Portion{Sugar: 200})),
		"StopWithin":          must[abv.Window](t)(abv.StopWithin(1.092, goal, abv.Must)),
		"ParseYield":          must[abv.Yield](t)(abv.ParseYield("must")),
		"Compare":             must[abv.Comparison](t)(abv.Compare(1.092, 1.046, abv.Must)),
		"Measured":            must[abv.Sugars](t)(abv.Measured(80, 5)),
		"NotSugarOf":          must[abv.NotSugar](t)(abv.NotSugarOf("skins")),
		"StatedNotSugar":      must[abv.NotSugar](t)(abv.StatedNotSugar(30, 5)),
	} {
		figures := result.Figures()
		if len(figures) == 0 {
			t.Errorf("%s gives no figures", name)
		}
		if err := formula.Check(figures); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Who measures by boiling off is not told that two instruments were read.
func TestCompositionsSayHowTheyWereFound(t *testing.T) {
	methods := map[string]bool{}
	composition := must[abv.Composition](t)
	for _, c := range []abv.Composition{composition(abv.Compose(20, 84)), composition(abv.BoilOff(1.0301, 1.0600)),
		composition(abv.RealExtract(6.2, 1.05)), composition(abv.TwoInstruments(1.0301, 17))} {
		methods[c.Figures()[0].Method] = true
	}
	if len(methods) != 4 {
		t.Errorf("four ways to a strength have the methods %v", methods)
	}
}

// On 1,000 random pairs of gravities, and as many spirits, the live formulas
// give what the library gives, to the places of the cell.
func TestFormulasOfStrengthAgree(t *testing.T) {
	random := rand.New(rand.NewPCG(10, 92))
	methods := map[string]int{}
	for range 1000 {
		og := 1 + 0.16*random.Float64()
		fg := og - 0.11*random.Float64()
		if c, err := abv.Compare(gravity.SG(og), gravity.SG(max(fg, 0.99)), abv.Wort); err == nil {
			figures := c.Figures()
			if err := formula.Check(figures); err != nil {
				t.Fatalf("%v to %v: %v", og, fg, err)
			}
			for _, f := range figures {
				if f.Formula != "" {
					methods[f.Key]++
				}
			}
		}
	}
	for _, key := range []string{"strength_simple", "strength_alternative", "strength_official_factor", "strength_balling_wort", "strength_balling_must"} {
		if methods[key] < 500 {
			t.Errorf("%s was computed %d times only", key, methods[key])
		}
	}
}
