package gravity_test

import (
	"testing"

	"example.org/mutage/gravity"
	"example.org/mutage/internal/handbook"
)

// FuzzScales: a text on any scale is a finite reading that reads back, or an error
// with words.
func FuzzScales(f *testing.F) {
	for _, text := range []string{"1.070", "17.1 P", "17.1 Bx", "70 Oe", "9.5 Be", "-3 Oe", "1e5", "", "1,5", "NaN", "70"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		handbook.ReadsText(t, text, new(gravity.SG), new(gravity.Plato), new(gravity.Brix), new(gravity.Baume), new(gravity.Baume1443), new(gravity.Oechsle), new(gravity.Points))
		for name, parse := range map[string]func(string) (any, error){
			"Plato":     func(s string) (any, error) { return gravity.ParsePlato(s) },
			"Brix":      func(s string) (any, error) { return gravity.ParseBrix(s) },
			"Baume":     func(s string) (any, error) { return gravity.ParseBaume(s) },
			"Baume1443": func(s string) (any, error) { return gravity.ParseBaume1443(s) },
			"Oechsle":   func(s string) (any, error) { return gravity.ParseOechsle(s) },
			"Points":    func(s string) (any, error) { return gravity.ParsePoints(s) },
		} {
			v, err := parse(text)
			handbook.Parsed(t, name, text, v, err)
		}
	})
}

// FuzzReads: instruments as JSON.
func FuzzReads(f *testing.F) {
	for _, x := range []any{gravity.Basis15C.Hydrometer(), gravity.NewRefractometer().WithZero(0.2), gravity.SG(1.05)} {
		f.Add(handbook.JSON(f, x))
	}
	f.Add([]byte(`{"reference":"1e999 C"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsJSON(t, data, gravity.Hydrometer{}, gravity.Refractometer{}, gravity.SG(0), gravity.TestReading{})
	})
}
