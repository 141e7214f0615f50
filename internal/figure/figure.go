// Package figure makes units.Figure values with their provenance: the method and
// source of a result are written once, beside the formula they describe.
package figure

import (
	"math"

	"example.org/mutage/units"
	"example.org/mutage/units/uncertainty"
	"github.com/shopspring/decimal"
)

// A Method says how figures were found and who published the formula.
type Method struct{ Method, Source string }

// CommonPractice is the source of a fact of the trade that has none.
const CommonPractice = "common practice, no source"

// Of is a figure found by the method, to so many decimal places.
func (m Method) Of(key, name string, x float64, places int32, unit string) units.Figure {
	return units.Figure{Key: key, Name: name, Value: units.Round(x, places), Unit: unit, Method: m.Method, Source: m.Source}
}

// Within is a figure with its standard uncertainty u, which is stated to two
// places more than the value.
func (m Method) Within(key, name string, x, u float64, places int32, unit string) units.Figure {
	f := m.Of(key, name, x, places, unit)
	if u > 0 && !math.IsInf(u, 0) {
		f.Uncertainty = decimal.NullDecimal{Decimal: units.Round(u, places+2), Valid: true}
	}
	return f
}

// Result is Within for a propagated result.
func (m Method) Result(key, name string, r uncertainty.Result, places int32, unit string) units.Figure {
	return m.Within(key, name, r.Value, r.Standard, places, unit)
}
