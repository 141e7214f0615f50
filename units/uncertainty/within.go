package uncertainty

import (
	"strings"

	"github.com/shopspring/decimal"

	"example.org/mutage/units"
)

// SplitWithin splits a quantity with its limits, "1.092 ± 0.001", "3 L +/- 2 %"
// or "40 % vol ± 0.3", into the quantity and its upper limit, both as texts for
// the quantity's own parser. Without limits the second is empty. What stands
// behind the sign has no unit, the unit of the quantity, or per cent of the
// value (where the quantity is itself in per cent, that unit). The limits are
// those within which the value lies: a rectangular input of that half-width.
// Error: *ParseError.
func SplitWithin(quantity, text string) (value, upper string, err error) {
	at, width := -1, 0
	for _, sign := range []string{"±", "+/-", "+-"} {
		if at = strings.Index(text, sign); at >= 0 {
			width = len(sign)
			break
		}
	}
	if at < 0 {
		return text, "", nil
	}
	value = strings.TrimSpace(text[:at])
	number, unit, err := units.Scan(quantity, value)
	if err != nil {
		return "", "", err
	}
	half, halfUnit, err := units.Scan(quantity, text[at+width:])
	if err != nil {
		return "", "", err
	}
	if unit == "" { // "3 ± 0.1 L"
		unit = halfUnit
		value = strings.TrimSpace(value + " " + unit)
	}
	relative := halfUnit == "%" && !strings.HasPrefix(unit, "%")
	if half.IsNegative() || !relative && halfUnit != "" && halfUnit != unit && !(halfUnit == "%" && strings.HasPrefix(unit, "%")) {
		return "", "", &units.ParseError{Text: text, Quantity: quantity + " limits", Offset: at,
			Expected: []string{"a number, a number of " + unit, "a number of % of the value"}}
	}
	if relative {
		half = number.Abs().Mul(half).Mul(decimal.New(1, -2))
	}
	return value, strings.TrimSpace(number.Add(half).Round(18).String() + " " + unit), nil
}

// Within reads a quantity with its limits by the quantity's own parser:
//
//	g, half, err := units.Within(gravity.Parse, "gravity", "1.092 ± 0.001")
//	in := uncertainty.RectangularInput("original gravity", float64(g), half)
//
// half is the half-width in the quantity's base unit, zero where no limits are
// stated. Errors: *ParseError, *RangeError; those of parse.
func Within[T ~float64](parse func(string) (T, error), quantity, text string) (value T, half float64, err error) {
	at, upper, err := SplitWithin(quantity, text)
	if err != nil {
		return 0, 0, err
	}
	if value, err = parse(at); err != nil || upper == "" {
		return value, 0, err
	}
	end, err := parse(upper)
	if err != nil {
		return 0, 0, err
	}
	return value, float64(end - value), nil
}
