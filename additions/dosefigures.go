package additions

import (
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// Methods, each beside the formula it describes.
var (
	bySulfite   = figure.Method{Method: "SO2 wanted times volume over the SO2 in the salt and its purity"}
	bySolution  = figure.Method{Method: "volume times SO2 wanted over SO2 in the solution", Source: "conservation of mass"}
	byMolecular = figure.Method{Method: "free / (1 + 10^(pH - pK))", Source: "OIV-MA-AS323-04C"}
	bySorbate   = figure.Method{Method: "sorbic acid wanted times volume over 0.7464, its share in potassium sorbate", Source: "OIV Codex COEI-1-POTSOR"}
	byNutrient  = figure.Method{Method: "nitrogen wanted times volume over the nitrogen in the nutrient"}
)

const (
	sulfiteFormula   = "{so2_to_add}/1000*{treated_volume}/({so2_in_salt}*{purity})"
	solutionFormula  = "{treated_volume}*{so2_to_add}/{so2_in_solution}"
	molecularFormula = "{free_so2}/(1+10^({ph}-{pk_so2}))"
	freeFormula      = "{molecular_so2}*(1+10^({ph}-{pk_so2}))"
	nutrientFormula  = "{nitrogen_to_add}/1000*{treated_volume}/{nitrogen_in_nutrient}"
)

var sorbateFormula = "{sorbic_acid_to_add}/1000*{treated_volume}/" + formula.Number(molar.SorbicOfSorbate)

// Inputs and doses of the live formulas.
var (
	ofSO2ToAdd   = figure.Quantity{Key: "so2_to_add", Name: "SO2 to add", Unit: "mg/L"}
	ofSO2InSalt  = figure.Quantity{Key: "so2_in_salt", Name: "SO2 in a gram of the salt", Unit: "g/g"}
	ofPurity     = figure.Quantity{Key: "purity", Name: "purity of the salt"}
	ofInSolution = figure.Quantity{Key: "so2_in_solution", Name: "SO2 in the solution", Unit: "g/L"}
	ofPK         = figure.Quantity{Key: "pk_so2", Name: "pK of sulfurous acid"}
	ofSorbic     = figure.Quantity{Key: "sorbic_acid_to_add", Name: "sorbic acid to add", Unit: "mg/L"}
	ofNitrogen   = figure.Quantity{Key: "nitrogen_to_add", Name: "assimilable nitrogen to add", Unit: "mg/L"}
	ofInNutrient = figure.Quantity{Key: "nitrogen_in_nutrient", Name: "nitrogen in a gram of the nutrient", Unit: "g/g"}

	ofSulfiteDose  = figure.Quantity{Key: "sulfite_dose", Name: "sulfite salt to weigh in", Unit: "g", Places: 2}
	ofSolutionDose = figure.Quantity{Key: "sulfite_solution_dose", Name: "sulfite solution to pour", Unit: "mL", Places: 1}
	ofSorbateDose  = figure.Quantity{Key: "sorbate_dose", Name: "potassium sorbate to weigh in", Unit: "g", Places: 2}
	ofNutrientDose = figure.Quantity{Key: "nutrient_dose", Name: "nutrient to weigh in", Unit: "g", Places: 2}
)

// DoseFigures are Dose with what it was computed from and a live formula. Domain
// and error as Dose.
func (s Sulfite) DoseFigures(so2 units.Concentration, v units.Volume, purity float64) ([]units.Figure, error) {
	m, err := s.Dose(so2, v, purity)
	if err != nil {
		return nil, err
	}
	share := figure.Noted(figure.Input(ofSO2InSalt, s.SO2), s.Name)
	share.Method, share.Source = "share by formula, or as stated", from(bySulfite, s.Source).Source
	return []units.Figure{
		figure.Input(ofSO2ToAdd, so2.In(units.MilligramPerLitre)), figure.Input(figure.Treated, float64(v)), share, figure.Input(ofPurity, purity),
		figure.Noted(from(bySulfite, s.Source).Live(ofSulfiteDose, float64(m), sulfiteFormula), s.Name),
	}, nil
}

// SulfiteSolutionFigures are SulfiteSolution with a live formula. Domain and
// error as SulfiteSolution.
func SulfiteSolutionFigures(so2 units.Concentration, v units.Volume, solution units.Concentration) ([]units.Figure, error) {
	pour, err := SulfiteSolution(so2, v, solution)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(ofSO2ToAdd, so2.In(units.MilligramPerLitre)), figure.Input(figure.Treated, float64(v)), figure.Input(ofInSolution, float64(solution)),
		bySolution.Live(ofSolutionDose, pour.In(units.Millilitre), solutionFormula),
	}, nil
}

// MolecularSO2Figures are MolecularSO2 with a live formula. Domain and error as
// MolecularSO2.
func MolecularSO2Figures(free units.Concentration, pH, pK float64) ([]units.Figure, error) {
	m, err := MolecularSO2(free, pH, pK)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(figure.FreeSO2, free.In(units.MilligramPerLitre)), figure.Input(figure.PH, pH), figure.Input(ofPK, pK),
		byMolecular.Live(figure.MolecularSO2, m.In(units.MilligramPerLitre), molecularFormula),
	}, nil
}

// FreeSO2ForFigures are FreeSO2For with a live formula. Domain and error as
// FreeSO2For.
func FreeSO2ForFigures(molecular units.Concentration, pH, pK float64) ([]units.Figure, error) {
	free, err := FreeSO2For(molecular, pH, pK)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(figure.MolecularSO2, molecular.In(units.MilligramPerLitre)), figure.Input(figure.PH, pH), figure.Input(ofPK, pK),
		byMolecular.Live(figure.FreeSO2, free.In(units.MilligramPerLitre), freeFormula),
	}, nil
}

// SorbateFigures are Sorbate with a live formula. Domain and error as Sorbate;
// SorbateCautions belong to it.
func SorbateFigures(sorbicAcid units.Concentration, v units.Volume) ([]units.Figure, error) {
	m, err := Sorbate(sorbicAcid, v)
	if err != nil {
		return nil, err
	}
	return []units.Figure{
		figure.Input(ofSorbic, sorbicAcid.In(units.MilligramPerLitre)), figure.Input(figure.Treated, float64(v)),
		bySorbate.Live(ofSorbateDose, float64(m), sorbateFormula),
	}, nil
}

// DoseFigures are NutrientDose with a live formula. Domain and error as
// NutrientDose.
func (n Nutrient) DoseFigures(nitrogen units.Concentration, v units.Volume) ([]units.Figure, error) {
	m, err := NutrientDose(nitrogen, v, n)
	if err != nil {
		return nil, err
	}
	share := figure.Noted(figure.Input(ofInNutrient, n.Nitrogen), n.Name)
	share.Method, share.Source = "share by formula, or as stated", from(byNutrient, n.Source).Source
	return []units.Figure{
		figure.Input(ofNitrogen, nitrogen.In(units.MilligramPerLitre)), figure.Input(figure.Treated, float64(v)), share,
		figure.Noted(from(byNutrient, n.Source).Live(ofNutrientDose, float64(m), nutrientFormula), n.Name),
	}, nil
}
