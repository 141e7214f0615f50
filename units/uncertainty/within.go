package uncertainty

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"

	"example.org/mutage/units"
)

// Within reads a quantity with its limits by the quantity's own parser:
//
//	g, limit, err := uncertainty.Within(gravity.Parse, "gravity", "1.092 ± 0.001")
//	in := uncertainty.LimitInput("original gravity", float64(g), limit)
//
// "±" means, here and on every page of the library, that the value lies within
// the limits 19 times in 20. "+/-" and "+-" stand for it. The limits have no
// unit, any unit of the quantity ("3 L ± 50 mL", "20 C ± 1 K"), or are per cent
// of the value (where the quantity is itself in per cent, that unit). limit comes
// back in the quantity's base unit, zero where none is stated. Errors:
// *units.ParseError; those of parse, also where the value is so near the end of its
// range that value and limit together are beyond.
func Within[T ~float64](parse func(string) (T, error), quantity, text string) (value T, limit float64, err error) {
	at, end := splitSign(text)
	if at < 0 {
		value, err = parse(text)
		return value, 0, err
	}
	half, halfUnit, err := units.Scan(quantity, text[end:])
	if err != nil {
		return 0, 0, err
	}
	written := strings.TrimSpace(text[:at])
	number, unit, err := scanValue(quantity, written)
	if err != nil {
		return 0, 0, err
	}
	value, err = parse(written)
	if err != nil && unit == "" && halfUnit != "%" { // "3 ± 0.1 L"
		unit = halfUnit
		value, err = parse(written + " " + unit)
	}
	if err != nil {
		return 0, 0, err
	}
	switch relative := halfUnit == "%" && !strings.HasPrefix(unit, "%"); {
	case half.IsNegative():
		return 0, 0, refuseLimits(text, quantity, end)
	case relative:
		half = number.Abs().Mul(half).Mul(decimal.New(1, -2))
	case halfUnit != "" && halfUnit != unit && halfUnit != "%":
		if limit, ok := inItsUnit(parse, half, halfUnit); ok {
			return value, limit, nil
		}
		return 0, 0, refuseLimits(text, quantity, end)
	}
	upper, err := parse(strings.TrimSpace(number.Add(half).Round(18).String() + " " + unit))
	if err != nil {
		return 0, 0, err
	}
	return value, math.Abs(float64(upper - value)), nil
}

// splitSign gives where the sign begins and ends, -1 where there is none.
func splitSign(text string) (at, end int) {
	for _, sign := range []string{"±", "+/-", "+-"} {
		if at := strings.Index(text, sign); at >= 0 {
			return at, at + len(sign)
		}
	}
	return -1, -1
}

// scanValue is units.Scan, and where that finds a comma with two readings, the
// decimal one: parse, which reads the same text, has the last word.
func scanValue(quantity, text string) (decimal.Decimal, string, error) {
	number, unit, err := units.Scan(quantity, text)
	if err != nil && strings.Count(text, ",") == 1 {
		if number, unit, err := units.Scan(quantity, strings.Replace(text, ",", ".", 1)); err == nil {
			return number, unit, nil
		}
	}
	return number, unit, err
}

// inItsUnit is a limit in another unit than its value. Differences leave the
// zero of a scale out, but a scale that is not straight has no one difference.
func inItsUnit[T ~float64](parse func(string) (T, error), half decimal.Decimal, unit string) (limit float64, ok bool) {
	if unit == "k" || unit == "kelvin" {
		unit = "c" // the same difference, and zero degrees are in range
	}
	var at [3]float64
	for i := range at {
		x, err := parse(half.Mul(decimal.NewFromInt(int64(i+1))).String() + " " + unit)
		if err != nil {
			return 0, false
		}
		at[i] = float64(x)
	}
	limit = at[1] - at[0]
	return limit, math.Abs(at[2]-at[1]-limit) <= 1e-9*math.Abs(at[2])
}

func refuseLimits(text, quantity string, at int) error {
	return &units.ParseError{Text: text, Quantity: "limits of " + quantity, Offset: at,
		Expected: []string{"a number", "a number and a unit of the quantity", "a number of % of the value"}}
}
