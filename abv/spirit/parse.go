package spirit

import (
	"strings"

	"example.org/mutage/abv"
	"example.org/mutage/internal/check"
	"example.org/mutage/internal/density"
	"example.org/mutage/units"
)

// A wording is a proof as labels write it. The first that fits is meant.
var wordings = []struct {
	words []string
	from  func(float64) (units.Strength, error)
}{
	{[]string{"british proof", "uk proof", "degrees british proof", "degrees uk proof", "° uk proof", "° british proof"}, FromBritishProof},
	{[]string{"proof", "us proof", "degrees proof", "degrees us proof", "° proof"}, FromUSProof},
}

// ParseStrength reads a strength as a label or an old book states it and gives
// it by volume at 20 C: "40 % vol", "80 proof" (US, 60 F), "70 degrees UK proof",
// "33.3 % mass", "40 % vol at 15 C" (volumes measured at 15 C). Domain: other
// temperatures 0 to 30 C; else that of the function that changes the basis.
// Errors: *units.ParseError, *units.RangeError.
func ParseStrength(text string) (units.Strength, error) {
	t := strings.ToLower(strings.TrimSpace(text))
	if strength, basis, found := strings.Cut(t, " at "); found {
		return atBasis(strength, basis)
	}
	for _, w := range wordings {
		x, unit, err := units.Scan("strength", t)
		for _, word := range w.words {
			if err == nil && unit == word {
				return w.from(x.InexactFloat64())
			}
		}
	}
	if strings.Contains(t, "mass") || strings.Contains(t, "w/w") || strings.Contains(t, "weight") {
		m, err := units.ParseMassPercent(text)
		if err != nil {
			return 0, err
		}
		return abv.ByVolume(m)
	}
	return units.ParseStrength(text)
}

// atBasis is a strength whose volumes were measured at another temperature.
func atBasis(strength, basis string) (units.Strength, error) {
	s, err := units.ParseStrength(strength)
	if err != nil {
		return 0, err
	}
	t, err := units.ParseTemperature(basis)
	if err != nil {
		return 0, err
	}
	if err := units.Check("temperature of a stated strength", t.Celsius(), 0, 30, "C", check.Bound); err != nil {
		return 0, err
	}
	return units.Strength(density.ByVolume(density.ByMassAt(float64(s), t.Celsius()))), nil
}
