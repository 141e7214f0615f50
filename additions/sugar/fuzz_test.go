package sugar_test

import (
	"testing"

	"example.org/mutage/additions/sugar"
	"example.org/mutage/internal/handbook"
)

// FuzzParseSweetener: a sweetener by name, and an amount of it as it is measured.
func FuzzParseSweetener(f *testing.F) {
	for _, text := range []string{"honey", "syrup of 65 Bx", "concentrate of 1e9 Bx", "concentrate of 65 P", "2 tbsp", "1 cup", "syrup", "", "syrup of -1 Bx"} {
		f.Add(text, text)
	}
	f.Fuzz(func(t *testing.T, name, amount string) {
		s, err := sugar.ParseSweetener(name)
		handbook.Parsed(t, "sweetener", name, s, err)
		if err != nil {
			return
		}
		m, err := s.ParseMass(amount)
		handbook.Parsed(t, "mass", amount, m, err)
		if m < 0 {
			t.Errorf("%q of %q is %v", amount, name, m)
		}
	})
}

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
