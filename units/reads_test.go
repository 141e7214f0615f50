package units_test

import (
	"testing"

	"example.org/mutage/internal/handbook"
	"example.org/mutage/units"
)

// FuzzQuantities: a text is a finite quantity that reads back, or an error with words.
func FuzzQuantities(f *testing.F) {
	for _, text := range []string{"1 1/2 cups", "40 % vol", "80 proof", "68 F", "-5 °C", "0 K", "1.5 bar", "22 psi", "1068 kg/m3", "26 g per 240 mL", "350 ppm", "1e308 g", "5 % mass", "NaN", "-0", "", "1,5 L", "½"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		handbook.ReadsText(t, text, new(units.Concentration), new(units.Density), new(units.Mass), new(units.MassPercent), new(units.Pressure),
			new(units.Strength), new(units.Temperature), new(units.Volume))
		for name, parse := range map[string]func(string) (any, error){
			"Concentration": func(s string) (any, error) { return units.ParseConcentration(s) },
			"Density":       func(s string) (any, error) { return units.ParseDensity(s) },
			"Mass":          func(s string) (any, error) { return units.ParseMass(s) },
			"MassPercent":   func(s string) (any, error) { return units.ParseMassPercent(s) },
			"Pressure":      func(s string) (any, error) { return units.ParsePressure(s) },
			"Strength":      func(s string) (any, error) { return units.ParseStrength(s) },
			"Temperature":   func(s string) (any, error) { return units.ParseTemperature(s) },
			"Fahrenheit":    func(s string) (any, error) { return units.ParseTemperatureIn(s, units.Fahrenheit) },
			"Volume":        func(s string) (any, error) { return units.ParseVolume(s) },
			"millilitres":   func(s string) (any, error) { return units.ParseIn(s, units.Millilitre) },
			"Set": func(s string) (any, error) {
				var v units.Volume
				err := v.Set(s)
				return v, err
			},
		} {
			v, err := parse(text)
			handbook.Parsed(t, name, text, v, err)
		}
	})
}

// FuzzReads: figures and errors as JSON.
func FuzzReads(f *testing.F) {
	for _, data := range []string{`{"key":"volume","name":"volume","value":3,"unit":"L","uncertainty":0.03,"method":"m","source":"s","note":""}`, `{"value":1e300,"uncertainty":null}`,
		`{"key":"strength","of":"spirit","quantity":"strength","value":"+Inf","min":0,"max":100,"unit":"% vol"}`, `{"text":"3 kg","quantity":"volume","expected":["L"],"offset":2}`, `"40 % vol"`, `40`, `null`, `{}`} {
		f.Add([]byte(data))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsJSON(t, data, units.Figure{}, units.ParseError{}, units.RangeError{}, units.Volume(0), units.Temperature(0), units.Strength(0))
	})
}
