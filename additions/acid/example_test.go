package acid_test

import (
	"fmt"

	"example.org/mutage/additions/acid"
	"example.org/mutage/units"
)

// 3.8 g of tartaric acid per US gallon raise the TA by 1 g/L, 2.5 g of calcium
// carbonate lower it by as much.
func ExampleRaiseTA() {
	up, _ := acid.RaiseTA(1, units.USGallon, acid.Tartaric)
	down, _ := acid.LowerTA(1, units.USGallon, acid.CalciumCarbonate)
	fmt.Println(up.Decimal(units.Gram, 1), down.Decimal(units.Gram, 1))
	// Output: 3.8 2.5
}

// One gram of citric acid is 1.047 g of malic and 1.172 g of tartaric acid.
func ExampleExpress() {
	malic, _ := acid.Express(1, acid.Citric, acid.Malic)
	tartaric, _ := acid.Express(1, acid.Citric, acid.Tartaric)
	fmt.Println(malic.Decimal(units.GramPerLitre, 3), tartaric.Decimal(units.GramPerLitre, 3))
	// Output: 1.047 1.172
}

// 2.5 g/L of tartar take 1 g/L of TA and 2 g/L of tartaric acid.
func ExampleTartarFallen() {
	t, _ := acid.TartarFallen(2.5)
	fmt.Println(t.TA.Decimal(units.GramPerLitre, 0), t.TartaricAcid.Decimal(units.GramPerLitre, 0))
	// Output: 1 2
}

// Two grams of malic acid per litre in a cherry wine of pH 3.4. By hand: 14.9
// mmol/L, each giving 0.46 of its protons, over a buffer capacity of 52: -0.13.
func ExamplePredict() {
	m := acid.Measurement{PH: 3.4, TA: 9, Strength: 6, StandardPH: 0.02,
		Profile: acid.Acids{Malic: 9, Citric: 0.3, Succinic: 0.4}}
	p, err := acid.Predict(m, func(b acid.Buffer) (acid.Buffer, error) {
		return b.With(acid.Malic, 2)
	})
	fmt.Printf("pH %.2f, u %.2f, %v\n", p.PH, p.Standard, err)
	// Output: pH 3.27, u 0.02, <nil>
}
