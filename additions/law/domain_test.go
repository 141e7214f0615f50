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
		{Name: "FlashPoint", Of: func(x float64) (float64, error) { f, err := FlashPoint(units.Strength(x)); return float64(f), err }, Good: []float64{6.3, 97.3}, Bad: []float64{6, 98}},
		{Name: "CheckLimits level", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Levels: Levels{TotalSO2: conc(x)}})
			return float64(len(r.Exceeded) + len(r.Kept)), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "CheckLimits sugar", Of: func(x float64) (float64, error) {
			r, err := Check("US", Product{Sugar: conc(x)})
			return float64(len(r.Cautions)), err
		}, Good: []float64{0, 1000}, Bad: []float64{-1, 1001}},
		{Name: "Log.Levels", Of: func(x float64) (float64, error) {
			l, err := Log{{Additive: LogPotassiumSorbate, Mass: gram(x), Volume: 1}}.Levels()
			return float64(l[SorbicAcidLevel]), err
		}, Good: []float64{0, 10}, Bad: []float64{-1, 1e11}},
	})
}
