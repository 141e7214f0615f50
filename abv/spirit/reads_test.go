package spirit_test

import (
	"testing"

	"example.org/mutage/abv/spirit"
	"example.org/mutage/internal/handbook"
)

// FuzzParseStrength: a label's strength lies between water and pure alcohol, or the
// error has words.
func FuzzParseStrength(f *testing.F) {
	for _, text := range []string{"40 % vol", "80 proof", "70 degrees proof", "80 US proof", "40", "200 proof", "201 proof", "1e99 proof", "-1 %", "overproof", "33 % mass", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := spirit.ParseStrength(text)
		handbook.Parsed(t, "strength", text, s, err)
		if s < 0 || s > 100 {
			t.Errorf("%q is %v", text, s)
		}
	})
}
