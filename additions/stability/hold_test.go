package stability

import (
	"errors"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units"
)

// Strength and sugar alone hold as far as Judge says that they do.
func TestHoldOfIsThatOfTheVerdict(t *testing.T) {
	found := map[Hold]int{}
	for s := 0.0; s <= 25; s += 0.5 {
		for sugar := 0.0; sugar <= 900; sugar += 2.5 {
			c := units.Concentration(sugar)
			got, err := HoldOf(units.Strength(s), c)
			if err != nil {
				t.Fatal(err)
			}
			v, err := Judge(Wine{Strength: units.Strength(s), Sugar: abv.Sugars{Low: c, Likely: c, High: c}, Extract: c})
			if err != nil {
				continue // the wine of which nothing is stated
			}
			want := None
			for _, key := range []string{"no_sugar", "alcohol", "alcohol_and_sugar"} {
				want = max(want, v.Barrier(key).Hold)
			}
			if got != want {
				t.Errorf("%v %% vol, %v g/L: %s, the verdict has %s", s, sugar, got, want)
			}
			found[got]++
		}
	}
	if found[Holds] == 0 || found[Weak] == 0 || found[None] == 0 {
		t.Errorf("%v", found)
	}
	var out *units.RangeError
	if _, err := HoldOf(101, 0); !errors.As(err, &out) {
		t.Error(err)
	}
	if _, err := HoldOf(20, -1); !errors.As(err, &out) {
		t.Error(err)
	}
}
