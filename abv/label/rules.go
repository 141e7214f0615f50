package label

import (
	"slices"

	"github.com/shopspring/decimal"

	"example.org/mutage/internal/limits"
	"example.org/mutage/units"
)

// commonStep is the step where no text was found that sets one.
const commonStep = "tenths: common practice, no source"

// RuleFor is the label rule of a jurisdiction (whatever its case) for a product
// of the table, by its name or its code: "fruit wine", "fortified_fruit_wine".
// Where no text sets a step it is a tenth, and StepSource says so. Error:
// *units.ParseError for a jurisdiction that is not known, and for a product
// whose tolerance is not known there, or is in no text that was read.
func RuleFor(jurisdiction, product string) (Rule, error) {
	j, ok := limits.Jurisdiction(jurisdiction)
	if !ok {
		return Rule{}, &units.ParseError{Text: jurisdiction, Quantity: "jurisdiction", Expected: limits.Jurisdictions()}
	}
	c := limits.Code(product)
	rows, near := limits.Find(j, c, "label_tolerance")
	if len(rows) == 0 || near != "" || !rows[0].Comparison.Compares() {
		return Rule{}, &units.ParseError{Text: product, Quantity: "product whose label tolerance is known", Expected: withTolerance(j)}
	}
	r := Rule{Jurisdiction: j, Product: rows[0].Product, MadeFrom: rows[0].MadeFrom}
	for _, row := range rows {
		tolerance := units.Round(row.Limit, labelPlaces)
		if limits.Compare(row.StrengthTo, 100) < 0 {
			r.WideTolerance, r.WideTo = tolerance, units.Round(row.StrengthTo, labelPlaces)
		} else {
			r.Tolerance = tolerance
		}
		r.ToleranceSource = row.Citation()
	}
	r.Step, r.StepSource = step(j, c)
	bound, _ := limits.Find(j, c, "label_tolerance_at_class_limit")
	r.Bound = len(bound) > 0 && bound[0].Comparison == limits.NotAllowed
	return r, nil
}

// step is how finely a strength is stated.
func step(j, category string) (decimal.Decimal, string) {
	if rows, _ := limits.Find(j, category, "label_decimals"); len(rows) > 0 && rows[0].Comparison.Compares() {
		return decimal.New(1, -int32(rows[0].Limit)), rows[0].Citation()
	}
	if rows, _ := limits.Find(j, category, "label_step"); len(rows) > 0 {
		return units.Round(rows[0].Limit, labelPlaces), rows[0].Citation()
	}
	return decimal.New(1, -1), commonStep
}

// withTolerance lists the products of a jurisdiction that RuleFor knows.
func withTolerance(j string) []string {
	var out []string
	for _, r := range limits.Rows() {
		if r.Jurisdiction == j && r.Parameter == "label_tolerance" && r.Comparison.Compares() {
			out = append(out, r.Product)
		}
	}
	if out == nil {
		return []string{"a product of another jurisdiction"}
	}
	return slices.Compact(out)
}

// named is a rule that the table has: the tests ask for each.
func named(jurisdiction, product string) Rule {
	r, _ := RuleFor(jurisdiction, product)
	return r
}

// The rules below are those of RuleFor by name. They apply to who sells, and
// change: check your own law. Each has its sources and dates in it.

// EUWine is the rule of the EU for wine of grapes: whole or half units.
func EUWine() Rule { return named("EU", "grape wine") }

// EULiqueurWine is the rule of the EU for liqueur wine, of grapes.
func EULiqueurWine() Rule { return named("EU", "liqueur or fortified wine") }

// EUFruitWine is the rule of the EU for fruit wine, cider, perry and mead.
func EUFruitWine() Rule { return named("EU", "fruit wine") }

// EUMacerated is the rule of the EU for drinks with macerated fruit or plants.
func EUMacerated() Rule { return named("EU", "drink with macerated fruit") }

// EUSpirit is the rule of the EU for spirits and drinks that are not named.
func EUSpirit() Rule { return named("EU", "spirit") }

// USWine is the rule of the US for wine of any fruit.
func USWine() Rule { return named("US", "any wine") }

// USSpirit is the rule of the US for spirits.
func USSpirit() Rule { return named("US", "spirit") }

// UKWine is the rule of the UK for wine of grapes, with the decimal of England
// and Wales since 2023.
func UKWine() Rule { return named("UK", "grape wine") }

// UKDuty is the strength that counts for duty in the UK: cut to one decimal. It
// has no tolerance.
func UKDuty() Rule {
	rows, _ := limits.Find("UK", limits.AnyWine, "duty_step")
	return Rule{Jurisdiction: "UK", Product: "duty strength", Step: units.Round(rows[0].Limit, labelPlaces), Down: true, StepSource: rows[0].Citation()}
}
