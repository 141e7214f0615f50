package stability

import (
	"errors"
	"strings"
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/units"
)

// Who may have sugar left is told that a closed bottle can burst, and who has none is
// not: it is the high end of the sugar that counts, 2 g/L.
func TestTheBurstBottleIsToldAtTheHighEnd(t *testing.T) {
	for high, told := range map[units.Concentration]bool{30: true, 2.1: true, 2: false} {
		v, err := Judge(Wine{Strength: 12, Sugar: abv.Sugars{Low: 0.5, Likely: 1, High: high}})
		if err != nil {
			t.Fatal(err)
		}
		said := false
		for _, n := range v.Notes {
			said = said || strings.Contains(n.Text, "burst")
		}
		if said != told {
			t.Errorf("sugar of 0.5 to %v g/L: burst %v", float64(high), said)
		}
	}
}

// The pressure of a closed bottle refuses a wine that Judge refuses.
func TestSealedPressureRefusesWhatIsNoWine(t *testing.T) {
	for name, w := range map[string]Wine{
		"uncertainty below nothing": {Strength: 12, StrengthUncertainty: -1, Sugar: abv.Sugars{Low: 40, Likely: 50, High: 60}},
		"sugars out of order":       {Strength: 12, Sugar: abv.Sugars{Low: 60, Likely: 50, High: 40}},
	} {
		var outside *units.RangeError
		if p, err := SealedPressure(w, Closed{Volume: 0.75, Headspace: 0.015}, units.Celsius(25)); !errors.As(err, &outside) {
			t.Errorf("%s: %v, %v", name, p, err)
		}
	}
}
