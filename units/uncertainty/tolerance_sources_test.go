package uncertainty

import (
	"math"
	"testing"
)

// Tolerances as their names and sources have them: half a division, the middle
// of a range, the figure of a rule.
func TestTolerancesAreThoseOfTheirSources(t *testing.T) {
	for name, want := range map[string]float64{
		"hydrometer divided in 0.002, read to half a division":       0.002 / 2,
		"refractometer divided in 0.2 Brix, read to half a division": 0.2 / 2,
		"thermometer divided in whole degrees":                       0.4, // Bavarian regulation of 1911
		"measuring jug":                                              0.03,
		"bottle fill, 376 to 999 mL":                                 0.02, // 27 CFR 19.356(b): 2.0 percent
		"stated strength of a spirit":                                0.3,  // Annex XII: 0.3 % vol
		"level measuring spoon of powder":                            (0.10 + 0.20) / 2,
		"sugar by the level cup":                                     0.05, // common practice, no source
	} {
		found := false
		for _, x := range Tolerances() {
			found = found || x.Name == name && math.Abs(x.HalfWidth-want) < 1e-12 && x.Source != ""
		}
		if !found {
			t.Errorf("%s is not %v", name, want)
		}
	}
}
