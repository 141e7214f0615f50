package gravity

import (
	"regexp"
	"strconv"
	"strings"

	"example.org/mutage/units"
)

// A gravity of one digit, a comma and three digits has two readings in
// general, but "1,070" is 1070 and 1.070, which are the same gravity.
var commaGravity = regexp.MustCompile(`^\s*([01]),(\d{3,4})\s*([a-zA-Z].*)?$`)

var expected = []string{"a gravity such as 1.070 or 1070", "17.1 P", "17.1 Bx", "70 Oe", "9.5 Be", "1068 kg/m3"}

// Parse reads a gravity as people write it: "1.070", "1070", "17.1 P",
// "17.1 Bx", "70 Oe", "9.5 Be" (modulus 145), "1068 kg/m3" (at 20 C). A bare
// number from 0.7 to 1.35 is a specific gravity, from 700 to 1350 the same in
// thousandths; any other bare number is refused, for it could be Plato, Brix
// or Oechsle. Errors: *units.ParseError, *units.RangeError.
func Parse(text string) (SG, error) {
	number, unit, err := units.Scan("gravity", commaGravity.ReplaceAllString(text, "$1.$2 $3"))
	if err != nil {
		return 0, err
	}
	x := number.InexactFloat64()
	switch strings.Trim(strings.TrimPrefix(unit, "°"), " .°") {
	case "", "sg":
		switch {
		case x >= 0.7 && x <= heaviest:
			return SG(x), nil
		case x >= 700 && x <= 1000*heaviest:
			return SG(number.Shift(-3).InexactFloat64()), nil
		}
		return 0, &units.ParseError{Text: text, Quantity: "gravity", Expected: expected}
	case "p", "plato":
		return Plato(x).SG()
	case "bx", "brix":
		return Brix(x).SG()
	case "oe", "oechsle":
		return Oechsle(x).SG()
	case "be", "bé", "baume", "baumé":
		return Baume(x).SG()
	case "kg/m3", "kg/m³", "g/l":
		return Of(units.Density(x))
	}
	return 0, &units.ParseError{Text: text, Quantity: "gravity", Offset: max(0, len(text)-len(unit)), Expected: expected}
}

// Of is the gravity of a liquid of this density at 20 C. Domain 698 to 1347
// kg/m3; *units.RangeError outside.
func Of(d units.Density) (SG, error) {
	g := SG(d / Water20)
	if err := units.Check("density", float64(d), 0.7*float64(Water20), heaviest*float64(Water20), "kg/m3", ""); err != nil {
		return 0, err
	}
	return g, nil
}

// String prints five decimals at the most; Parse reads it.
func (g SG) String() string { return units.Round(float64(g), 5).String() }

// MarshalText prints all digits.
func (g SG) MarshalText() ([]byte, error) {
	if err := units.Check("specific gravity", float64(g), 0.7, heaviest, "", "a value to be written out"); err != nil {
		return nil, err
	}
	return strconv.AppendFloat(nil, float64(g), 'f', -1, 64), nil
}

// UnmarshalText is Parse.
func (g *SG) UnmarshalText(text []byte) error { return g.Set(string(text)) }

// Set is Parse, for flags. On an error g keeps its value.
func (g *SG) Set(text string) error {
	x, err := Parse(text)
	if err == nil {
		*g = x
	}
	return err
}
