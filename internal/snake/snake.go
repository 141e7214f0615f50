// Package snake makes the stable keys and codes of the library from names.
package snake

import "strings"

// Case is a name in snake case: "original gravity" is "original_gravity". What is
// neither a letter of ASCII nor a digit parts two words.
func Case(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	return strings.Join(words, "_")
}
