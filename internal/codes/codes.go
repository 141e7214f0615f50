// Package codes writes enumerations as stable codes in snake case and reads them
// back: for text, JSON and keys of maps. Sentences are String.
package codes

import (
	"slices"

	"example.org/mutage/internal/snake"
	"example.org/mutage/units"
)

// Text is the code of value i. Error: *units.RangeError for a value without one.
func Text[T ~int](quantity string, codes []string, i T) ([]byte, error) {
	if err := units.Check(quantity, float64(i), 0, float64(len(codes)-1), "", "the values of this type"); err != nil {
		return nil, err
	}
	return []byte(codes[i]), nil
}

// Read finds the value of a code; into keeps its own on an error. Error:
// *units.ParseError.
func Read[T ~int](quantity string, codes []string, text []byte, into *T) error {
	i := slices.Index(codes, string(text))
	if i < 0 {
		return unknown(quantity, text, codes)
	}
	*into = T(i)
	return nil
}

// NameText is the code of a value that is a name; the empty one, not known, has
// the empty code. Error: *units.ParseError for another name than these.
func NameText[T ~string](quantity string, names []T, value T) ([]byte, error) {
	if value != "" && !slices.Contains(names, value) {
		return nil, unknown(quantity, []byte(value), ofNames(names))
	}
	return []byte(snake.Case(string(value))), nil
}

// ReadName finds the name of a code, and reads the name itself. Error:
// *units.ParseError.
func ReadName[T ~string](quantity string, names []T, text []byte, into *T) error {
	if len(text) == 0 {
		*into = ""
		return nil
	}
	for _, name := range names {
		if snake.Case(string(name)) == string(text) || string(name) == string(text) {
			*into = name
			return nil
		}
	}
	return unknown(quantity, text, ofNames(names))
}

func ofNames[T ~string](names []T) []string {
	var out []string
	for _, name := range names {
		out = append(out, snake.Case(string(name)))
	}
	return out
}

func unknown(quantity string, text []byte, expected []string) error {
	return &units.ParseError{Text: string(text), Quantity: quantity, Expected: slices.DeleteFunc(slices.Clone(expected), func(s string) bool { return s == "" })}
}
