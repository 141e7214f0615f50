package units

import "strings"

var dimensions = []*dimension{volume, mass, density, concentration, strength, massPercent, temperature, pressure}

// ConversionFormula is the formula of a cell that turns the figure with this key
// from one unit into another, in the grammar of Figure.Formula and with the
// exact factors of the unit table: from "L" to "US gallon" of "spirit" is
// "{spirit}/3.785411784". Units are named as the Parse functions read them.
// Error: *ParseError for units that are unknown or measure different things.
func ConversionFormula(key, from, to string) (string, error) {
	name := func(unit string) string { return strings.ToLower(strings.Join(strings.Fields(unit), " ")) }
	expected := []string{}
	for _, d := range dimensions {
		a, known := d.find(name(from))
		if !known {
			continue
		}
		expected = append(expected, d.expected()...)
		if b, same := d.find(name(to)); same {
			return conversion("{"+key+"}", a, b), nil
		}
	}
	if len(expected) == 0 {
		for _, d := range dimensions {
			expected = append(expected, d.expected()...)
		}
		return "", &ParseError{Text: from, Quantity: "unit to convert from", Expected: expected}
	}
	return "", &ParseError{Text: to, Quantity: "unit to convert " + from + " to", Expected: expected}
}

// conversion goes through the base unit: (x + offset) factor / divisor there,
// and the same backwards.
func conversion(x string, from, to unit) string {
	if from.factor == to.factor && from.divisor == to.divisor && from.offset == to.offset {
		return x
	}
	if from.offset != "" {
		x = "(" + x + signed(from.offset) + ")"
	}
	if from.factor != "1" {
		x += "*" + from.factor
	}
	if from.divisor != "" {
		x += "/" + from.divisor
	}
	if to.divisor != "" {
		x += "*" + to.divisor
	}
	if to.factor != "1" {
		x += "/" + to.factor
	}
	if to.offset != "" {
		x += signed(negated(to.offset))
	}
	return x
}

func signed(number string) string {
	if strings.HasPrefix(number, "-") {
		return number
	}
	return "+" + number
}

func negated(number string) string {
	if positive, negative := strings.CutPrefix(number, "-"); negative {
		return positive
	}
	return "-" + number
}
