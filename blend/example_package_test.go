package blend_test

import (
	"fmt"

	"example.org/mutage/abv"
	"example.org/mutage/blend"
	"example.org/mutage/units"
)

// From three litres of sugared must to a fortified wine. By hand: stopped at
// 1.046 the must has 6.2 % vol; a litre of it, 1090 g, has lost 48 g of gas and
// yeast and weighs 1044 g a litre, so that 3 L have become 2.993 L. The difference
// crosswise, (20 - 6.2)/(40 - 20), asks for 1.96 L of the spirit, volumes simply added;
// mixing takes a little off the volume, so that slightly less will do.
func Example() {
	wine, err := abv.MassBalance(1.092, 1.046, abv.Must)
	if err != nil {
		fmt.Println(err)
		return
	}
	base, err := blend.FromMust("cherry", 3*units.Litre, wine, 150*units.Millilitre)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := blend.Fortify(base, blend.Component{Name: "spirit", Strength: 40}, 20)
	fmt.Printf("%.2f L of %.1f %% vol and %.2f L of spirit make %.1f %% vol, %v\n", float64(base.Volume), float64(base.Strength), float64(f.Spirit), float64(f.Result.Strength), err)
	// Output: 2.84 L of 6.2 % vol and 1.95 L of spirit make 20.0 % vol, <nil>
}

// Of 3 L of must that lost nothing but gas and yeast 2.99 L are left, as the
// example of the package reckons by hand; the lees come off that.
func ExampleFromMust() {
	wine, _ := abv.MassBalance(1.092, 1.046, abv.Must)
	all, _ := blend.FromMust("cherry", 3, wine, 0)
	racked, _ := blend.FromMust("cherry", 3, wine, 150*units.Millilitre)
	_, err := blend.FromMust("cherry", 3, wine, 4)
	fmt.Println(all.Volume.Decimal(units.Litre, 2), racked.Volume.Decimal(units.Litre, 2), err != nil)
	// Output: 2.99 2.84 true
}

// By hand, volumes simply added: 3 L (20 - 6)/(40 - 20) = 2.1 L. Mixing takes about
// a hundredth off the volume, which makes the blend that much stronger.
func ExampleFortify() {
	f, err := blend.Fortify(blend.Component{Name: "cherry", Volume: 3, Strength: 6, Extract: 130}, blend.Component{Name: "spirit", Strength: 40}, 20)
	fmt.Println(f.Spirit.Decimal(units.Litre, 1), "L of spirit,", f.Result.Volume.Decimal(units.Litre, 1), "L in all,", err)
	_, err = blend.Fortify(blend.Component{Name: "cherry", Volume: 3, Strength: 6}, blend.Component{Name: "liqueur", Strength: 18}, 20)
	fmt.Println(err != nil) // weaker than the target: no amount will do
	// Output:
	// 2.1 L of spirit, 5.1 L in all, <nil>
	// true
}

// By hand: 3 L (20 - 6)/(60 - 20) = 1.05 L, together 4.05 L: too much for a jar
// of 4 L, not for one of 5.
func ExampleFortifyIn() {
	base, spirit := blend.Component{Name: "cherry", Volume: 3, Strength: 6, Extract: 130}, blend.Component{Name: "spirit", Strength: 60}
	for _, jar := range []blend.Vessel{{Size: 4}, {Size: 5, Headspace: 300 * units.Millilitre}} {
		f, err := blend.FortifyIn(jar, base, spirit, 20)
		fmt.Println(f.Spirit.Decimal(units.Litre, 2), err == nil)
	}
	// Output:
	// 0 false
	// 1.04 true
}
