package abv_test

import (
	"testing"

	"example.org/mutage/abv"
	"example.org/mutage/internal/handbook"
)

// FuzzReads: a yield by name, and results as JSON.
func FuzzReads(f *testing.F) {
	for _, x := range []any{abv.Must, handbook.Must(abv.StopAt(1.092, 6, abv.Must)), handbook.Must(abv.BoilOff(1.0225, 1.0355)), abv.Sugars{Low: 1, Likely: 2, High: 3}} {
		f.Add(handbook.JSON(f, x))
	}
	f.Add([]byte("wort"))
	f.Fuzz(func(t *testing.T, data []byte) {
		y, err := abv.ParseYield(string(data))
		handbook.Parsed(t, "yield", string(data), y, err)
		handbook.ReadsJSON(t, data, abv.Estimate{}, abv.Fermented{}, abv.Composition{}, abv.Sugars{}, abv.NotSugar{}, abv.Window{}, abv.Evaporation{}, abv.Determination{}, abv.Yield{})
	})
}
