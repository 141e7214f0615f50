package units

import (
	"encoding"
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// ParseIn reads the text of a form field whose unit stands beside it: a bare
// number, with a decimal comma or a fraction if need be, is so many of unit, and
// text with a unit of its own is read as it says.
//
//	strength, err := units.ParseIn("40", units.PercentVol)
//	jar, err := units.ParseIn("1 1/2", units.USGallon)
//	must, err := units.ParseIn("22,4", gravity.Brix(1))
//
// It serves every quantity here and every scale of package gravity; for
// temperatures there is ParseTemperatureIn. unit is above zero. Errors:
// *ParseError for text, *RangeError for a value that cannot be.
func ParseIn[T interface {
	~float64
	encoding.TextMarshaler
}, P interface {
	*T
	Set(text string) error
}](text string, unit T) (T, error) {
	var x T
	number, written, err := Scan("number", text)
	if err != nil || written != "" {
		err := P(&x).Set(text) // which names its quantity
		return x, err
	}
	if err := Check("unit", float64(unit), 5e-324, inf, "", ""); err != nil {
		var outside *RangeError
		if errors.As(err, &outside) {
			outside.Min, outside.Cause = 0, fmt.Sprintf("the unit of %q is %v: it must be above 0", text, float64(unit))
		}
		return 0, err
	}
	err = bare[T, P](&x, T(number.Mul(decimal.NewFromFloat(float64(unit))).InexactFloat64()), text)
	return x, err
}

// ParseTemperatureIn is ParseIn for a temperature; scale is Celsius or Fahrenheit.
// Errors as ParseTemperature:
//
//	cellar, err := units.ParseTemperatureIn("68", units.Fahrenheit)
func ParseTemperatureIn(text string, scale func(degrees float64) Temperature) (Temperature, error) {
	number, written, err := Scan(temperature.quantity, text)
	if err != nil || written != "" {
		return ParseTemperature(text)
	}
	var t Temperature
	err = bare(&t, scale(number.InexactFloat64()), text)
	return t, err
}

// bare puts x, made of a bare number, through the checks of what people write.
func bare[T encoding.TextMarshaler, P interface {
	*T
	Set(text string) error
}](to P, x T, text string) error {
	written, err := x.MarshalText()
	if err != nil {
		return err
	}
	err = to.Set(string(written))
	var unread *ParseError
	var outside *RangeError
	switch {
	case errors.As(err, &unread):
		unread.Text, unread.Offset = text, 0
	case errors.As(err, &outside):
		outside.Source = "as read from " + text
	}
	return err
}
