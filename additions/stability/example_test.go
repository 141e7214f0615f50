package stability_test

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/additions/stability"
	"example.org/mutage/units"
)

// A trade magazine's stable fortified wine: 92.66 Delle units.
func ExampleJudge() {
	v, _ := stability.Judge(stability.Wine{Strength: 19.28, Sugar: abv.Sugars{Low: 59, Likely: 59, High: 59}})
	fmt.Println(v.Outlook, units.Round(v.DelleUnits, 2))
	for _, b := range v.Barriers[:3] {
		fmt.Println(b.Name+":", b.Hold)
	}
	// Output:
	// should stay still 92.66
	// no sugar left: no barrier
	// alcohol: weak
	// alcohol and sugar together: holds
}

// What a cherry wine stopped at 6 % vol would do in a wine bottle. By hand: 142
// g/L make 69.4 g/L of CO2; at 14.9 % vol a litre holds 1.39 g per bar and its
// headspace 0.05: 48 bar.
func ExampleSealedPressure() {
	s, err := stability.SealedPressure(stability.Wine{Strength: 6.1, Sugar: abv.Sugars{Low: 142, Likely: 142, High: 142}},
		stability.Closed{Volume: 0.77, Headspace: 0.02}, units.Celsius(20))
	fmt.Println(s.Overpressure.Decimal(units.Bar, 0), "bar", err)
	fmt.Println(s.Limits[0].Name, s.Limits[0].Exceeded)
	// Output:
	// 48 bar <nil>
	// straight natural cork in still wine, at 20 C true
}
