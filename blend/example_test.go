package blend_test

import (
	"errors"
	"fmt"

	"example.org/mutage/blend"
)

// Two musts for a vin doux naturel, volumes simply added: printed 16.32 % vol.
func ExampleAdditive() {
	h, _ := blend.Additive(
		blend.Component{Name: "first must", Volume: 100, Strength: 15.5},
		blend.Component{Name: "second must", Volume: 120, Strength: 17})
	for _, line := range h.Working {
		fmt.Println(line)
	}
	// Output:
	// first must         100 L x    15.5 % vol =       1550
	// second must        120 L x      17 % vol =       2040
	// together           220 L                       3590
	// 3590 / 220 = 16.318 % vol
	// with contraction: 16.318 % vol in 220.0006 L
}

// A base of about 5 % vol with less than a quarter of its volume of 40 % vol
// spirit is often taken for 20 % vol.
func ExampleMix() {
	m, _ := blend.Mix(
		blend.Component{Name: "cherry", Volume: 1, Strength: 4.73, Extract: 108},
		blend.Component{Name: "spirit", Volume: 0.23, Strength: 40})
	fmt.Printf("%.1f %% vol\n", float64(m.Strength))
	// Output: 11.3 % vol
}

// The base, a spirit and a syrup: two wants, all of the base.
func ExampleSolve() {
	p, err := blend.Solve(0, []blend.Component{
		{Name: "dry cherry", Volume: 3, Strength: 11, Extract: 25},
		{Name: "spirit", Strength: 60},
		{Name: "syrup", Extract: 850},
	}, blend.WantAll(0), blend.WantStrength(19), blend.WantExtract(90))
	fmt.Printf("spirit %.3f L, syrup %.3f L, makes %.3f L, %v\n", float64(p.Volumes[1]), float64(p.Volumes[2]), float64(p.Result.Volume), err)
	// Output: spirit 0.735 L, syrup 0.342 L, makes 4.059 L, <nil>
}

func ExampleUnreachableError() {
	_, err := blend.FortifyIn(blend.Vessel{Size: 4}, blend.Component{Name: "cherry", Volume: 3, Strength: 6}, blend.Component{Name: "spirit", Strength: 40}, 20)
	var u *blend.UnreachableError
	if errors.As(err, &u) {
		fmt.Printf("bound by the %v; at most %.1f %% vol\n", u.Limit, u.High)
		for _, change := range u.Changes {
			fmt.Println("it would do", change)
		}
	}
	// Output:
	// bound by the vessel; at most 14.5 % vol
	// it would do with 5.09 L in the vessel instead of 4
	// it would do with 2.357 L of cherry instead of 3
	// it would do with spirit of at least 60.82 % vol
}
