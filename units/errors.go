package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// RangeError reports a quantity outside the domain of a formula. It names the
// quantity, the value that came in, the domain in the same unit, and the
// source that states the domain. A bound that does not exist is infinite.
type RangeError struct {
	Quantity        string
	Value, Min, Max float64
	Unit, Source    string
}

// Error names the quantity, the value and what would have been accepted.
func (e *RangeError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s: accepted is ", e.Quantity, withUnit(e.Value, e.Unit))
	switch lo, hi := math.IsInf(e.Min, -1), math.IsInf(e.Max, 1); {
	case lo && hi:
		b.WriteString("any finite number")
	case lo:
		fmt.Fprintf(&b, "at most %s", withUnit(e.Max, e.Unit))
	case hi:
		fmt.Fprintf(&b, "at least %s", withUnit(e.Min, e.Unit))
	default:
		fmt.Fprintf(&b, "%s to %s", withUnit(e.Min, ""), withUnit(e.Max, e.Unit))
	}
	if e.Source != "" {
		fmt.Fprintf(&b, " (%s)", e.Source)
	}
	return b.String()
}

func withUnit(x float64, unit string) string {
	s := strconv.FormatFloat(x, 'g', 6, 64)
	if unit == "" || unit == "1" {
		return s
	}
	return s + " " + unit
}

// Check returns nil when lo <= x <= hi and a *RangeError otherwise; NaN is
// always outside. An infinite bound leaves its side open, but an infinite x is
// never accepted. It is the one range check of the library.
func Check(quantity string, x, lo, hi float64, unit, source string) error {
	if x >= lo && x <= hi && !math.IsInf(x, 0) {
		return nil
	}
	return &RangeError{Quantity: quantity, Value: x, Min: lo, Max: hi, Unit: unit, Source: source}
}

// ParseError reports text that could not be read as a quantity. Offset is the
// byte in Text where reading failed; Expected lists what would have been
// accepted there.
type ParseError struct {
	Text, Quantity string
	Offset         int
	Expected       []string
}

// Error shows the text, the place and what was expected.
func (e *ParseError) Error() string {
	text := e.Text
	if len(text) > 60 {
		text = text[:60] + "..."
	}
	at := ""
	if e.Offset > 0 && e.Offset < len(text) {
		at = fmt.Sprintf(" at %q", text[e.Offset:])
	}
	return fmt.Sprintf("%s %q%s: expected %s", e.Quantity, text, at, strings.Join(e.Expected, ", "))
}
