package sugar_test

import (
	"testing"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/internal/handbook"
)

// FuzzParseAmount: a text is an amount above nothing or an error with words.
func FuzzParseAmount(f *testing.F) {
	for _, text := range []string{"1 cup", "2 lb", "300 g", "1 1/2 cups", "½ cup", "1e400 g", "-1 g", "", "1,5 kg", "3 tsp + 1 cup"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, m, err := sugar.ParseAmount(text)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without words")
			}
			return
		}
		handbook.Finite(t, text, m)
		handbook.Finite(t, text, s)
		if m < 0 {
			t.Errorf("%q is %v", text, m)
		}
	})
}
