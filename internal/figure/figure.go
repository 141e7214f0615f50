// Package figure makes units.Figure values with their provenance: the method and
// source of a result are written once, beside the formula they describe.
package figure

import (
	"math"
	"strings"

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
	if d := units.Round(u, places+2); d.IsPositive() {
		f.Uncertainty = decimal.NullDecimal{Decimal: d, Valid: true}
	}
	return f
}

// Result is Within for a propagated result.
func (m Method) Result(key, name string, r uncertainty.Result, places int32, unit string) units.Figure {
	return m.Like(r, key, name, r.Value, places, unit)
}

// Like is Within for a value that is as sure as the propagated result.
func (m Method) Like(r uncertainty.Result, key, name string, x float64, places int32, unit string) units.Figure {
	f := m.Within(key, name, x, r.Standard, places, unit)
	if f.Uncertainty.Valid {
		f.Coverage = Coverage(r)
	}
	return f
}

// Coverage is the coverage factor of a figure: to three places, and 0 where it is
// 1.96 to two.
func Coverage(r uncertainty.Result) float64 {
	k := math.Round(1000*r.Coverage()) / 1000
	if k > 1.9545 && k < 1.9655 {
		return 0
	}
	return k
}

// A Quantity is what a figure is of, its unit and the places that are meant. A
// quantity that several results have stands in quantities.go, so that a key
// means one thing in the whole library.
type Quantity struct {
	Key, Name, Unit string
	Places          int32
}

// Give is a figure found by the method.
func (m Method) Give(q Quantity, x float64) units.Figure {
	return m.Of(q.Key, q.Name, x, q.Places, q.Unit)
}

// GiveWithin is Give with a standard uncertainty.
func (m Method) GiveWithin(q Quantity, x, u float64) units.Figure {
	return m.Within(q.Key, q.Name, x, u, q.Places, q.Unit)
}

// Live is Give with the formula by which a spreadsheet computes the value.
func (m Method) Live(q Quantity, x float64, formula string) units.Figure {
	f := m.Give(q, x)
	f.Formula = formula
	return f
}

// Stated is the method of an input.
var Stated = Method{"as stated", "input"}

// Input is a figure that others are computed from: the number as it was given,
// to nine places.
func Input(q Quantity, x float64) units.Figure {
	q.Places = 9
	f := Stated.Give(q, x)
	f.Value = decimal.RequireFromString(f.Value.String()) // drops zeros at the end
	return f
}

// Noted is the figure with a note.
func Noted(f units.Figure, note string) units.Figure {
	f.Note = note
	return f
}

// Part are the figures of one part of a result: the part's key goes before each
// key and its name before each name. Formulas follow their cells.
func Part(key, name string, figures []units.Figure) []units.Figure {
	out := make([]units.Figure, len(figures))
	for i, f := range figures {
		f.Key, f.Name = key+"_"+f.Key, name+": "+f.Name
		f.Formula = strings.ReplaceAll(f.Formula, "{", "{"+key+"_")
		out[i] = f
	}
	return out
}

// Or is the method, or the one that a value made without a function falls back
// on.
func (m *Method) Or(other Method) Method {
	if m == nil {
		return other
	}
	return *m
}
