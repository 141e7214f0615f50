package label

import (
	"example.org/mutage/abv"
	"example.org/mutage/gravity"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// A Class is a product of some law whose limits of strength, sugar, solids and
// density a liquid meets.
type Class struct {
	Jurisdiction, Product string
	Met                   []Limit
}

// A Classification is what a liquid's figures would let it be called.
type Classification struct {
	Classes []Class
	Advice  string
}

const classAdvice = "Only figures are compared: most of these products are defined for grapes, a place and a way of making them. " +
	"The table is what its sources printed at their dates. Check your own law."

// gramsEU is the convention by which the law counts potential alcohol.
var gramsEU = abv.ConventionEU.Grams

// Classes are the classes of the table whose every limit on the finished liquid
// is met. All extract is counted as sugar, with the EU convention for total
// alcohol: a little high. Limits on must, base wine or spirit are not judged;
// they stand in LegalLimits. Domain: a composition as Compose gives it.
// Error: *units.RangeError.
func Classes(c abv.Composition) (Classification, error) {
	whole, err := abv.Compose(c.Strength, c.Extract)
	if err != nil {
		return Classification{}, err
	}
	out := Classification{Advice: classAdvice}
	for i, first := range limits {
		if i > 0 && limits[i-1].sameProduct(first) {
			continue
		}
		class, meets := Class{Jurisdiction: first.Jurisdiction, Product: first.Product}, true
		for _, limit := range limits[i:] {
			if !limit.sameProduct(first) {
				break
			}
			value, judged := limit.valueIn(whole)
			if !judged {
				continue
			}
			meets = meets && limit.holds(value, whole.Strength)
			class.Met = append(class.Met, limit)
		}
		if meets && len(class.Met) > 0 {
			out.Classes = append(out.Classes, class)
		}
	}
	return out, nil
}

// LegalLimits is the table, a row per limit. The slice is the caller's own.
func Limits() []Limit { return append([]Limit(nil), limits...) }

func (l Limit) sameProduct(m Limit) bool {
	return l.Jurisdiction == m.Jurisdiction && l.Product == m.Product
}

// valueIn is the figure of the liquid that the limit speaks of.
func (l Limit) valueIn(c abv.Composition) (value float64, judged bool) {
	percent := float64(c.Extract) / (float64(c.Gravity) * density.Water20) * 100
	switch l.Quantity {
	case actualAlcohol, anyAlcohol:
		return float64(c.Strength), true
	case totalAlcohol:
		return float64(c.Strength) + float64(c.Extract/gramsEU), true
	case totalSolids:
		return percent, true
	case sugars:
		return float64(c.Extract) / 10, true // g/100 mL
	case densityAt20:
		return float64(c.Gravity) * float64(gravity.Water20), true
	}
	return 0, false
}

func (l Limit) holds(value float64, s units.Strength) bool {
	switch {
	case l.Min > 0 && (value < l.Min || l.Exclusive && value == l.Min):
		return false
	case l.Max > 0 && value > l.Max:
		return false
	}
	return s > l.OverStrength && (l.UpToStrength == 0 || s <= l.UpToStrength)
}

func (l Limit) ofActualStrength() bool {
	return l.Quantity == actualAlcohol || l.Quantity == anyAlcohol
}
