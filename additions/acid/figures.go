package acid

import (
	"example.org/mutage/internal/figure"
	"example.org/mutage/internal/formula"
	"example.org/mutage/internal/molar"
	"example.org/mutage/units"
)

// Methods, each beside the formula it describes.
var (
	byCharge    = figure.Method{Method: "charge balance of the acids and the alkali at 25 C, activities by Davies", Source: "pK values: " + fadb + "; shift with alcohol: Prenesti et al., Sci. World J. (2012) 249041"}
	byContent   = figure.Method{Method: "acids and alkali of the charge balance", Source: byCharge.Source}
	byTartar    = figure.Method{Method: "molar masses of potassium bitartrate and its parts", Source: awri + "; potassium from memory"}
	byAcid      = figure.Method{Method: "rise of TA times volume times the acid's equivalent over tartaric acid's, 75.045"}
	byCarbonate = figure.Method{Method: "fall of TA times volume over the TA that a gram neutralises", Source: "molar masses from memory; " + handbook144}
)

const (
	acidFormula      = "{ta_change}*{treated_volume}*{equivalent}/"
	carbonateFormula = "{ta_change}*{treated_volume}/{ta_neutralised}"
)

// Quantities that only this package has.
var (
	ofTartaric   = figure.Quantity{Key: "tartaric_acid", Name: "tartaric acid", Unit: "g/L", Places: 2}
	ofMalic      = figure.Quantity{Key: "malic_acid", Name: "malic acid", Unit: "g/L", Places: 2}
	ofCitric     = figure.Quantity{Key: "citric_acid", Name: "citric acid", Unit: "g/L", Places: 2}
	ofLactic     = figure.Quantity{Key: "lactic_acid", Name: "lactic acid", Unit: "g/L", Places: 2}
	ofSuccinic   = figure.Quantity{Key: "succinic_acid", Name: "succinic acid", Unit: "g/L", Places: 2}
	ofAcetic     = figure.Quantity{Key: "acetic_acid", Name: "acetic acid", Unit: "g/L", Places: 2}
	ofAlkali     = figure.Quantity{Key: "alkali_as_potassium", Name: "all alkali, reckoned as potassium", Unit: "g/L", Places: 2}
	ofBitartrate = figure.Quantity{Key: "bitartrate_fallen", Name: "potassium bitartrate that falls", Unit: "g/L", Places: 2}
	ofTALost     = figure.Quantity{Key: "ta_lost", Name: "titratable acidity that goes with it", Unit: "g/L", Places: 2}
	ofAcidLost   = figure.Quantity{Key: "tartaric_acid_lost", Name: "tartaric acid that goes with it", Unit: "g/L", Places: 2}
	ofPotassium  = figure.Quantity{Key: "potassium_lost", Name: "potassium that goes with it", Unit: "g/L", Places: 2}

	ofChange      = figure.Quantity{Key: "ta_change", Name: "titratable acidity to raise or lower by", Unit: "g/L"}
	ofEquivalent  = figure.Quantity{Key: "equivalent", Name: "acid that neutralises a mole of alkali", Unit: "g/mol"}
	ofNeutralised = figure.Quantity{Key: "ta_neutralised", Name: "titratable acidity that a gram neutralises", Unit: "g", Places: 3}
	ofAcidDose    = figure.Quantity{Key: "acid_dose", Name: "acid to weigh in", Unit: "g", Places: 2}
	ofCarbonate   = figure.Quantity{Key: "carbonate_dose", Name: "carbonate to weigh in", Unit: "g", Places: 2}
)

// Figures are the acids, the alkali and the pH, which is left out where the
// charge balance has no answer.
func (b Buffer) Figures() []units.Figure {
	var out []units.Figure
	if pH, err := b.PH(); err == nil {
		out = append(out, byCharge.Give(figure.PH, pH))
	}
	for i, of := range []figure.Quantity{ofTartaric, ofMalic, ofCitric, ofLactic, ofSuccinic, ofAcetic} {
		out = append(out, byContent.Give(of, float64(b.Acids().array()[i])))
	}
	return append(out, byContent.Give(ofAlkali, float64(b.Potassium())))
}

// Figures are the pH with its uncertainty, and what the liquid then holds.
func (p Prediction) Figures() []units.Figure {
	out := []units.Figure{byCharge.GiveWithin(figure.PH, p.PH, p.Standard)}
	for _, f := range p.Buffer.Figures() {
		if f.Key != figure.PH.Key {
			out = append(out, f)
		}
	}
	return out
}

// Figures are what falls and what goes with it.
func (t Tartar) Figures() []units.Figure {
	return []units.Figure{byTartar.Give(ofBitartrate, float64(t.Bitartrate)), byTartar.Give(ofTALost, float64(t.TA)),
		byTartar.Give(ofAcidLost, float64(t.TartaricAcid)), byTartar.Give(ofPotassium, float64(t.Potassium))}
}

// RaiseTAFigures are RaiseTA with a live formula. Domain and error as RaiseTA.
func RaiseTAFigures(by units.Concentration, v units.Volume, a Acid) ([]units.Figure, error) {
	m, err := RaiseTA(by, v, a)
	if err != nil {
		return nil, err
	}
	method := byAcid
	if method.Source = a.Source; a.Source == "" {
		method.Source = figure.Stated.Source
	}
	equivalent := figure.Noted(figure.Input(ofEquivalent, a.Equivalent()), a.Name)
	equivalent.Method, equivalent.Source = "molar mass over protons titrated to pH 8.2", method.Source
	return []units.Figure{
		figure.Input(ofChange, float64(by)), figure.Input(figure.Treated, float64(v)), equivalent,
		figure.Noted(method.Live(ofAcidDose, float64(m), acidFormula+formula.Number(molar.TartaricEquivalent)), a.Name),
	}, nil
}

// LowerTAFigures are LowerTA with a live formula. Domain and error as LowerTA.
func LowerTAFigures(by units.Concentration, v units.Volume, c Carbonate) ([]units.Figure, error) {
	m, err := LowerTA(by, v, c)
	if err != nil {
		return nil, err
	}
	return append([]units.Figure{figure.Input(ofChange, float64(by)), figure.Input(figure.Treated, float64(v))},
		append(c.Figures(), figure.Noted(byCarbonate.Live(ofCarbonate, float64(m), carbonateFormula), c.Name))...), nil
}

// Figures are the TA that a gram neutralises.
func (c Carbonate) Figures() []units.Figure {
	neutralised := figure.Noted(figure.Input(ofNeutralised, c.Neutralises()), c.Name)
	neutralised.Method, neutralised.Source = "tartaric acid's equivalent times charges over molar mass", byCarbonate.Source
	return []units.Figure{neutralised}
}
