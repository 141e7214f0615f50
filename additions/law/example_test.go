package law_test

import (
	"fmt"
	"time"

	"example.org/mutage/additions"
	"example.org/mutage/additions/law"
	"example.org/mutage/units"
)

// A second dose counts the first.
func ExampleLog() {
	day := time.Date(2031, 9, 1, 0, 0, 0, 0, time.UTC)
	dose, _ := additions.Metabisulfite(200*units.MilligramPerLitre, 4*units.Litre)
	log := law.Log{
		{When: day, Additive: law.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
		{When: day.AddDate(0, 1, 0), Additive: law.LogPotassiumMetabisulfite, Mass: dose, Volume: 4},
	}
	levels, _ := log.Levels()
	report, _ := law.Check("US", law.Product{Category: law.FruitWine, ForSale: true, Levels: levels})
	for _, f := range report.Having(law.Exceeded, law.Due) {
		fmt.Println(f.Severity(), f)
	}
	// Output:
	// warn The label must state sulfites: SO2 of 400 mg/L, and it is due from 10 mg/L or more (US Code of Federal Regulations, title 27, 4.32(e), text of 2022).
	// stop Total SO2 of 400 mg/L does not keep the limit, at most 350 mg/L (US Code of Federal Regulations, title 27, 4.22(b)(1), text of 2022).
}

// The vapour over a spirit of 40 % vol can be lit from 26 C, over fortified wine
// of 20 % vol from 36; the same table read as % mass says 28 and 41.
func ExampleFlashPoint() {
	for _, s := range []units.Strength{40, 20} {
		safe, other, _ := law.FlashPoint(s)
		fmt.Println(units.Round(safe.Celsius(), 0), units.Round(other.Celsius(), 0))
	}
	// Output:
	// 26 28
	// 36 41
}

// At the pour of a spirit, for a batch in the EU.
func ExampleCautions() {
	all := law.Cautions(law.What{Jurisdiction: "EU", Sulfite: true, Fortified: true, Spirit: 40})
	fmt.Println(law.At(all, law.StepPour)[1])
	fmt.Println(law.At(all, law.StepGive)[0])
	// Output:
	// At 26 C and above a flame can light the vapour over spirit of 40 % vol (28 C if the table means % mass); warm glass, spray and soaked cloths burn well below that, so no temperature is safe beside a flame.
	// Tell everyone who gets this wine that it holds sulfite: some people with asthma react badly to it, and the reaction can be life-threatening.
}
