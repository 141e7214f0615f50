package gravity

import (
	"regexp"
	"slices"
	"strconv"

	"example.org/mutage/internal/exact"
	"example.org/mutage/units"
)

// A gravity of one digit, a comma and three digits has two readings in
// general, but "1,070" is 1070 and 1.070, which are the same gravity.
var commaGravity = regexp.MustCompile(`^\s*([01]),(\d{3,4})\s*([a-zA-Z].*)?$`)

var expected = []string{"a gravity such as 1.070 or 1070", "17.1 P", "17.1 Bx", "70 Oe", "9.5 Be", "46 points", "1068 kg/m3"}

// Parse reads a gravity as people write it: "1.070", "1070", "17.1 P",
// "17.1 Bx", "70 Oe", "9.5 Be" (modulus 145), "9.5 Be 144.3", "46 points", "1068
// kg/m3" (at 20 C). A bare
// number from 0.7 to 1.35 is a specific gravity, from 700 to 1350 the same in
// thousandths; any other bare number is refused, for it could be Plato, Brix
// or Oechsle. Errors: *units.ParseError, *units.RangeError.
func Parse(text string) (SG, error) {
	number, unit, err := units.Scan("gravity", commaGravity.ReplaceAllString(text, "$1.$2 $3"))
	if err != nil {
		return 0, err
	}
	x, name := number.InexactFloat64(), plainUnit(unit)
	switch name {
	case "", "sg":
		switch {
		case x >= lightestRead && x <= heaviest:
			return SG(x), nil
		case x >= 1000*lightestRead && x <= 1000*heaviest:
			return SG(number.Shift(-3).InexactFloat64()), nil
		}
		return 0, &units.ParseError{Text: text, Quantity: "gravity", Offset: unitAt(text, unit), Expected: expected}
	case "kg/m3", "kg/m³", "g/l":
		return Of(units.Density(x))
	}
	for _, s := range []*scale{plato, brix, oechsle, points, baume, baume1443} {
		if slices.Contains(s.names, name) {
			return s.sg(x)
		}
	}
	return 0, &units.ParseError{Text: text, Quantity: "gravity", Offset: unitAt(text, unit), Expected: expected}
}

const lightestRead = 0.7 // the least specific gravity that is read

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

// MarshalText prints all digits, and nothing for zero: not stated. A number that
// Parse would not take for itself is written with an exponent. Error:
// *units.RangeError for what is not finite.
func (g SG) MarshalText() ([]byte, error) {
	if g == 0 {
		return []byte{}, nil
	}
	if err := checkFinite("specific gravity", float64(g)); err != nil {
		return nil, err
	}
	return g.text(), nil
}

func (g SG) text() []byte {
	format := byte('f')
	if !(g >= lightestRead && float64(g) <= heaviest) {
		format = 'e'
	}
	return strconv.AppendFloat(nil, float64(g), format, -1, 64)
}

// UnmarshalText reads what MarshalText wrote, whatever its range, and what Parse
// reads.
func (g *SG) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*g = 0
		return nil
	}
	x, err := strconv.ParseFloat(string(text), 64)
	if err == nil && exact.Finite(x) && string(SG(x).text()) == string(text) {
		*g = SG(x)
		return nil
	}
	return g.Set(string(text))
}

// Set is Parse, for flags. On an error g keeps its value.
func (g *SG) Set(text string) error {
	x, err := Parse(text)
	if err == nil {
		*g = x
	}
	return err
}
