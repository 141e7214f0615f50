package stability

import (
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

var byDelle = figure.Method{Method: "sugar in g/100 mL and 4.5 times the strength", Source: "Amerine & Kunkee, Vitis 5 (1965)"}

const delleFormula = "{sugar_likely}/10+4.5*{strength}"

// DelleFigures are DelleUnits with a live formula. Domain and error as
// DelleUnits.
func DelleFigures(s units.Strength, sugar units.Concentration) ([]units.Figure, error) {
	du, err := DelleUnits(s, sugar)
	if err != nil {
		return nil, err
	}
	return []units.Figure{figure.Input(figure.Strength, float64(s)), figure.Input(figure.Sugar, float64(sugar)), byDelle.Live(figure.DelleUnits, du, delleFormula)}, nil
}
