package units

import (
	"encoding/json"

	"github.com/shopspring/decimal"
)

// A Figure is one result as it is shown: in a cell, on a page, in JSON. Every
// result of the library gives its own through Figures.
type Figure struct {
	// Key names the figure and does not change between versions: "strength".
	Key string
	// Name is the label in English.
	Name string
	// Value carries the decimal places that are meant.
	Value decimal.Decimal
	// Unit of Value; empty for a number without one.
	Unit string
	// Uncertainty is the standard uncertainty in the same unit (JCGM 100); not
	// valid where none is stated.
	Uncertainty decimal.NullDecimal
	// Coverage is the factor by which Uncertainty is multiplied for the limits
	// within which the value lies 19 times in 20, see Limit; 0 is 1.96. It is less
	// where one tolerance leads, anywhere in which is as likely.
	Coverage float64
	// Method says how the value was found, Source who published the formula.
	Method, Source string
	// Note says what the value rests on beside its method; often empty.
	Note string
	// Formula is the value as an expression of other figures for a spreadsheet,
	// in the grammar of OpenFormula (OASIS ODF 1.3 part 4), with each other
	// figure's key in braces: "{strength}*4.5+{sugar}/10". Empty where the value
	// has no short exact expression.
	Formula string
}

// Fixed is the value with all its decimal places, "20.0" for 20 to one place.
func (f Figure) Fixed() string { return fixed(f.Value) }

func fixed(d decimal.Decimal) string { return d.StringFixed(max(0, -d.Exponent())) }

// FixedUncertainty is the uncertainty with all its decimal places, empty where
// none is stated.
func (f Figure) FixedUncertainty() string {
	if !f.Uncertainty.Valid {
		return ""
	}
	return fixed(f.Uncertainty.Decimal)
}

// Limit is what ± means on every page: the value lies within it on either side 19
// times in 20. Zero where no uncertainty is stated.
func (f Figure) Limit() float64 {
	k := f.Coverage
	if k == 0 {
		k = 1.96
	}
	return k * f.Uncertainty.Decimal.InexactFloat64()
}

// FigureHeader names the columns of Cells, in their order.
func FigureHeader() []string {
	return []string{"key", "name", "value", "unit", "uncertainty", "method", "source", "note"}
}

// Cells are the figure as the cells of a row, in the order of FigureHeader. The
// uncertainty is the standard one, empty where none is stated.
func (f Figure) Cells() []string {
	return []string{f.Key, f.Name, f.Fixed(), f.Unit, f.FixedUncertainty(), f.Method, f.Source, f.Note}
}

// NumberFormat is the format of a spreadsheet cell that shows the value with
// its decimal places: "0.000" (Office Open XML, ECMA-376 Part 1, 18.8.31).
func (f Figure) NumberFormat() string {
	format := "0"
	for i := int32(0); i < -f.Value.Exponent(); i++ {
		if i == 0 {
			format += "."
		}
		format += "0"
	}
	return format
}

// figureJSON is a Figure in JSON.
type figureJSON struct {
	Key         string      `json:"key"`
	Name        string      `json:"name"`
	Value       json.Number `json:"value"`
	Unit        string      `json:"unit"`
	Uncertainty json.Number `json:"uncertainty,omitempty"`
	Coverage    float64     `json:"coverage_factor,omitempty"`
	Method      string      `json:"method"`
	Source      string      `json:"source"`
	Note        string      `json:"note,omitempty"`
	Formula     string      `json:"formula,omitempty"`
}

// MarshalJSON writes value and uncertainty as JSON numbers with their places.
// An uncertainty that is not stated, a factor of 1.96, an empty note and an empty
// formula are left out.
func (f Figure) MarshalJSON() ([]byte, error) {
	return json.Marshal(figureJSON{f.Key, f.Name, json.Number(f.Fixed()), f.Unit, json.Number(f.FixedUncertainty()), f.Coverage, f.Method, f.Source, f.Note, f.Formula})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (f *Figure) UnmarshalJSON(text []byte) error {
	var in figureJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	out := Figure{Key: in.Key, Name: in.Name, Unit: in.Unit, Coverage: in.Coverage, Method: in.Method, Source: in.Source, Note: in.Note, Formula: in.Formula}
	var err error
	if out.Value, err = decimal.NewFromString(in.Value.String()); err != nil {
		return err
	}
	if in.Uncertainty != "" {
		if out.Uncertainty.Decimal, err = decimal.NewFromString(in.Uncertainty.String()); err != nil {
			return err
		}
		out.Uncertainty.Valid = true
	}
	*f = out
	return nil
}
