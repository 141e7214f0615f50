package label

import (
	"github.com/shopspring/decimal"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/limits"
	"example.org/mutage/units"
)

// A Rule says how a jurisdiction states a strength and how far the actual one
// may stand from it. Rounding is decimal: half a step goes up, unless Down.
type Rule struct {
	Jurisdiction, Product string
	MadeFrom              string          // "grapes", "fruit", "spirit"; empty: any
	Step                  decimal.Decimal // in % vol
	Down                  bool            // to the step below
	// Tolerance either way; WideTolerance up to and with WideTo % vol stated.
	Tolerance, WideTolerance, WideTo decimal.Decimal
	// Bound: the tolerance ends at a class limit, and the statement stands on the
	// side of it on which the wine is.
	Bound                       bool
	StepSource, ToleranceSource string
}

// A Label is a strength as it is stated, with the actual strengths that the
// statement covers.
type Label struct {
	Stated, Low, High decimal.Decimal // % vol
	// Straddles are the strength limits of the jurisdiction's classes that the
	// tolerance alone would reach across: measure well, or state another
	// strength, before one of them decides a class or a tax.
	Straddles []Limit
	Rule      Rule
}

// labelPlaces are the decimals that a strength is rounded to before its rule: further
// digits are noise of float64.
const labelPlaces = 6

// State rounds a strength as the rule has it. Domain 0 to 100 % vol, a positive
// Step and no negative tolerance. Error: *units.RangeError.
func (r Rule) State(s units.Strength) (Label, error) {
	if err := r.check(s); err != nil {
		return Label{}, err
	}
	actual := s.Decimal(units.PercentVol, labelPlaces)
	steps := actual.Div(r.Step)
	if r.Down {
		steps = steps.Floor()
	} else {
		steps = steps.Round(0)
	}
	l := Label{Stated: steps.Mul(r.Step), Rule: r}
	bounds := r.bounds()
	if r.Bound {
		l.Stated = r.sameSide(actual, l.Stated, bounds)
	}
	tolerance := r.Tolerance
	if r.WideTo.IsPositive() && limits.Compare(l.Stated.InexactFloat64(), r.WideTo.InexactFloat64()) <= 0 {
		tolerance = r.WideTolerance
	}
	l.Low, l.High = decimal.Max(decimal.Zero, l.Stated.Sub(tolerance)), l.Stated.Add(tolerance)
	low, high := l.Low, l.High
	for _, b := range bounds {
		at := units.Round(b.Limit, labelPlaces)
		if !low.LessThan(at) || !at.LessThan(high) {
			continue
		}
		l.Straddles = append(l.Straddles, limitOf(b))
		if r.Bound && l.Stated.LessThanOrEqual(at) {
			l.High = decimal.Min(l.High, at)
		} else if r.Bound {
			l.Low = decimal.Max(l.Low, at)
		}
	}
	return l, nil
}

func (r Rule) check(s units.Strength) error {
	percent := func(quantity string, d decimal.Decimal, lo float64) error {
		return units.Check(quantity, d.InexactFloat64(), lo, 10, "% vol", r.StepSource)
	}
	return check.First(check.Strength("strength", s), percent("label step", r.Step, 0.001),
		percent("label tolerance", r.Tolerance, 0), percent("wide label tolerance", r.WideTolerance, 0))
}

// bounds are the limits of actual strength of the products that the rule's own
// could be taken for.
func (r Rule) bounds() []limits.Row {
	var out []limits.Row
	for _, rows := range classRows() {
		for _, row := range rows {
			if row.Jurisdiction == r.Jurisdiction && (row.Parameter == strengthMin || row.Parameter == strengthMax) &&
				(row.MadeFrom == r.MadeFrom || r.MadeFrom == "" || row.MadeFrom == "" && r.MadeFrom != "spirit") {
				out = append(out, row)
			}
		}
	}
	return out
}

// sameSide moves a statement by a step where rounding took it across a class
// limit: 14.04 % vol is above 14, and 14.0 would state a table wine.
func (r Rule) sameSide(actual, stated decimal.Decimal, bounds []limits.Row) decimal.Decimal {
	at := func(d decimal.Decimal) limits.Range { x := d.InexactFloat64(); return limits.Range{Low: x, High: x} }
	for _, b := range bounds {
		switch was, is := b.Judge(at(actual)), b.Judge(at(stated)); {
		case was == is:
		case stated.LessThan(actual):
			return stated.Add(r.Step)
		default:
			return stated.Sub(r.Step)
		}
	}
	return stated
}
