package label

import (
	"github.com/shopspring/decimal"

	"example.org/mutage/internal/check"
	"example.org/mutage/units"
)

// A LabelRule says how a jurisdiction states a strength and how far the actual
// one may stand from it. Rounding is decimal: half a step goes up, unless Down.
type Rule struct {
	Jurisdiction, Product string
	Step                  decimal.Decimal // in % vol
	Down                  bool            // to the step below
	// Tolerance either way; WideTolerance up to and with WideTo % vol stated.
	Tolerance, WideTolerance, WideTo decimal.Decimal
	// Bound: the tolerance ends at a class limit.
	Bound                       bool
	StepSource, ToleranceSource string
}

var (
	half, tenth = decimal.RequireFromString("0.5"), decimal.RequireFromString("0.1")
	directive87 = "Commission Directive 87/250/EEC, as tabulated in Chem. Central J. 4:5 (2010) Table 1"
	oneDecimal  = "Regulation (EU) 1169/2011, Annex XII: one decimal at the most (from memory)"
)

// The rules of label and duty. Check your own law: rules change, and apply to
// who sells.
var (
	EUWine = Rule{Jurisdiction: "EU", Product: "wine", Step: half, Tolerance: half,
		StepSource:      "Regulation (EU) 2019/33, article 44: whole or half units (from memory)",
		ToleranceSource: directive87 + "; 0.8 for wine three years in bottle and sparkling wine"}
	EUFruitWine = Rule{Jurisdiction: "EU", Product: "fruit wine, cider, perry and similar", Step: tenth, Tolerance: decimal.RequireFromString("1.0"),
		StepSource: oneDecimal, ToleranceSource: directive87}
	EUMacerated = Rule{Jurisdiction: "EU", Product: "beverage with macerated fruit or plants", Step: tenth, Tolerance: decimal.RequireFromString("1.5"),
		StepSource: oneDecimal, ToleranceSource: directive87}
	EUSpirit = Rule{Jurisdiction: "EU", Product: "spirit and beverages not named otherwise", Step: tenth, Tolerance: decimal.RequireFromString("0.3"),
		StepSource: oneDecimal, ToleranceSource: directive87}
	USWine = Rule{Jurisdiction: "US", Product: "wine", Step: tenth, Bound: true,
		Tolerance: decimal.RequireFromString("1.0"), WideTolerance: decimal.RequireFromString("1.5"), WideTo: decimal.RequireFromString("14"),
		StepSource: "tenths: common practice, no source", ToleranceSource: "27 CFR 4.36; may not cross a class limit"}
	USSpirit = Rule{Jurisdiction: "US", Product: "spirit", Step: tenth, Tolerance: decimal.RequireFromString("0.3"),
		StepSource: "tenths: common practice, no source", ToleranceSource: "27 CFR 19.356(c)"}
	UKDuty = Rule{Jurisdiction: "UK", Product: "duty strength", Step: tenth, Down: true,
		StepSource: "HMRC Alcoholic products technical guide, section 11: down to one decimal"}
)

// A Label is a strength as it is stated, with the actual strengths that the
// statement covers.
type Label struct {
	Stated, Low, High decimal.Decimal // % vol
	// Straddles are the strength limits of the jurisdiction's classes that the
	// tolerance alone would reach across: measure well, or state another
	// strength, before one of them decides a class or a tax.
	Straddles []Limit
}

// most decimals of a strength that count: below is the noise of float64
const labelPlaces = 6

// State rounds a strength as the rule has it. Domain 0 to 100 % vol, a positive
// Step and no negative tolerance. Error: *units.RangeError.
func (r Rule) State(s units.Strength) (Label, error) {
	if err := check.Strength("strength", s); err != nil {
		return Label{}, err
	}
	for _, part := range []struct {
		quantity string
		value    decimal.Decimal
		lo       float64
	}{{"label step", r.Step, 0.001}, {"label tolerance", r.Tolerance, 0}, {"wide label tolerance", r.WideTolerance, 0}} {
		if err := units.Check(part.quantity, part.value.InexactFloat64(), part.lo, 10, "% vol", r.StepSource); err != nil {
			return Label{}, err
		}
	}
	steps := s.Decimal(units.PercentVol, labelPlaces).Div(r.Step)
	if r.Down {
		steps = steps.Floor()
	} else {
		steps = steps.Round(0)
	}
	l := Label{Stated: steps.Mul(r.Step)}
	tolerance := r.Tolerance
	if r.WideTo.IsPositive() && l.Stated.LessThanOrEqual(r.WideTo) {
		tolerance = r.WideTolerance
	}
	l.Low, l.High = decimal.Max(decimal.Zero, l.Stated.Sub(tolerance)), l.Stated.Add(tolerance)
	low, high := l.Low, l.High
	for _, limit := range limits {
		if limit.Jurisdiction != r.Jurisdiction || !limit.ofActualStrength() {
			continue
		}
		across := false
		for _, bound := range []float64{limit.Min, limit.Max} {
			at := units.Round(bound, labelPlaces)
			if bound == 0 || !low.LessThan(at) || !at.LessThan(high) {
				continue
			}
			across = true
			if r.Bound && l.Stated.LessThanOrEqual(at) {
				l.High = decimal.Min(l.High, at)
			} else if r.Bound {
				l.Low = decimal.Max(l.Low, at)
			}
		}
		if across {
			l.Straddles = append(l.Straddles, limit)
		}
	}
	return l, nil
}
