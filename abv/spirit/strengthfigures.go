package spirit

import (
	"sync"

	"example.org/mutage/abv"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

var (
	byEthanol  = figure.Method{Method: "density of ethanol and water at 20 C, a polynomial of the share by mass", Source: density.SourceEthanol}
	ofPerLitre = figure.Quantity{Key: "alcohol_per_litre", Name: "ethanol in a litre at 20 C", Unit: "g/L", Places: 1}

	byPure = figure.Method{Method: "strength times the density of pure ethanol, 789.24 kg/m3", Source: density.SourceEthanol}
)

// massShareFit is abv.ByMass within 1e-5 % mass.
var massShareFit = sync.OnceValue(func() string {
	return formula.NewFit(func(s float64) float64 { return 100 * density.ByMass(s) }, 0, 100, 26).Text("{strength}")
})

var (
	massShare      = "({strength_by_mass}/100)"
	densityByShare = formula.Polynomial(density.EthanolPolynomial(20), massShare)
	pureEthanol    = formula.Number(density.PureEthanol)
)

// Figures are a spirit without sugar at 20 C, from its strength by volume: its
// strength by mass, density and alcohol per litre, with live formulas. Domain and
// error as abv.ByMass.
func Figures(s units.Strength) ([]units.Figure, error) {
	m, err := abv.ByMass(s)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(figure.Strength, float64(s)),
		byEthanol.Live(figure.StrengthByMass, float64(m), massShareFit()),
		byEthanol.Live(figure.Density, density.Ethanol20(float64(m)/100), densityByShare),
		byPure.Live(ofPerLitre, float64(s)/100*density.PureEthanol, "{strength}/100*"+pureEthanol),
	}, nil
}

// FiguresByMass are the same from its strength by mass. Domain and error as
// abv.ByVolume.
func FiguresByMass(m units.MassPercent) ([]units.Figure, error) {
	s, err := abv.ByVolume(m)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(figure.StrengthByMass, float64(m)),
		byEthanol.Live(figure.Density, density.Ethanol20(float64(m)/100), densityByShare),
		byEthanol.Live(figure.Strength, float64(s), "{strength_by_mass}*{density}/"+pureEthanol),
		byPure.Live(ofPerLitre, float64(s)/100*density.PureEthanol, "{strength}/100*"+pureEthanol),
	}, nil
}
