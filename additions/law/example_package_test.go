package law_test

import (
	"fmt"

	"example.org/mutage/additions/law"
	"example.org/mutage/units"
)

// The limit of 27 CFR 4.22(b)(1) is 350 mg/L.
func ExampleCheck() {
	for _, so2 := range []units.Concentration{340, 360} {
		r, err := law.Check("US", law.Product{Category: law.FruitWine, ForSale: true, Levels: law.Levels{law.TotalSO2: so2 * units.MilligramPerLitre}})
		fmt.Println(so2.Decimal(1, 0), len(r.Having(law.Exceeded)), err)
	}
	// Output:
	// 340 0 <nil>
	// 360 1 <nil>
}

// What one litre of wine holds by the scale and the log, against the law. By hand: 1 g
// of potassium metabisulfite with 57.6 % SO2 in 4 L are 144 mg/L.
func Example() {
	log := law.Log{{Additive: law.LogPotassiumMetabisulfite, Mass: units.Gram, Volume: 4}}
	levels, err := log.Levels()
	fmt.Println(levels[law.TotalSO2].Decimal(units.MilligramPerLitre, 0), err)
	report, err := law.Check("US", law.Product{Category: law.FruitWine, ForSale: true, Levels: levels})
	fmt.Println(len(report.Having(law.Exceeded)), err)
	// Output:
	// 144 <nil>
	// 0 <nil>
}
