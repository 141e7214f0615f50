package law

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number.
func TestLawDomains(t *testing.T) {
	type (
		gram = units.Mass
		conc = units.Concentration
	)
	handbook.Domains(t, []handbook.Domain{
		{Name: "FlashPoint", Of: func(x float64) (float64, error) { f, _, err := FlashPoint(units.Strength(x)); return float64(f), err }, Good: []float64{6.3, 96}, Bad: []float64{6, 97}},
		{Name: "Check, level", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: conc(x)}})
			return float64(len(r.Findings)), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "Check, uncertainty", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: 1}, Uncertainty: Levels{TotalSO2: conc(x)}})
			return float64(len(r.Findings)), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "Check, sugar", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: 1}, SugarLow: conc(x), SugarHigh: conc(x)})
			return float64(len(r.Findings)), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "Check, pH", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Category: FruitWine, Levels: Levels{TotalSO2: 1}, PH: x})
			return float64(len(r.Findings)), err
		}, Good: []float64{0, 14}, Bad: []float64{-1, 15}},
		{Name: "Log.Levels", Of: func(x float64) (float64, error) {
			l, err := Log{{Additive: LogPotassiumSorbate, Mass: gram(x), Volume: 1}}.Levels()
			return float64(l[SorbicAcid]), err
		}, Good: []float64{0, 10}, Bad: []float64{-1, 1e11}},
	})
}
