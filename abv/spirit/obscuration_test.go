package spirit_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/density"
	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// 27 CFR 30.31: 0.1 g of solids in 100 mL hides 0.4 proof. The rule is round
// and serves whisky; the balance with sugar says how round.
func TestObscurationAgainstUSRule(t *testing.T) {
	c := handbook.NewCheck(t, "27 CFR 30.31, 0.5 g/100 mL hide 2 proof, sugar by the balance", "proof")
	for _, s := range []units.Strength{40, 45, 50} {
		apparent, err := spirit.Obscured(s, 5)
		if err != nil {
			t.Fatal(err)
		}
		hidden, err := spirit.USProof(s)
		if err != nil {
			t.Fatal(err)
		}
		shown, err := spirit.USProof(apparent)
		if err != nil {
			t.Fatal(err)
		}
		rule, err := spirit.USObscuration(5)
		if err != nil || rule != 2 {
			t.Fatal(rule, err)
		}
		// A round rule for the solids of whisky, one digit for five tenths of a
		// gram. Sugar hides a fifth more at 80 proof.
		if at := fmt.Sprintf("%v", s); s == 40 {
			c.Except(hidden-shown, "2.0", at, "the rule is for the solids of whisky and for every proof")
		} else {
			c.Differs(hidden-shown, rule, 5*0.05, "a rule of one digit for the solids of whisky", at)
		}
	}
}

// A liqueur of 35.0 % vol with 11.6 % mass of extract has a gravity of 1.00105
// (Spedding): denser than water, so an alcoholometer cannot float on its scale.
func TestObscurationOfLiqueur(t *testing.T) {
	extract := 0.116 * 1.00105 * density.Water20
	c, err := abv.Compose(35, units.Concentration(extract))
	if err != nil {
		t.Fatal(err)
	}
	check := handbook.NewCheck(t, "Liqueur of 35.0 % vol and 11.6 % mass extract, abv.Compose", "SG")
	// Half of the last printed digit of the strength, of the extract, of the result.
	check.Rounded(float64(c.Gravity), 1.00105, 0.05*0.0014+0.05*0.0041+0.000005, "35 % vol, 11.6 % mass")
	var r *units.RangeError
	if s, err := spirit.Obscured(35, 130); !errors.As(err, &r) {
		t.Errorf("denser than water: %v, %v", s, err)
	}
}

// Back and forth, and sugar always makes it seem weaker.
func TestObscurationRoundTrip(t *testing.T) {
	for s := units.Strength(10); s <= 95; s += 5 {
		for _, extract := range []units.Concentration{0, 1, 5, 20, 50} {
			apparent, err := spirit.Obscured(s, extract)
			var r *units.RangeError
			if errors.As(err, &r) {
				continue
			}
			if err != nil || extract > 0 && apparent >= s {
				t.Errorf("%v with %v shows %v, %v", s, extract, apparent, err)
			}
			back, err := spirit.Unobscured(apparent, extract)
			if err != nil || math.Abs(float64(back-s)) > 1e-5 {
				t.Errorf("%v with %v shows %v, comes back as %v, %v", s, extract, apparent, float64(back), err)
			}
		}
	}
}

// A fortified wine of 20 % vol with 84 g/L is denser than water, 1.0078.
func ExampleObscured() {
	_, err := spirit.Obscured(20, 84)
	fmt.Println(err != nil)
	liqueur, _ := spirit.Obscured(40, 30)
	back, _ := spirit.Unobscured(liqueur, 30)
	fmt.Printf("%.0f\n", float64(back))
	// Output:
	// true
	// 40
}

// FuzzUnobscured: the strength shows what it came from.
func FuzzUnobscured(f *testing.F) {
	f.Add(30.0, 50.0)
	f.Add(0.0, 900.0)
	f.Add(99.0, 20.0)
	f.Fuzz(func(t *testing.T, apparent, extract float64) {
		s, err := spirit.Unobscured(units.Strength(apparent), units.Concentration(extract))
		if err != nil {
			return
		}
		back, err := spirit.Obscured(s, units.Concentration(extract))
		if err != nil || math.Abs(float64(back)-apparent) > 1e-4 {
			t.Errorf("%v with %v g/L: %v, which shows %v, %v", apparent, extract, float64(s), float64(back), err)
		}
	})
}
