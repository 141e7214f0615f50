package label

import (
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

var (
	byPure   = figure.Method{Method: "volume times strength times the density of pure ethanol, 789.24 kg/m3", Source: density.SourceEthanol}
	byDrink  = figure.Method{Method: "pure alcohol over that of one drink; none of them is a safe amount"}
	byEnergy = figure.Method{Method: "grams of alcohol, sugar, polyols and acids times the factors of the label", Source: "Regulation (EU) 1169/2011, Annex XIV"}

	ofServing  = figure.Quantity{Key: "serving", Name: "serving", Unit: "mL"}
	ofAlcohol  = figure.Quantity{Key: "serving_alcohol", Name: "pure alcohol in the serving", Unit: "g", Places: 1}
	ofOne      = figure.Quantity{Key: "drink_alcohol", Name: "pure alcohol in one standard drink", Unit: "g"}
	ofDrinks   = figure.Quantity{Key: "standard_drinks", Name: "standard drinks in the serving", Places: 2}
	ofPolyols  = figure.Quantity{Key: "polyols", Name: "polyols", Unit: "g/L"}
	ofAcids    = figure.Quantity{Key: "organic_acids", Name: "organic acids", Unit: "g/L"}
	ofEnergy   = figure.Quantity{Key: "energy", Name: "food energy of the serving", Unit: "kJ"}
	ofCalories = figure.Quantity{Key: "energy_kcal", Name: "food energy of the serving, in kcal", Unit: "kcal"}

	alcoholFormula = "{serving}/1000*{strength}/100*" + formula.Number(density.PureEthanol)
)

// Figures are In with what it was computed from and live formulas. Domain and
// error as In.
func (d Drink) Figures(serving units.Volume, s units.Strength) ([]units.Figure, error) {
	n, err := d.In(serving, s)
	if err != nil {
		return nil, err
	}
	m, err := AlcoholMass(serving, s)
	if err != nil {
		return nil, err
	}
	by := byDrink
	if by.Source = d.Source; d.Source == "" {
		by.Source = figure.Stated.Source
	}
	return []units.Figure{
		figure.Input(ofServing, serving.In(units.Millilitre)), figure.Input(figure.Strength, float64(s)),
		figure.Noted(figure.Input(ofOne, float64(d.Alcohol)), d.Name),
		byPure.Live(ofAlcohol, float64(m), alcoholFormula),
		figure.Noted(by.Live(ofDrinks, n, "{serving_alcohol}/{drink_alcohol}"), d.Name),
	}, nil
}

// EnergyFigures are EnergyIn with what it was computed from and live formulas.
// Domain and error as EnergyIn.
func EnergyFigures(serving units.Volume, n Nutrients) ([]units.Figure, error) {
	e, err := EnergyIn(serving, n)
	if err != nil {
		return nil, err
	}
	m, err := AlcoholMass(serving, n.Strength)
	if err != nil {
		return nil, err
	}
	text := func(of func(Energy) float64) string {
		factor := func(e Energy) string { return formula.Number(of(e)) }
		return factor(energyAlcohol) + "*{serving_alcohol}+(" + factor(energySugar) + "*{sugar_likely}+" + factor(energyPolyols) + "*{polyols}+" + factor(energyAcids) + "*{organic_acids})*{serving}/1000"
	}
	return []units.Figure{
		figure.Input(ofServing, serving.In(units.Millilitre)), figure.Input(figure.Strength, float64(n.Strength)),
		figure.Input(figure.Sugar, float64(n.Sugar)), figure.Input(ofPolyols, float64(n.Polyols)), figure.Input(ofAcids, float64(n.Acids)),
		byPure.Live(ofAlcohol, float64(m), alcoholFormula),
		byEnergy.Live(ofEnergy, e.Total.Kilojoules, text(func(e Energy) float64 { return e.Kilojoules })),
		byEnergy.Live(ofCalories, e.Total.Kilocalories, text(func(e Energy) float64 { return e.Kilocalories })),
	}, nil
}
