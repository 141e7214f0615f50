package blend_test

import (
	"testing"

	"example.org/mutage/blend"
	"example.org/mutage/internal/handbook"
)

// FuzzParse: a liquid as one says it is finite and none of it less than nothing, or
// the error has words.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"cherry: 3 L at 6.1 % vol with 142 g/L", "at 75 % vol", "3 kg at 5 % vol with 130 g/L", "fill 1 quart at 40 % vol", "2 L water", "26 fl oz at 80 proof measured at 8 C",
		"3 L at 120 % vol", "1e308 L at 1 % vol", "juice: 2 L with 2000 g/L", "3 L ± 2 % at 6 % vol", ": at", "", "no extract"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := blend.ParseComponent(text)
		handbook.Parsed(t, "component", text, c, err)
		p, err2 := blend.ParsePoured(text)
		handbook.Parsed(t, "poured", text, p, err2)
		if c.Volume < 0 || c.Strength < 0 || c.Strength > 100 || c.Extract < 0 || p.Volume < 0 || p.Strength < 0 {
			t.Errorf("%q is %+v and %+v", text, c, p)
		}
	})
}

// FuzzReads: codes as text, wants and recipes as JSON.
func FuzzReads(f *testing.F) {
	for _, x := range []any{blend.WantStrength(18), blend.WantAll(2), blend.Component{Name: "wine", Volume: 3, Strength: 6, Extract: 142}} {
		f.Add(handbook.JSON(f, x))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		handbook.ReadsText(t, string(data), new(blend.Limit), new(blend.Solute), new(blend.Solutes))
		handbook.ReadsJSON(t, data, blend.Want{}, blend.UnreachableError{}, blend.Component{}, blend.Mixture{}, blend.Recipe{}, blend.Arrest{}, blend.Finding{})
	})
}
