package units

import "github.com/shopspring/decimal"

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
