package abv_test

import (
	"fmt"
	"testing"

	"example.org/mutage/abv"
)

func ExampleCompare() {
	c, _ := abv.Compare(1.092, 1.046, abv.Must)
	for _, e := range c.Estimates {
		fmt.Printf("%-25s %.1f\n", e.Method, float64(e.Strength))
	}
	fmt.Printf("spread %.1f\n", float64(c.Spread))
	// Output:
	// mass balance, must yield  6.2
	// mass balance, wort yield  6.1
	// official factor           6.0
	// simple                    6.0
	// Balling, wort             6.2
	// Balling, must             6.4
	// alternative               6.8
	// spread 0.8
}

// The recommended method stands first and is in the spread; a method outside its
// domain says so and counts for nothing.
func TestCompareRecommends(t *testing.T) {
	for _, y := range []abv.Yield{abv.Wort, abv.Must, {CarbonDioxide: 0.95, Yeast: 0.02}} {
		c, err := abv.Compare(1.150, 1.030, y)
		if err != nil {
			t.Fatal(err)
		}
		if c.Estimates[0].Strength != c.Recommended.Strength || c.Spread <= 0 || c.Reason == "" {
			t.Errorf("%+v: %+v", y, c)
		}
		refused := 0
		for _, e := range c.Estimates {
			if e.Err != nil {
				refused++
				if e.Strength != 0 {
					t.Errorf("%s: %v beside %v", e.Method, e.Strength, e.Err)
				}
			}
		}
		if refused != 1 { // the official table ends at 100.7 degrees
			t.Errorf("%+v: %d methods refuse 120 degrees", y, refused)
		}
	}
}
