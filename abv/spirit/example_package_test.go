package spirit_test

import (
	"fmt"

	"example.org/mutage/abv/spirit"
)

// US proof is twice the per cent by volume at 60 F (27 CFR 5.1); at 20 C, where
// alcohol takes up more of the volume, 80 proof is a little over 40 % vol.
func Example() {
	s, err := spirit.FromUSProof(80)
	fmt.Printf("%.2f %% vol, %v\n", float64(s), err)
	// Output: 40.07 % vol, <nil>
}
