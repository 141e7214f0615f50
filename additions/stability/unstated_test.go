package stability

import (
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units"
)

// A wine whose sugar is left out is asked for it where its extract is more than any
// grape wine has that is no sugar, 37 g/L, and not up to that.
func TestExtractBesideNoSugar(t *testing.T) {
	grapes, err := abv.NotSugarOf("")
	if err != nil {
		t.Fatal(err)
	}
	for extract, asked := range map[units.Concentration]bool{grapes.High: false, grapes.High * 1.0001: true} {
		v, err := Judge(Wine{Strength: 14, Extract: extract})
		if err != nil {
			t.Fatal(err)
		}
		said := false
		for _, n := range v.Notes {
			said = said || strings.HasPrefix(n.Text, "No sugar is stated beside")
		}
		if said != asked {
			t.Errorf("%v g/L: %v", float64(extract), v.Notes)
		}
	}
}

// A litre of anything holds less than 1000 g of sugar.
func TestHoldOfItsDomain(t *testing.T) {
	for sugar, refused := range map[units.Concentration]bool{1000: false, 1001: true} {
		if _, err := HoldOf(14, sugar); (err != nil) != refused {
			t.Errorf("%v g/L: %v", float64(sugar), err)
		}
	}
}
