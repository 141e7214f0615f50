package watch

import (
	"fmt"
	"slices"

	"example.org/mutage/units"
)

// word is the i-th of the words, or the bare number.
func word(i int, words []string) string {
	if i < 0 || i >= len(words) || words[i] == "" {
		return fmt.Sprintf("value %d", i)
	}
	return words[i]
}

// encode is the i-th of the codes, which do not change between versions. No code
// is an error: *units.RangeError.
func encode(quantity string, i int, codes []string) ([]byte, error) {
	if err := units.Check(quantity, float64(i), 0, float64(len(codes)-1), "", ""); err != nil {
		return nil, err
	}
	return []byte(codes[i]), nil
}

// decode is the inverse of encode. Error: *units.ParseError.
func decode[T ~int](quantity string, value *T, text []byte, codes []string) error {
	i := slices.Index(codes, string(text))
	if i < 0 {
		return &units.ParseError{Text: string(text), Quantity: quantity, Expected: codes}
	}
	*value = T(i)
	return nil
}
