package batch_test

import (
	"fmt"
	"strings"

	"example.org/mutage/blend/batch"
)

// A batch as a file: a finished wine and the spirit for it. By hand, volumes simply
// added: 3 (20 - 6)/(75 - 20) are 0.764 L; the contraction takes 11 mL off what
// is needed, because the blend is smaller than its parts.
func Example() {
	const file = `{"wine": "3 L", "wine_strength": "6 % vol", "wine_reading": "1.046", "wine_temperature": "20 C",
"cellar_temperature": "20 C", "spirit_strength": "75 % vol", "target": "20 % vol"}`
	b, err := batch.Read("cherry.json", strings.NewReader(file))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := b.Work()
	fmt.Println(plan.Answer[0], err)
	// Output:
	// Pour 753 mL of spirit on 3.00 L of wine: it makes 20.0 % vol. <nil>
}
