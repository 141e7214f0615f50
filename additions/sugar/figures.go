package sugar

import (
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/figure"
	"example.org/mutage/units"
)

var (
	byAddition  = figure.Method{Method: "balance of masses, true volumes at 20 C", Source: density.SourceMixture}
	bySweetener = figure.Method{Method: "composition as stated or by molar masses"}
)

// Quantities that only this package has.
var (
	ofSugar    = figure.Quantity{Key: "sugar_dose", Name: "sweetener to weigh in", Unit: "g", Places: 1}
	ofIncrease = figure.Quantity{Key: "increase", Name: "volume that the addition made", Unit: "mL", Places: 0}
	ofExtract  = figure.Quantity{Key: "sweetener_extract", Name: "extract in a gram of the sweetener", Unit: "g/g", Places: 3}
	ofHexose   = figure.Quantity{Key: "sweetener_hexose", Name: "glucose and fructose from a gram of the sweetener", Unit: "g/g", Places: 3}
)

// Figures are what to weigh in and what there is then.
func (a Addition) Figures() []units.Figure {
	return []units.Figure{
		byAddition.Give(ofSugar, float64(a.Sugar)),
		byAddition.Give(figure.Volume, float64(a.Volume)),
		byAddition.Give(ofIncrease, a.Increase.In(units.Millilitre)),
		byAddition.Give(figure.Strength, float64(a.After.Strength)),
		byAddition.Give(figure.Extract, float64(a.After.Extract)),
		byAddition.Give(figure.Gravity, float64(a.After.Gravity)),
	}
}

// Figures are the extract and the sugar of a gram.
func (s Sweetener) Figures() []units.Figure {
	by := bySweetener
	if by.Source = s.Source; s.Source == "" {
		by.Source = figure.Stated.Source
	}
	return []units.Figure{figure.Noted(by.Give(ofExtract, s.Extract), s.Name), figure.Noted(by.Give(ofHexose, s.Hexose), s.Name)}
}
