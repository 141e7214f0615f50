package sugar

import (
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// Every exported function with a number in it, at both sides of its domain and
// with what is no number.
func TestSugarDomains(t *testing.T) {
	type (
		vol  = units.Volume
		gram = units.Mass
		conc = units.Concentration
	)
	wine := abv.Composition{Strength: 12, Extract: 30}
	addition := func(a Addition, err error) (float64, error) {
		sum := 0.0
		for _, v := range []float64{float64(a.Sugar), float64(a.Volume), float64(a.After.Extract), float64(a.After.Gravity)} {
			sum += math.Abs(v)
		}
		return sum, err
	}
	handbook.Domains(t, []handbook.Domain{
		{Name: "RaiseGravity from", Of: func(x float64) (float64, error) { return addition(RaiseGravity(gravity.SG(x), 1.2, 1)) }, Good: []float64{1, 1.2}, Bad: []float64{0.99, 1.21, 1.36}},
		{Name: "RaiseGravity to", Of: func(x float64) (float64, error) { return addition(RaiseGravity(1.05, gravity.SG(x), 1)) }, Good: []float64{1.05, 1.3498}, Bad: []float64{1.04, 1.36}},
		{Name: "RaiseGravity volume", Of: func(x float64) (float64, error) { return addition(RaiseGravity(1.05, 1.06, vol(x))) }, Good: []float64{0.001, 1e7}, Bad: []float64{0, -1, 1e8}},
		{Name: "RaiseGravityWith", Of: func(x float64) (float64, error) {
			return addition(RaiseGravityWith(Sweetener{"s", x, 0.1, ""}, 1.05, 1.06, 1))
		}, Good: []float64{0.2, 1}, Bad: []float64{0, 0.14, 1.1}},
		{Name: "AddSugar", Of: func(x float64) (float64, error) {
			g, v, err := Add(1.05, 1, gram(x))
			return float64(g) + float64(v), err
		}, Good: []float64{0, 2000}, Bad: []float64{-1, 2200}},
		{Name: "AddInPortions", Of: func(x float64) (float64, error) {
			p, err := AddInPortions(1.05, 1, gram(x), 2)
			return float64(len(p)), err
		}, Good: []float64{0, 2000}, Bad: []float64{-1, 2200}},
		{Name: "LegalIncrease", Of: func(x float64) (float64, error) { v, err := LegalIncrease(gram(x)); return float64(v), err }, Good: []float64{0, 1e10}, Bad: []float64{-1, 1e11}},
		{Name: "Sweeten", Of: func(x float64) (float64, error) { return addition(Sweeten(wine, 1, Sucrose, gram(x))) }, Good: []float64{0, 1900}, Bad: []float64{-1, 2200}},
		{Name: "Sweeten strength", Of: func(x float64) (float64, error) {
			return addition(Sweeten(abv.Composition{Strength: units.Strength(x)}, 1, Sucrose, 1))
		}, Good: []float64{0, 96}, Bad: []float64{-1, 101}},
		{Name: "RaiseExtract", Of: func(x float64) (float64, error) { return addition(RaiseExtract(wine, conc(x), 1, Sucrose)) }, Good: []float64{30, 700}, Bad: []float64{29, 950}},
		{Name: "Syrup", Of: func(x float64) (float64, error) { s, err := Syrup(gravity.Brix(x)); return s.Extract, err }, Good: []float64{1, 85}, Bad: []float64{0.9, 86}},
		{Name: "InvertSyrup", Of: func(x float64) (float64, error) { s, err := InvertSyrup(gravity.Brix(x)); return s.Extract, err }, Good: []float64{1, 85}, Bad: []float64{0.9, 86}},
		{Name: "SweetenTo", Of: func(x float64) (float64, error) {
			return addition(SweetenTo(SweetnessClass{Sugar: [2]conc{conc(x), 800}}, wine, 1, Sucrose))
		}, Good: []float64{0, 700}, Bad: []float64{950}},
	})
}
