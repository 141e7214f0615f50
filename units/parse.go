package units

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"example.org/mutage/internal/exact"
)

// parse reads text as a number in one of the dimension's units and returns it
// in the base unit.
func (d *dimension) parse(text string) (float64, error) {
	number, symbol, err := Scan(d.quantity, text)
	if err != nil {
		return 0, err
	}
	u, ok := d.find(symbol)
	if !ok && d == concentration {
		if c, is, err := parsePer(text); is {
			return float64(c), err
		}
	}
	if !ok {
		at := len(text) // the unit is missing at the end
		if symbol != "" {
			at = max(0, strings.LastIndex(strings.ToLower(text), symbol))
		}
		return 0, &ParseError{Text: text, Quantity: d.quantity, Offset: at, Expected: d.expected()}
	}
	x := u.toBase(number).InexactFloat64()
	if x < d.min || x > d.max { // not Check: what was read with its unit is no bare number
		return 0, OutOfRange("", d.quantity, x, d.min, d.max, d.base, "as read from "+strconv.Quote(text))
	}
	return x, nil
}

// find looks a unit up by any of its names, with a plural s and with the
// points of abbreviations left out ("fl. oz.", "lbs").
func (d *dimension) find(symbol string) (unit, bool) {
	symbol = strings.ReplaceAll(symbol, ".", "")
	for _, name := range []string{symbol, strings.TrimSuffix(symbol, "s"), strings.Replace(symbol, "s ", " ", 1)} {
		if u, ok := d.byName[name]; ok {
			return u, true
		}
	}
	return unit{}, false
}

// format prints six significant digits and the base unit.
func (d *dimension) format(x float64) string {
	return strconv.FormatFloat(x, 'g', 6, 64) + " " + d.base
}

// marshal prints as many digits as give the same float64 back, in range or not:
// a result may be below zero by rounding, and a reply must never fail.
func (d *dimension) marshal(x float64) ([]byte, error) {
	if err := d.checkFinite(x); err != nil {
		return nil, err
	}
	return exact.Text(x, d.base), nil
}

func (d *dimension) checkFinite(x float64) error {
	return Check(d.quantity, x, math.Inf(-1), inf, d.base, "a value to be written out")
}

// unmarshal reads what marshal wrote, as it is, and what parse reads.
func (d *dimension) unmarshal(text []byte) (float64, error) {
	if x, ok := exact.Number(text, d.base); ok {
		return x, nil
	}
	return d.parse(string(text))
}

// most decimal places that Round gives
const maxPlaces = 18

// Round gives x with the stated number of decimal places, half away from zero
// on the shortest decimal that names x. places is held to -18 to 18. A number
// that is not finite has no decimal form and gives zero: the functions of this
// library return none.
func Round(x float64, places int32) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Zero
	}
	return decimal.NewFromFloat(x).Round(min(max(places, -maxPlaces), maxPlaces))
}
