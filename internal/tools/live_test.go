package main

import (
	"errors"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/label"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/additions"
	"example.org/mutage/additions/acid"
	"example.org/mutage/additions/stability"
	"example.org/mutage/blend"
	"example.org/mutage/gravity"
	"example.org/mutage/units"
)

// figuresOr gives the figures of a call that has no reason to fail.
func figuresOr(t *testing.T) func([]units.Figure, error) []units.Figure {
	return func(figures []units.Figure, err error) []units.Figure {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return figures
	}
}

// Two batches of morello cherry, which have the same figures in other numbers.
type version int

const (
	morello version = iota
	riper
)

func (v version) of(first, second float64) float64 { return []float64{first, second}[v] }

// liveFigures are all figures of the library that have a live formula, with the
// figures that fill their cells.
func liveFigures(t *testing.T, v version) map[string][]units.Figure {
	t.Helper()
	litres := func(a, b float64) units.Volume { return units.Volume(v.of(a, b)) }
	vol := func(a, b float64) units.Strength { return units.Strength(v.of(a, b)) }
	gL := func(a, b float64) units.Concentration { return units.Concentration(v.of(a, b)) }
	mgL := func(a, b float64) units.Concentration {
		return units.Concentration(v.of(a, b)) * units.MilligramPerLitre
	}
	sg := func(a, b float64) gravity.SG { return gravity.SG(v.of(a, b)) }
	wine := blend.Component{Name: "morello wine", Volume: litres(3.05, 11.2), Strength: vol(6.1, 8.3), Extract: gL(142, 120.5), Acid: gL(6.5, 7.1)}
	spirits := blend.Component{Name: "spirit", Volume: litres(1.25, 3), Strength: vol(55, 75)}
	juice := blend.Component{Name: "morello juice", Volume: litres(0.35, 0.8), Extract: gL(168, 181), Acid: gL(11.5, 14)}
	two, err := blend.Additive(wine, spirits)
	three, err2 := blend.Additive(wine, spirits, juice)
	spirits.Volume = 0
	square, err3 := blend.Alligation(wine, spirits, vol(20, 19))
	compared, err4 := abv.Compare(sg(1.092, 1.0985), sg(1.046, 1.0302), abv.Must)
	if err := errors.Join(err, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	figures := figuresOr(t)
	return map[string][]units.Figure{
		"gravity of a must":      sg(1.092, 1.1154).Figures(),
		"gravity of a dry wine":  sg(0.99, 0.9925).Figures(),
		"plato":                  gravity.Plato(v.of(22, 24.6)).Figures(),
		"oechsle":                gravity.Oechsle(v.of(92, 101)).Figures(),
		"points":                 gravity.Points(v.of(92, -8)).Figures(),
		"baume":                  gravity.Baume(v.of(12.2, 14.9)).Figures(),
		"baume 144.3":            gravity.Baume1443(v.of(12.2, 14.9)).Figures(),
		"basis 60 F":             figures(gravity.Basis60F.Figures(v.of(1.0925, 1.033))),
		"on basis 15 C":          figures(gravity.Basis15C.FiguresOf(sg(1.092, 1.033))),
		"strength by formulas":   compared.Figures(),
		"spirit":                 figures(spirit.ProofFigures(vol(55, 80.2))),
		"spirit by mass":         figures(spirit.FiguresByMass(units.MassPercent(v.of(47.18, 91)))),
		"hand check of two":      two.Figures(),
		"hand check of three":    three.Figures(),
		"alligation":             square.Figures(),
		"sulfite":                figures(additions.PotassiumMetabisulfite.DoseFigures(mgL(50, 35), litres(4.3, 15), v.of(0.95, 0.9))),
		"sulfite solution":       figures(additions.SulfiteSolutionFigures(mgL(50, 35), litres(4.3, 15), gL(50, 57))),
		"molecular SO2":          figures(additions.MolecularSO2Figures(mgL(30, 22), v.of(3.4, 3.15), v.of(additions.UsualPK, 2.3))),
		"free SO2":               figures(additions.FreeSO2ForFigures(mgL(0.6, 0.8), v.of(3.4, 3.15), v.of(additions.UsualPK, 2.3))),
		"sorbate":                figures(additions.SorbateFigures(mgL(200, 150), litres(4.3, 15))),
		"nutrient":               figures(additions.DiammoniumPhosphate.DoseFigures(mgL(100, 140), litres(3, 10))),
		"acid":                   figures(acid.RaiseTAFigures(gL(1.5, 0.8), litres(4.3, 15), acid.Malic)),
		"carbonate":              figures(acid.LowerTAFigures(gL(1.5, 0.8), litres(4.3, 15), acid.PotassiumBicarbonate)),
		"Delle units":            figures(stability.DelleFigures(vol(20, 17.2), gL(84, 131))),
		"standard drinks":        figures(label.UnitUK.Figures(litres(0.075, 0.1), vol(20, 17.2))),
		"energy":                 figures(label.EnergyFigures(litres(0.075, 0.1), label.Nutrients{Strength: vol(20, 17.2), Sugar: gL(84, 131), Polyols: gL(0, 3), Acids: gL(6, 7)})),
		"yield":                  abv.Yield{CarbonDioxide: v.of(0.9565, 0.95), Yeast: v.of(0.0444, 0.09)}.Figures(),
		"gallons, from litres":   converted(t, v.of(1.25, 18), "L", litres(1.25, 18).In(units.USGallon), "US gallon"),
		"Celsius, of Fahrenheit": converted(t, v.of(68, 59), "F", units.Fahrenheit(v.of(68, 59)).Celsius(), "C"),
	}
}

// converted is a figure that was stated in one unit, and the same in another.
func converted(t *testing.T, x float64, from string, want float64, to string) []units.Figure {
	t.Helper()
	text, err := units.ConversionFormula("stated", from, to)
	if err != nil {
		t.Fatal(err)
	}
	stated := units.Figure{Key: "stated", Name: "stated in another unit", Value: units.Round(x, 3), Method: "as stated", Source: "input", Note: from}
	return []units.Figure{stated, {Key: "converted", Name: "the same in this unit", Value: units.Round(want, 6), Method: "factors of the unit table", Source: "NIST Handbook 44, Appendix C", Note: to, Formula: text}}
}
