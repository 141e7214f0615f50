package uncertainty

import "github.com/shopspring/decimal"

// exactDigits is what a float64 carries of any decimal number.
const exactDigits = 15

// Round returns value and standard uncertainty as they are reported: the
// uncertainty to two significant digits, half up, and the value to the same
// place (JCGM 100:2008, 7.2.6). Exponent() of either is the place, so
// StringFixed(-u.Exponent()) keeps trailing zeros. With no uncertainty the
// value keeps 15 significant digits. Value and standard must be finite and
// within 1e300, standard not negative; a *[units.RangeError] otherwise.
func Round(value, standard float64) (v, u decimal.Decimal, err error) {
	if err := (Input{Value: value, Standard: standard}).check(); err != nil {
		return v, u, err
	}
	if standard == 0 {
		return significant(value, exactDigits), u, nil
	}
	u = significant(standard, 2)
	return decimal.NewFromFloat(value).Round(-u.Exponent()), u, nil
}

// String gives value and standard uncertainty as [Round] rounds them.
func (r Result) String() string {
	value, standard, err := Round(r.Value, r.Standard)
	if err != nil {
		return err.Error()
	}
	if standard.IsZero() {
		return value.String() + ", u 0"
	}
	places := max(0, -standard.Exponent())
	return value.StringFixed(places) + ", u " + standard.StringFixed(places)
}

// significant rounds to that many significant digits.
func significant(x float64, digits int) decimal.Decimal {
	d := decimal.NewFromFloat(x)
	if d.IsZero() {
		return d
	}
	for range 2 { // 9.96 becomes 10.0, then 10
		d = d.Round(int32(digits - d.NumDigits() - int(d.Exponent())))
	}
	return d
}
