package units

import (
	"math"

	"example.org/mutage/internal/exact"
)

// Temperature is a temperature, in kelvin inside. Its zero value is not stated,
// and neither it nor a bare 68 is a temperature of a cellar: what needs one
// refuses both. Make it with Celsius, Fahrenheit or ParseTemperature and read it
// the same way; differences are plain float64.
type Temperature float64

const zeroCelsius = 273.15 // K, SI Brochure, 9th ed. (2019)

// Celsius makes a temperature from degrees Celsius.
func Celsius(degrees float64) Temperature { return Temperature(degrees + zeroCelsius) }

// Fahrenheit makes a temperature from degrees Fahrenheit.
func Fahrenheit(degrees float64) Temperature { return Celsius((degrees - 32) * 5 / 9) }

// Celsius gives t in degrees Celsius to ten decimals, so that what was made from
// 21.3 gives 21.3.
func (t Temperature) Celsius() float64 {
	const digits = 1e10
	c := float64(t) - zeroCelsius
	if math.Abs(c) > 1e5 { // no decimals left to round
		return c
	}
	return math.Floor(c*digits+0.5) / digits
}

// Fahrenheit gives t in degrees Fahrenheit, as Celsius.
func (t Temperature) Fahrenheit() float64 { return t.Celsius()*9/5 + 32 }

// Stated says whether t was stated: it is not the zero value.
func (t Temperature) Stated() bool { return t != 0 }

// ParseTemperature reads text such as "68 F, 20°C".
// Errors: *ParseError for text, *RangeError for a value that cannot be.
func ParseTemperature(text string) (Temperature, error) {
	x, err := temperature.parse(text)
	if err != nil {
		return 0, err
	}
	return Celsius(x), nil
}

// String prints six significant digits in degrees Celsius, which
// ParseTemperature reads, or "not stated".
func (t Temperature) String() string {
	if !t.Stated() {
		return "not stated"
	}
	return temperature.format(t.Celsius())
}

// MarshalText prints twelve significant digits in degrees Celsius, and nothing
// where t is not stated. Error: *RangeError for a number that is not finite.
func (t Temperature) MarshalText() ([]byte, error) {
	if !t.Stated() {
		return []byte{}, nil
	}
	c := t.Celsius()
	if err := temperature.checkFinite(c); err != nil {
		return nil, err
	}
	return exact.TextOf(c, temperature.base, 12), nil
}

// UnmarshalText reads what MarshalText wrote and what ParseTemperature reads.
func (t *Temperature) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*t = 0
		return nil
	}
	c, err := temperature.unmarshal(text)
	if err == nil {
		*t = Celsius(c)
	}
	return err
}

// Set is ParseTemperature, for flags. On an error t keeps its value.
func (t *Temperature) Set(text string) error {
	x, err := ParseTemperature(text)
	if err == nil {
		*t = x
	}
	return err
}
