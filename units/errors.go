package units

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/mutage/internal/snake"
)

// A RangeError reports a quantity outside the domain of a formula, for people
// (Error) and for programs (the fields): a program can say it in another
// language and in other units.
type RangeError struct {
	// Key names the quantity and does not change between versions:
	// "original_gravity". It is Quantity in snake case.
	Key string
	// Of is the thing that the quantity belongs to, empty where there is only
	// one: the name of a component, a field, "liquid of 95 % vol".
	Of string
	// Quantity is the name in English. It holds no values.
	Quantity string
	// Value is what came in; Min and Max are the ends of the domain in the same
	// Unit. An end that does not exist is infinite.
	Value, Min, Max float64
	Unit, Source    string
	// Cause says what is wrong where a range alone would not tell; often empty.
	Cause string
}

// OutOfRange is the error for a quantity of a thing; Key follows from quantity.
func OutOfRange(of, quantity string, x, lo, hi float64, unit, source string) *RangeError {
	return &RangeError{Key: snake.Case(quantity), Of: of, Quantity: quantity, Value: x, Min: lo, Max: hi, Unit: unit, Source: source}
}

// Check returns nil when lo <= x <= hi and a *RangeError otherwise; NaN is
// always outside. An infinite bound leaves its side open, but an infinite x is
// never accepted. It is the one range check of the library.
func Check(quantity string, x, lo, hi float64, unit, source string) error {
	return CheckOf("", quantity, x, lo, hi, unit, source)
}

// CheckOf is Check for a quantity of a thing, which the error names in Of.
func CheckOf(of, quantity string, x, lo, hi float64, unit, source string) error {
	if x >= lo && x <= hi && !math.IsInf(x, 0) {
		return nil
	}
	e := OutOfRange(of, quantity, x, lo, hi, unit, source)
	if kelvin := x + zeroCelsius; unit == "C" && kelvin < notCellar {
		e.Cause = fmt.Sprintf("%s is %.6g K: a bare number in place of units.Celsius or units.Fahrenheit?", quantity, kelvin)
		if math.Abs(kelvin) < 1e-9 {
			e.Cause = quantity + " is not stated"
		}
	}
	return e
}

// notCellar in kelvin is below what anyone means: a temperature of 68 K is a 68 that
// was never made a temperature.
const notCellar = 150

// Error says what is wrong, then what is possible, then who says so: "strength
// 120 % vol is out of range: 0 to 100 % vol (OIML R 22 (1975))".
func (e *RangeError) Error() string {
	var b strings.Builder
	if e.Of != "" {
		fmt.Fprintf(&b, "%s: ", e.Of)
	}
	switch {
	case strings.HasSuffix(e.Cause, "?"):
		fmt.Fprintf(&b, "%s Possible: ", e.Cause)
	case e.Cause != "":
		fmt.Fprintf(&b, "%s; possible: ", e.Cause)
	default:
		fmt.Fprintf(&b, "%s %s is out of range: ", e.Quantity, withUnit(e.Value, e.Unit))
	}
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

// rangeJSON is a RangeError in JSON: what is not finite is left out.
type rangeJSON struct {
	Key      string   `json:"key"`
	Of       string   `json:"of,omitempty"`
	Quantity string   `json:"quantity"`
	Value    *float64 `json:"value,omitempty"`
	Min      *float64 `json:"min,omitempty"`
	Max      *float64 `json:"max,omitempty"`
	Unit     string   `json:"unit,omitempty"`
	Source   string   `json:"source,omitempty"`
	Cause    string   `json:"cause,omitempty"`
	Message  string   `json:"message"`
}

// MarshalJSON writes the fields in snake case and the sentence as "message". A
// value or an end that is not finite is left out.
func (e *RangeError) MarshalJSON() ([]byte, error) {
	finite := func(x float64) *float64 {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil
		}
		return &x
	}
	return json.Marshal(rangeJSON{e.Key, e.Of, e.Quantity, finite(e.Value), finite(e.Min), finite(e.Max), e.Unit, e.Source, e.Cause, e.Error()})
}

// UnmarshalJSON reads what MarshalJSON wrote. A missing value is NaN, a missing
// end is infinite.
func (e *RangeError) UnmarshalJSON(text []byte) error {
	var in rangeJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	or := func(x *float64, missing float64) float64 {
		if x == nil {
			return missing
		}
		return *x
	}
	*e = RangeError{in.Key, in.Of, in.Quantity, or(in.Value, math.NaN()), or(in.Min, math.Inf(-1)), or(in.Max, inf), in.Unit, in.Source, in.Cause}
	return nil
}

func withUnit(x float64, unit string) string {
	s := strconv.FormatFloat(x, 'g', 6, 64)
	if unit == "" || unit == "1" {
		return s
	}
	return s + " " + unit
}

// A ParseError reports text that could not be read as a quantity. Offset is the
// byte in Text where reading failed, its length where something is missing at
// the end; Expected lists what would have been read there.
type ParseError struct {
	Text, Quantity string
	Offset         int
	Expected       []string
}

// Error shows the text, the place and what was expected.
func (e *ParseError) Error() string {
	text := e.Text
	if len(text) > 60 {
		text = strings.ToValidUTF8(text[:60], "") + "..."
	}
	at := ""
	if e.Offset > 0 && e.Offset < len(text) {
		at = fmt.Sprintf(" at %q", text[e.Offset:])
	}
	return fmt.Sprintf("%s %q%s: expected %s", e.Quantity, text, at, strings.Join(e.Expected, ", "))
}

// parseJSON is a ParseError in JSON.
type parseJSON struct {
	Text     string   `json:"text"`
	Quantity string   `json:"quantity"`
	Offset   int      `json:"offset"`
	Expected []string `json:"expected"`
	Message  string   `json:"message"`
}

// MarshalJSON writes the fields in snake case and the sentence as "message".
func (e *ParseError) MarshalJSON() ([]byte, error) {
	return json.Marshal(parseJSON{e.Text, e.Quantity, e.Offset, e.Expected, e.Error()})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *ParseError) UnmarshalJSON(text []byte) error {
	var in parseJSON
	if err := json.Unmarshal(text, &in); err != nil {
		return err
	}
	*e = ParseError{in.Text, in.Quantity, in.Offset, in.Expected}
	return nil
}
