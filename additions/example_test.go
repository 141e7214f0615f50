package additions_test

import (
	"fmt"

	"example.org/mutage/additions"
	"example.org/mutage/units"
)

// UC Cooperative Extension 1982: at pH 3.4, 32 mg/L of free SO2 for 0.8 mg/L
// molecular, 20 for 0.5; 2.5 % is molecular.
func ExampleFreeSO2For() {
	for _, molecular := range []units.Concentration{0.8, 0.5} {
		free, _ := additions.FreeSO2For(molecular*units.MilligramPerLitre, 3.4, additions.UsualPK)
		fmt.Println(free.Decimal(units.MilligramPerLitre, 0))
	}
	share, _ := additions.MolecularSO2(100*units.MilligramPerLitre, 3.4, additions.UsualPK)
	fmt.Println(share.Decimal(units.MilligramPerLitre, 1), "%")
	// Output:
	// 32
	// 20
	// 2.5 %
}

// A leaflet reckons half of the salt as SO2: 757 g per 1000 gallons for 100
// mg/L. By formula it is 57.6 %.
func ExampleMetabisulfite() {
	allowance := additions.Sulfite{Name: "old salt", SO2: 0.5, Source: "practical allowance"}
	half, _ := allowance.Dose(100*units.MilligramPerLitre, 1000*units.USGallon, 1)
	pure, _ := additions.Metabisulfite(100*units.MilligramPerLitre, 1000*units.USGallon)
	fmt.Println(half.Decimal(units.Gram, 0), pure.Decimal(units.Gram, 0))
	// Output: 757 657
}

// One gram per US gallon, as the trade rounds it.
func ExampleSorbate() {
	salt, _ := additions.Sorbate(additions.UsualSorbicAcid, units.USGallon)
	spoon, _ := additions.Spoons(additions.SorbatePowder, salt)
	fmt.Println(salt.Decimal(units.Gram, 0), "g,", spoon)
	fmt.Println("weigh it:", spoon.UseScale, additions.SorbateCautions(50 * units.MilligramPerLitre)[0].Text)
	// Output:
	// 1 g, 1/2 tsp
	// weigh it: true Sorbate does not stop a running fermentation. Let the wine fall clear, and dose what little yeast is left.
}

// 25 g/hL are five million cells per mL.
func ExamplePitch() {
	p, _ := additions.Pitch(1.090, 0, units.Hectolitre)
	fmt.Printf("%v, %.0e cells/mL\n", p.Yeast, p.Cells)
	// Output: 25 g, 5e+06 cells/mL
}

// 100 mg/L of diammonium phosphate add 21 mg/L of nitrogen.
func ExampleNitrogenAdded() {
	n, _ := additions.NitrogenAdded(0.1, units.Litre, additions.DiammoniumPhosphate)
	fmt.Println(n.Decimal(units.MilligramPerLitre, 0))
	// Output: 21
}
