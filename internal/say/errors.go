package say

import (
	"errors"
	"math"
	"strings"

	"example.org/mutage/units"
)

// Error is err with the bounds of every *units.RangeError in it in the units of
// the cellar. It unwraps to err.
func (s System) Error(err error) error {
	if err == nil || s.known() == Metric {
		return err
	}
	text := err.Error()
	for _, r := range ranges(err) {
		here := s.inUnits(*r)
		text = strings.ReplaceAll(text, r.Error(), here.Error())
	}
	return &local{text, err}
}

type local struct {
	text string
	err  error
}

func (e *local) Error() string { return e.text }
func (e *local) Unwrap() error { return e.err }

// ranges are the range errors that err holds.
func ranges(err error) (found []*units.RangeError) {
	if r, ok := err.(*units.RangeError); ok {
		return []*units.RangeError{r}
	}
	switch e := err.(type) {
	case interface{ Unwrap() []error }:
		for _, one := range e.Unwrap() {
			found = append(found, ranges(one)...)
		}
	default:
		if inner := errors.Unwrap(err); inner != nil {
			found = ranges(inner)
		}
	}
	return found
}

// inUnits is the error with value and bounds to four digits in the unit that suits
// the value.
func (s System) inUnits(r units.RangeError) units.RangeError {
	change := func(to func(float64) float64, unit string) units.RangeError {
		r.Value, r.Min, r.Max, r.Unit = digits4(to(r.Value)), digits4(to(r.Min)), digits4(to(r.Max)), unit
		return r
	}
	by := func(at scale) units.RangeError {
		return change(func(x float64) float64 { return x / at.unit }, at.name)
	}
	switch r.Unit {
	case "L":
		return by(pick(r.Value, volumes[s]))
	case "g":
		return by(pick(r.Value, masses[s]))
	case "C":
		return change(func(x float64) float64 { return units.Celsius(x).Fahrenheit() }, "F")
	}
	return r
}

// digits4 rounds to four digits; what is not finite stays.
func digits4(x float64) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	return units.Round(x, 3-int32(math.Floor(math.Log10(math.Abs(x))))).InexactFloat64()
}
