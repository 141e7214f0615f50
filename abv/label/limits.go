package label

import (
	"math"
	"slices"
	"sync"

	"example.org/mutage/internal/limits"
	"example.org/mutage/units"
)

// A Limit is one limit on what a product may be called, as its text had it at
// its date.
type Limit struct {
	Jurisdiction, Product string
	MadeFrom              string // "grapes", "fruit", "spirit"; empty: any
	// Quantity is a stable code: "strength_min", "total_strength_min" (the sugar
	// counts as alcohol), "total_solids_max", "density_min" and so on.
	Quantity string
	// Comparison is a stable code: "at_most", "less_than", "at_least", "more_than".
	Comparison string
	Value      float64 // in Unit
	Unit       string
	// The limit is for products above, and up to, this actual strength; zero is open.
	OverStrength, UpToStrength units.Strength
	// Date is that of the text. Superseded: it has been amended or repealed since,
	// and the text in force was not reached.
	Source, Article, Date string
	Superseded            bool
	// Evidence is "published", "computed" or "from memory".
	Evidence string
	Note     string
}

func limitOf(r limits.Row) Limit {
	l := Limit{
		Jurisdiction: r.Jurisdiction, Product: r.Product, MadeFrom: r.MadeFrom, Quantity: r.Parameter, Comparison: string(r.Comparison),
		Value: r.Limit, Unit: r.Unit, OverStrength: units.Strength(r.StrengthFrom),
		Source: r.Source, Article: r.Article, Date: r.Date, Superseded: r.Superseded, Evidence: string(r.Evidence), Note: r.Note,
	}
	if !math.IsInf(r.StrengthTo, 1) {
		l.UpToStrength = units.Strength(r.StrengthTo)
	}
	return l
}

// Quantities that are judged on the finished liquid.
const (
	strengthMin      = "strength_min"
	strengthMax      = "strength_max"
	totalStrengthMin = "total_strength_min"
	totalStrengthMax = "total_strength_max"
	totalSolidsMin   = "total_solids_min"
	totalSolidsMax   = "total_solids_max"
	densityMin       = "density_min"
	densityMax       = "density_max"
)

var judged = []string{strengthMin, strengthMax, totalStrengthMin, totalStrengthMax, totalSolidsMin, totalSolidsMax, densityMin, densityMax}

// classRows are the rows that say what a product may be called, those of one
// product together.
var classRows = sync.OnceValue(func() [][]limits.Row {
	type product struct{ jurisdiction, category string }
	at := map[product]int{}
	var out [][]limits.Row
	for _, r := range limits.Rows() {
		if !r.Comparison.Compares() || !slices.Contains(judged, r.Parameter) {
			continue
		}
		p := product{r.Jurisdiction, r.Category}
		i, ok := at[p]
		if !ok {
			i = len(out)
			at[p], out = i, append(out, nil)
		}
		out[i] = append(out[i], r)
	}
	return out
})

// Limits are the limits of strength, solids and density by which Classes goes,
// a row each. The slice is the caller's own.
func Limits() []Limit {
	var out []Limit
	for _, rows := range classRows() {
		for _, r := range rows {
			out = append(out, limitOf(r))
		}
	}
	return out
}
