package units

import (
	"math"
	"strings"

	"github.com/shopspring/decimal"
)

// A dimension is one quantity type: its base unit, its domain and its units.
type dimension struct {
	quantity string
	base     string  // symbol printed by String
	min, max float64 // physical domain in the base unit
	units    []unit
	byName   map[string]unit
}

// A unit converts by base = (x + offset) * factor / divisor, all exact.
// The first name is the one shown in error messages.
type unit struct {
	names                   string // separated by |, lower case; a plural s is understood
	factor, divisor, offset string // empty: 1, 1, 0
	source                  string
}

const (
	si      = "SI Brochure, 9th ed. (2019)"
	us      = "NIST Handbook 44, Appendix C"
	uk      = "UK Weights and Measures Act 1985, Schedule 1"
	label   = "21 CFR 101.9(b)(5)(viii)"
	pound59 = "international pound of 1959, NIST Handbook 44, Appendix C"
)

var inf = math.Inf(1)

var (
	volume = define("volume", "L", 0, inf, []unit{
		{names: "l|litre|liter", factor: "1", source: si},
		{names: "ml|millilitre|milliliter|cc|cm3", factor: "0.001", source: si},
		{names: "cl|centilitre|centiliter", factor: "0.01", source: si},
		{names: "dl|decilitre|deciliter", factor: "0.1", source: si},
		{names: "hl|hectolitre|hectoliter", factor: "100", source: si},
		{names: "m3", factor: "1000", source: si},
		{names: "gal|gallon|us gal|us gallon", factor: "3.785411784", source: us},                        // 231 in3
		{names: "qt|quart|us qt|us quart", factor: "0.946352946", source: us},                            // gallon/4
		{names: "pt|pint|us pt|us pint", factor: "0.473176473", source: us},                              // gallon/8
		{names: "cup|us cup", factor: "0.2365882365", source: us},                                        // gallon/16
		{names: "fl oz|fluid ounce|floz|us fl oz|us fluid ounce", factor: "0.0295735295625", source: us}, // gallon/128
		{names: "tbsp|tablespoon|us tbsp|us tablespoon", factor: "0.01478676478125", source: us},         // gallon/256
		{names: "tsp|teaspoon|us tsp|us teaspoon", factor: "0.00492892159375", source: us},               // gallon/768
		{names: "imperial gal|imperial gallon|imp gal", factor: "4.54609", source: uk},
		{names: "imperial qt|imperial quart|imp qt", factor: "1.1365225", source: uk},
		{names: "imperial pt|imperial pint|imp pt", factor: "0.56826125", source: uk},
		{names: "imperial fl oz|imperial fluid ounce|imp fl oz", factor: "0.0284130625", source: uk}, // gallon/160
		{names: "label cup", factor: "0.24", source: label},
		{names: "label fl oz|label fluid ounce", factor: "0.03", source: label},
		{names: "label tbsp|label tablespoon", factor: "0.015", source: label},
		{names: "label tsp|label teaspoon", factor: "0.005", source: label},
	})
	mass = define("mass", "g", 0, inf, []unit{
		{names: "g|gram|gramme|gm", factor: "1", source: si},
		{names: "mg|milligram", factor: "0.001", source: si},
		{names: "kg|kilogram|kilo", factor: "1000", source: si},
		{names: "t|tonne", factor: "1000000", source: si},
		{names: "oz|ounce", factor: "28.349523125", source: pound59}, // lb/16
		{names: "lb|pound", factor: "453.59237", source: pound59},
	})
	density = define("density", "kg/m3", 0, inf, []unit{
		{names: "kg/m3|kg/m³|g/l", factor: "1", source: si},
		{names: "g/ml|g/cm3|g/cm³|kg/l", factor: "1000", source: si},
		{names: "lb/gal", factor: "453.59237", divisor: "3.785411784", source: us},
	})
	concentration = define("concentration", "g/L", 0, inf, []unit{
		{names: "g/l|kg/m3|mg/ml", factor: "1", source: si},
		{names: "mg/l|ppm", factor: "0.001", source: "ppm as the trade uses it, common practice, no source"},
		{names: "g/hl", factor: "0.01", source: si},
		{names: "g/100ml|g/100 ml|g/dl", factor: "10", source: si},
		{names: "g/gal", factor: "1", divisor: "3.785411784", source: us},
		{names: "oz/gal", factor: "28.349523125", divisor: "3.785411784", source: us},
		{names: "lb/gal", factor: "453.59237", divisor: "3.785411784", source: us},
		{names: "lb/1000gal|lb/1000 gal", factor: "0.45359237", divisor: "3.785411784", source: us},
	})
	strength = define("strength", "% vol", 0, 100, []unit{
		{names: "% vol|%|%vol|vol%|vol %|% v/v|% abv|%abv|abv|percent|percent vol|% by volume", factor: "1", source: "OIML R 22 (1975)"},
		{names: "proof|us proof|° proof|degrees proof", factor: "0.5", source: "27 CFR 5.1: twice the per cent by volume"},
	})
	massPercent = define("mass percent", "% mass", 0, 100, []unit{
		{names: "% mass|%|%mass|mass%|% w/w|% m/m|percent mass|% by mass|% by weight", factor: "1", source: "OIML R 22 (1975)"},
	})
	temperature = define("temperature", "C", -273, inf, []unit{
		{names: "c|°c|° c|deg c|degc|degree c|celsius|degree celsius", factor: "1", source: si},
		{names: "f|°f|° f|deg f|degf|degree f|fahrenheit|degree fahrenheit", factor: "5", divisor: "9", offset: "-32", source: us},
		{names: "k|kelvin", factor: "1", offset: "-273.15", source: si},
	})
	pressure = define("pressure", "kPa", 0, inf, []unit{
		{names: "kpa|kilopascal", factor: "1", source: si},
		{names: "pa|pascal", factor: "0.001", source: si},
		{names: "hpa|mbar|millibar", factor: "0.1", source: si},
		{names: "bar", factor: "100", source: si},
		{names: "atm|atmosphere", factor: "101.325", source: "10th CGPM (1954)"},
		{names: "psi|lbf/in2", factor: "4.4482216152605", divisor: "0.64516", source: us}, // pound-force per square inch
	})
)

func define(quantity, base string, lo, hi float64, rows []unit) *dimension {
	d := &dimension{quantity, base, lo, hi, rows, map[string]unit{}}
	for _, u := range rows {
		for _, n := range strings.Split(u.names, "|") {
			d.byName[n] = u
		}
	}
	return d
}

// toBase converts exactly, save for a divisor: then to 30 places.
func (u unit) toBase(x decimal.Decimal) decimal.Decimal {
	if u.offset != "" {
		x = x.Add(decimal.RequireFromString(u.offset))
	}
	x = x.Mul(decimal.RequireFromString(u.factor))
	if u.divisor != "" {
		x = x.DivRound(decimal.RequireFromString(u.divisor), 30)
	}
	return x
}

// expected lists one name a unit, for error messages.
func (d *dimension) expected() []string {
	out := make([]string, len(d.units))
	for i, u := range d.units {
		out[i], _, _ = strings.Cut(u.names, "|")
	}
	return out
}
