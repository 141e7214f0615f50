package units

import (
	"encoding/json"

	"github.com/shopspring/decimal"
)

// A Figure is one result as it is shown: in a cell, on a page, in JSON. Value
// carries the decimal places that are meant; Uncertainty is the standard
// uncertainty in the same unit, zero where none is stated. Method says how it
// was found, Source where the formula stands.
type Figure struct {
	Name           string
	Value          decimal.Decimal
	Unit           string
	Uncertainty    decimal.Decimal
	Method, Source string
}

// Fixed is the value with all its decimal places, "20.0" for 20 to one place.
func (f Figure) Fixed() string { return fixed(f.Value) }

func fixed(d decimal.Decimal) string { return d.StringFixed(max(0, -d.Exponent())) }

// FixedUncertainty is the uncertainty with all its decimal places, empty where
// none is stated.
func (f Figure) FixedUncertainty() string {
	if f.Uncertainty.IsZero() {
		return ""
	}
	return fixed(f.Uncertainty)
}

// Cells are the figure as the cells of a row: name, value, unit, uncertainty,
// method, source. The uncertainty is empty where none is stated.
func (f Figure) Cells() []string {
	return []string{f.Name, f.Fixed(), f.Unit, f.FixedUncertainty(), f.Method, f.Source}
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

// MarshalJSON writes value and uncertainty as JSON numbers with their places.
// Fields that are empty are left out.
func (f Figure) MarshalJSON() ([]byte, error) {
	out := struct {
		Name        string      `json:"name"`
		Value       json.Number `json:"value"`
		Unit        string      `json:"unit"`
		Uncertainty json.Number `json:"uncertainty,omitempty"`
		Method      string      `json:"method,omitempty"`
		Source      string      `json:"source,omitempty"`
	}{f.Name, json.Number(f.Fixed()), f.Unit, json.Number(f.FixedUncertainty()), f.Method, f.Source}
	return json.Marshal(out)
}

// Scale multiplies amounts, for a batch of another size. by is 0.001 to 1000;
// *RangeError outside, and then nothing is changed.
func Scale(by float64, amounts ...*float64) error {
	if err := Check("scale", by, 0.001, 1000, "", "a bound against mistyping"); err != nil {
		return err
	}
	for _, a := range amounts {
		*a *= by
	}
	return nil
}
