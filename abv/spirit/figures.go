package spirit

import (
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/units"
)

// Quantities that only this package has.
var (
	ofAlcoholParts = figure.Quantity{Key: "alcohol_parts", Name: "alcohol in 100 parts by volume before mixing, 60 F", Places: 2}
	ofWaterParts   = figure.Quantity{Key: "water_parts", Name: "water in 100 parts by volume before mixing, 60 F", Places: 2}
	ofAir          = figure.Quantity{Key: "gravity_in_air", Name: "specific gravity in air, 60 F / 60 F", Places: 5}
	ofWineGallons  = figure.Quantity{Key: "wine_gallons_per_pound", Name: "wine gallons in a pound", Unit: "gal", Places: 5}
	ofProofGallons = figure.Quantity{Key: "proof_gallons_per_pound", Name: "proof gallons in a pound", Unit: "gal", Places: 5}

	ofWater     = figure.Quantity{Key: "water", Name: "water to add", Unit: "L", Places: 3}
	ofWaterMass = figure.Quantity{Key: "water_mass", Name: "water to weigh in", Unit: "g", Places: 1}
	ofUSProof   = figure.Quantity{Key: "us_proof", Name: "US proof", Unit: "proof", Places: 2}
)

// Figures are those of the Gauging Manual's tables.
func (g Gauged) Figures() []units.Figure {
	return []units.Figure{
		byGauging.Give(ofAlcoholParts, g.Alcohol),
		byGauging.Give(ofWaterParts, g.Water),
		byGauging.Give(ofAir, g.SpecificGravity),
		byGauging.Give(ofWineGallons, g.WineGallonsPerPound),
		byGauging.Give(ofProofGallons, g.ProofGallonsPerPound),
	}
}

// Figures are the water to add and what there is then.
func (r Reduction) Figures() []units.Figure {
	return []units.Figure{
		byReduction.Give(ofWater, float64(r.Water)),
		byReduction.Give(ofWaterMass, float64(r.WaterMass)),
		byReduction.Give(figure.Volume, float64(r.Result)),
		byReduction.Give(figure.Contraction, r.Contraction.In(units.Millilitre)),
	}
}

// ProofFigures are a spirit's strength at 20 C, its strength by mass and density,
// and its US proof, with live formulas. Domain and error as USProof.
func ProofFigures(s units.Strength) ([]units.Figure, error) {
	figures, err := Figures(s)
	if err != nil {
		return nil, err
	}
	return append(figures, byUSProof.Live(ofUSProof, usProof(s), proofFormula)), nil
}

// proofFormula is usProof for a cell.
var proofFormula = "2*{strength_by_mass}*(" + formula.Polynomial(density.EthanolPolynomial(density.SixtyF), "({strength_by_mass}/100)") + ")/" +
	formula.Number(density.Ethanol(1, density.SixtyF))
