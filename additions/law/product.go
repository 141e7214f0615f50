package law

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"example.org/mutage/internal/check"
	"example.org/mutage/internal/limits"
	"example.org/mutage/units"
)

// Levels are what is in a litre.
type Levels map[Parameter]units.Concentration

// A Product is a wine as the law looks at it. What its strength lets it be called
// is in label.Classes.
type Product struct {
	// Category is one of the constants. ForSale is false for wine made at home for
	// one's own use.
	Category Category
	ForSale  bool

	// Levels are what the wine holds, and Uncertainty their standard uncertainties;
	// a level without one is taken as exact.
	Levels, Uncertainty Levels

	// SugarLow and SugarHigh hold the sugar: the same twice where it is known.
	SugarLow, SugarHigh units.Concentration

	// PH is that after acid was added; zero: none was, or it is not known.
	PH, PHUncertainty float64

	// Density turns mg/L into the mg/kg of some texts. Zero: not stated, and 970 to
	// 1120 kg/m3 are allowed for, from strong dry wine to syrupy one.
	Density units.Density

	// Colour is "red" or "white" (with rosé); empty: not said, and what depends on
	// it may be exceeded. Fruit wines have no limits by colour.
	Colour string
}

// The densities of wine in kg/L where none is stated: 24 % vol without extract
// has 0.970, 10 % vol with 300 g/L 1.10 (the density model of this library).
var anyDensity = limits.Range{Low: 0.970, High: 1.120}

func (p Product) check() error {
	err := check.First(
		known("category of product", p.Category, []Category{GrapeWine, LiqueurWine, FruitWine, FortifiedFruitWine}),
		known("colour", p.Colour, []string{"", "red", "white"}),
		check.Level("sugar", p.SugarLow, 1000),
		units.Check("sugar, high end", float64(p.SugarHigh), float64(p.SugarLow), 1000, "g/L", check.Bound),
		units.Check("pH", p.PH, 0, 14, "", ""), units.Check("uncertainty of the pH", p.PHUncertainty, 0, 7, "", check.Bound))
	if p.Density != 0 {
		err = check.First(err, units.Check("density", float64(p.Density), 700, 1600, "kg/m3", check.Bound))
	}
	for _, q := range slices.Sorted(maps.Keys(p.Levels)) {
		c := p.Levels[q]
		err = check.First(err, units.CheckOf(q.String(), "level", float64(c), 0, 1000, "g/L", check.Bound))
		if err == nil && !limits.IsLevel(string(q)) {
			err = &units.ParseError{Text: string(q), Quantity: "level", Expected: []string{"a parameter in g/L, mg/L or mg/kg"}}
		}
	}
	for _, q := range slices.Sorted(maps.Keys(p.Uncertainty)) {
		u := p.Uncertainty[q]
		err = check.First(err, units.CheckOf(q.String(), "uncertainty of a level", float64(u), 0, 1000, "g/L", check.Bound))
		if _, ok := p.Levels[q]; !ok && err == nil {
			err = &units.ParseError{Text: string(q), Quantity: "uncertainty of a level", Expected: []string{"a level that is stated"}}
		}
	}
	if parts, total := p.Levels[FreeSO2]+p.Levels[CombinedSO2], p.Levels[TotalSO2]; err == nil && total > 0 && limits.Compare(float64(parts), float64(total)) > 0 {
		e := units.OutOfRange("", "free and combined SO2", float64(parts), 0, float64(total), "g/L", "parts of the total")
		e.Cause = fmt.Sprintf("free and combined SO2 of %.4g g/L are more than the total SO2 of %.4g g/L; swapped?", float64(parts), float64(total))
		return e
	}
	return err
}

// level holds a level in g/L.
func (p Product) level(q Parameter) (limits.Range, bool) {
	c, ok := p.Levels[q]
	return limits.Around(float64(c), float64(p.Uncertainty[q])), ok
}

var open = math.Inf(1)

// sulfite holds total, free and combined SO2 in g/L, from those that are stated:
// the total is the sum of the other two. It is false where none is.
func (p Product) sulfite() (total, free, combined limits.Range, stated bool) {
	total, isTotal := p.level(TotalSO2)
	free, isFree := p.level(FreeSO2)
	combined, isCombined := p.level(CombinedSO2)
	if !isTotal {
		total = limits.Range{Low: free.Low + combined.Low, High: open}
		if isFree && isCombined {
			total.High = free.High + combined.High
		}
	}
	if !isFree {
		free = limits.Range{Low: max(0, total.Low-or(combined.High, isCombined, total.High)), High: total.High - combined.Low}
	}
	if !isCombined {
		combined = limits.Range{Low: max(0, total.Low-free.High), High: total.High - free.Low}
	}
	return total, free, combined, isTotal || isFree || isCombined
}

func or(x float64, ok bool, otherwise float64) float64 {
	if ok {
		return x
	}
	return otherwise
}

// holds is the range of a parameter in a unit, and whether it is stated.
func (p Product) holds(q Parameter, unit string) (r limits.Range, stated bool) {
	switch q {
	case PHAfterAcid:
		return limits.Around(p.PH, p.PHUncertainty), p.PH > 0
	case TotalSO2, FreeSO2, CombinedSO2, SulfiteStatement:
		total, free, combined, any := p.sulfite()
		r, stated = total, any
		if q == FreeSO2 {
			r = free
		}
		if q == CombinedSO2 {
			r = combined
		}
	default:
		r, stated = p.level(q)
	}
	switch unit {
	case "mg/L":
		r = limits.Range{Low: 1000 * r.Low, High: 1000 * r.High}
	case "mg/kg":
		d := anyDensity
		if p.Density > 0 {
			d = limits.Range{Low: float64(p.Density) / 1000, High: float64(p.Density) / 1000}
		}
		r = limits.Range{Low: 1000 * r.Low / d.High, High: 1000 * r.High / d.Low}
	case "g/L":
	default:
		return r, false // no level is in another unit
	}
	return r, stated
}
