package units_test

import (
	"testing"

	"example.org/mutage/units"
)

// A field that was left out and a bare number are no temperatures: the message says
// which of the two it is, before the range.
func TestAMissingTemperatureSaysSo(t *testing.T) {
	for in, want := range map[units.Temperature]string{
		0:                     "temperature of the sample is not stated; possible: 0 to 100 C (source)",
		68:                    "temperature of the sample is 68 K: a bare number in place of units.Celsius or units.Fahrenheit? Possible: 0 to 100 C (source)",
		units.Celsius(-40):    "temperature of the sample -40 C is out of range: 0 to 100 C (source)",
		units.Fahrenheit(250): "temperature of the sample 121.111 C is out of range: 0 to 100 C (source)",
	} {
		if err := units.Check("temperature of the sample", in.Celsius(), 0, 100, "C", "source"); err == nil || err.Error() != want {
			t.Errorf("%v K: %v\nwant %s", float64(in), err, want)
		}
	}
}
